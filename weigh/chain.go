package weigh

import (
	"fmt"
	"math"
	"slices"
)

// Place is where grain was weighed on its way, or its moisture read, or both.
// Figures that nobody has are NaN.
type Place struct {
	Name   string
	Change Change // what was done to the grain since the place before

	Kg, KgShare      float64 // mass as it stood, and the deviation of the scale as a share of it
	Moisture, Points float64 // wet basis, and the deviation of the tester

	OffKg       float64 // taken out and weighed since the place before: screenings, culms
	OffMoisture float64 // its moisture; as the grain's here if NaN
	OffShare    float64 // deviation of its scale as a share
	Lost        float64 // share of the dry matter gone unweighed since the place before
	LostBy      float64 // its deviation
}

// Change is what may have altered since the place before.
type Change int

// The changes.
const (
	Moved   Change = iota // nothing, but for what was taken out
	Watered               // the moisture: it was dried or wetted
	Malted                // the moisture, and dry matter went unweighed
)

// Kind is what a reading of a chain is of.
type Kind int

// The kinds.
const (
	OfMass Kind = iota
	OfMoisture
	OfOff
	OfLost
)

// Spot is where a reading of a chain was made.
type Spot struct {
	Place int
	Kind  Kind
}

// Chain is grain on its way from place to place as a network.
type Chain struct {
	Network
	Spots []Spot // by reading
	Mass  []int  // by place: index of the quantity
	Water []int  // -1 where no moisture was read and none is needed

	places []Place
	dryly  bool // no moisture was read, and nothing was dried or wetted
}

// NewChain lays out what was read of one load at its places in their order.
func NewChain(places []Place) (*Chain, error) {
	c := &Chain{places: places, dryly: !slices.ContainsFunc(places, func(p Place) bool { return p.Change != Moved || !math.IsNaN(p.Moisture) })}
	if len(places) < 2 {
		return nil, fmt.Errorf("weigh: %d places, at least two are compared: %w", len(places), ErrOpen)
	}
	for i := range places {
		if err := c.add(i); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// add lays out the quantities and readings of a place, and its balance with
// the place before.
func (c *Chain) add(i int) error {
	p := &c.places[i]
	if err := p.check(i); err != nil {
		return err
	}
	off := i > 0 && !math.IsNaN(p.OffKg)
	kg, moisture := p.Kg, p.Moisture
	if math.IsNaN(kg) {
		kg = c.guess(i)
	}
	if i > 0 && math.IsNaN(moisture) && !c.dryly {
		moisture = c.Quantities[c.Water[i-1]].Guess
	}
	if math.IsNaN(kg) || math.IsNaN(moisture) && !c.dryly {
		return ErrOpen
	}
	if i == 0 || p.Change != Moved || off {
		c.Mass = append(c.Mass, c.quantity("mass", kg, kg))
	} else {
		c.Mass = append(c.Mass, c.Mass[i-1])
	}
	switch {
	case c.dryly:
		c.Water = append(c.Water, -1)
	case i == 0 || p.Change != Moved:
		c.Water = append(c.Water, c.quantity("moisture", moisture, 0.1))
	default:
		c.Water = append(c.Water, c.Water[i-1])
	}
	c.reading(Spot{i, OfMass}, c.Mass[i], p.Kg, p.KgShare*p.Kg)
	c.reading(Spot{i, OfMoisture}, c.Water[i], p.Moisture, p.Points)
	if i > 0 && (p.Change != Moved || off) {
		c.balance(i, off)
	}
	return nil
}

// guess is the mass read nearest before or after a place.
func (c *Chain) guess(i int) float64 {
	if i > 0 {
		return c.Quantities[c.Mass[i-1]].Guess
	}
	for _, p := range c.places {
		if !math.IsNaN(p.Kg) {
			return p.Kg
		}
	}
	return math.NaN()
}

func (c *Chain) quantity(name string, guess, scale float64) int {
	c.Quantities = append(c.Quantities, Quantity{name, guess, scale})
	return len(c.Quantities) - 1
}

// reading notes what somebody read; nothing if nobody did.
func (c *Chain) reading(at Spot, of int, value, deviation float64) {
	if math.IsNaN(value) {
		return
	}
	name := c.places[at.Place].Name + [...]string{": mass", ": moisture", ": taken out", ": lost"}[at.Kind]
	c.Readings = append(c.Readings, Reading{name, of, value, deviation})
	c.Spots = append(c.Spots, at)
}

// balance says that the dry matter of the place before is that of this one,
// with what was taken out and what went unweighed.
func (c *Chain) balance(i int, off bool) {
	p := c.places[i]
	m0, w0, m1, w1 := c.Mass[i-1], c.Water[i-1], c.Mass[i], c.Water[i]
	out, lost := -1, -1
	if off {
		out = c.quantity("taken out", p.OffKg, max(p.OffKg, 1e-3*c.Quantities[m1].Scale))
		c.reading(Spot{i, OfOff}, out, p.OffKg, max(p.OffShare*p.OffKg, 1e-6*c.Quantities[m1].Scale))
	}
	if p.LostBy > 0 {
		lost = c.quantity("lost", p.Lost, 0.1)
		c.reading(Spot{i, OfLost}, lost, p.Lost, p.LostBy)
	}
	c.Balances = append(c.Balances, func(x []float64) float64 {
		came := x[m0] * dry(x, w0)
		if lost >= 0 {
			came *= 1 - x[lost]
		}
		went := x[m1] * dry(x, w1)
		switch {
		case out >= 0 && (c.dryly || math.IsNaN(p.OffMoisture)):
			went += x[out] * dry(x, w1)
		case out >= 0:
			went += x[out] * (1 - p.OffMoisture)
		}
		return came - went
	})
}

// dry is the dry share of grain by the index of its moisture; all of it where
// moisture plays no part.
func dry(x []float64, water int) float64 {
	if water < 0 {
		return 1
	}
	return 1 - x[water]
}

// check reports what cannot be of a place.
func (p *Place) check(i int) error {
	for _, f := range []struct {
		name        string
		x           float64
		least, most float64
	}{
		{"mass", p.Kg, 1e-6, 1e12}, {"deviation of the scale", p.KgShare, 1e-9, 1}, {"moisture", p.Moisture, 0, 0.95},
		{"deviation of the tester", p.Points, 1e-9, 0.5}, {"mass taken out", p.OffKg, 0, 1e12}, {"its moisture", p.OffMoisture, 0, 0.95},
		{"deviation of its scale", p.OffShare, 0, 1}, {"share lost", p.Lost, 0, 0.9}, {"its deviation", p.LostBy, 0, 0.5},
	} {
		if f.x < f.least || f.x > f.most {
			return fmt.Errorf("weigh: place %d: the %s of %g is not within %g to %g", i+1, f.name, f.x, f.least, f.most)
		}
	}
	return nil
}
