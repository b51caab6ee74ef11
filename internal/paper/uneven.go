package paper

import (
	"math"
	"strconv"

	"awn/barley"
)

// Uneven is how unevenly a bed lies in its vessel.
type Uneven struct {
	Depth   *Percent `key:"depth" max:"50 %" doc:"How much the thin spot is thinner and the thick one thicker than the mean. Each is a quarter of the floor."`
	Columns []Column `key:"columns?" min:"1" max:"9" doc:"The spots one by one, in place of depth."`
	Packing *float64 `key:"packing" min:"0.5" max:"4" doc:"Resistance to air of the thick spot over that of the rest at the same depth, with depth."`

	_ struct{} `rule:"one of depth columns"`
}

// Column is one spot of a bed.
type Column struct {
	Share   Percent  `key:"share" min:"1 %" doc:"Of the floor. All together are 100 %."`
	Depth   float64  `key:"depth" min:"0.2" max:"5" doc:"Depth against that of the other spots."`
	Packing *float64 `key:"packing" min:"0.5" max:"4" doc:"Resistance to air at the same depth against that of loose grain. 1, if it is not given."`
}

// usualPacking is how much more the thick spot resists the air for its depth.
//
// Assumed: common practice, no source.
const usualPacking = 1.25

// wholeFloor is how far the shares of the spots may sum from 100 %.
const wholeFloor = 0.5

// Check finds spots that are not the whole floor.
func (u Uneven) Check() []Fault {
	sum := 0.0
	for _, c := range u.Columns {
		sum += c.Share.In("%")
	}
	if u.Columns != nil && math.Abs(sum-100) > wholeFloor {
		return []Fault{{Code: "plant.columns.not-whole", Path: "columns", Got: strconv.FormatFloat(sum, 'g', 4, 64) + " %"}}
	}
	return nil
}

// columns are the spots; nil for a bed of which nothing is said.
func (u *Uneven) columns() []barley.Column {
	switch {
	case u == nil:
		return nil
	case u.Depth != nil:
		return barley.Uneven(u.Depth.In("%")/100, orElse(u.Packing, usualPacking))
	}
	var out []barley.Column
	floor, depth := 0.0, 0.0
	for _, c := range u.Columns {
		share := c.Share.In("%") / 100
		out = append(out, barley.Column{Share: share, Depth: c.Depth, Packing: orElse(c.Packing, 1)})
		floor += share
		depth += share * c.Depth
	}
	for i := range out { // of the whole floor and of the mean depth
		out[i].Share /= floor
		out[i].Depth *= floor / depth
	}
	return out
}
