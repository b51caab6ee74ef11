package intake

import (
	"math"
)

// Rule is one line of a price schedule: what a reading adds to the price of a
// tonne, negative for a discount. Readings are in the printed unit of the
// line (per cent, kg/hL, s). Where the rule has no answer it gives NaN.
type Rule interface {
	Adjust(x float64, boundary Boundary) float64
}

// Part says what counts of a step that is only begun.
type Part int

// The ways.
const (
	PartNothing Part = iota // whole steps only
	PartWhole               // a step begun is a step
	PartShare               // by its share
)

// steps is how many steps a distance makes.
func (p Part) steps(distance, step float64) float64 {
	if !(step > 0) {
		return math.NaN()
	}
	n := distance / step
	switch {
	case n <= roundSlack:
		return 0
	case p == PartNothing:
		return math.Floor(n + roundSlack)
	case p == PartWhole:
		return math.Ceil(n - roundSlack)
	}
	return n
}

// Boundary says whom a reading favours that falls on the line between two
// rows.
type Boundary int

// The parties.
const (
	ForSeller Boundary = iota
	ForBuyer
)

// PerStep changes the price for each step by which a reading is beyond a
// threshold.
type PerStep struct {
	From   float64
	Below  bool // steps count downwards from From
	Step   float64
	Amount float64
	Part   Part
}

// Adjust is what the reading adds.
//
//	amount · steps((x - from)/step)
//
// Definition.
func (r PerStep) Adjust(x float64, _ Boundary) float64 {
	distance := x - r.From
	if r.Below {
		distance = -distance
	}
	return r.Amount * r.Part.steps(distance, r.Step)
}

// Tiers add up over bands, each with its own rate: "2 a point up to 7 %, then
// 4".
type Tiers struct {
	From float64
	Part Part
	Tier []Tier // by rising To
}

// Tier is one band, from the end of the one before.
type Tier struct {
	To     float64 // +Inf of a last tier without end
	Step   float64
	Amount float64
}

// Adjust is what the reading adds; NaN beyond the last tier.
//
//	Σ amount_i · steps((min(x, to_i) - to_(i-1))/step_i)
//
// Definition.
func (r Tiers) Adjust(x float64, _ Boundary) float64 {
	sum, from := 0.0, r.From
	for _, t := range r.Tier {
		if x <= from {
			return sum
		}
		sum += t.Amount * r.Part.steps(min(x, t.To)-from, t.Step)
		from = t.To
	}
	if x > from+roundSlack {
		return math.NaN()
	}
	return sum
}

// Ranges look the change up in a list of bands.
type Ranges []Range

// Range is one band, both ends included.
type Range struct{ From, To, Amount float64 }

// Adjust is what the reading adds; NaN where no band holds it. On the line
// between two bands the boundary says which.
//
// Definition.
func (r Ranges) Adjust(x float64, boundary Boundary) float64 {
	out := math.NaN()
	for _, band := range r {
		if x < band.From-roundSlack || x > band.To+roundSlack {
			continue
		}
		better := band.Amount > out
		if math.IsNaN(out) || better == (boundary == ForSeller) {
			out = band.Amount
		}
	}
	return out
}

// Scale pays on both sides of a base: so much for each fifth of a per cent of
// protein below it, so much off for each above.
type Scale struct {
	Base         float64
	Step         float64
	Below, Above float64 // change for each step on either side
	Part         Part
	MostBelow    float64 // steps that count at most; 0 without end
	MostAbove    float64
}

// Adjust is what the reading adds.
//
//	below · steps((base - x)/step)  or  above · steps((x - base)/step)
//
// Definition.
func (r Scale) Adjust(x float64, _ Boundary) float64 {
	amount, distance, most := r.Above, x-r.Base, r.MostAbove
	if x < r.Base {
		amount, distance, most = r.Below, r.Base-x, r.MostBelow
	}
	n := r.Part.steps(distance, r.Step)
	if most > 0 {
		n = min(n, most)
	}
	return amount * n
}
