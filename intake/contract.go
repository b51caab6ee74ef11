package intake

import (
	"math"

	"awn/odds"
)

// Contract is what a buyer asks and pays.
type Contract struct {
	Name, Buyer string
	Variety     string // "" any
	Currency    string
	PriceT      float64 // base, per tonne payable; NaN if the contract has none

	Dockage  DockageRule
	Shrink   Shrink
	Boundary Boundary
	Terms    []Term
	// Wanted is the chance of meeting each limit below which a load is held
	// for a test although its reading passes; 0 takes readings as they are.
	Wanted float64
}

// Term is one factor of a contract: what it must be, and what it does to the
// price.
type Term struct {
	Column      // factor, unit, and the rounding of the reading; Least is not used
	AsIs   bool // protein of the grain as it stands, not of dry matter
	Least  float64
	Most   float64 // NaN where there is no limit
	// Tolerance is by how much, in the column's unit, a limit may be missed
	// and the load still be taken.
	Tolerance float64
	Call      bool // beyond the limit the buyer is called rather than the load refused
	Optional  bool // a load without this reading is taken all the same
	Rule      Rule // nil where it does not touch the price
}

// limits are the ends that are set, the tolerance left out.
func (t Term) limits() (out []Limit) {
	for _, end := range []struct {
		at    float64
		least bool
	}{{t.Least, true}, {t.Most, false}} {
		if !math.IsNaN(end.at) {
			c := t.Column
			c.Least = end.least
			out = append(out, Limit{c, end.at})
		}
	}
	return out
}

// judge holds a load against a limit of the term, on the term's basis.
func (t Term) judge(l *Load, limit Limit) Verdict {
	if !t.AsIs {
		return l.Judge(limit)
	}
	converted := *l
	converted.Readings = map[Factor]Reading{}
	if v := t.value(l); v.Known() {
		converted.Readings[t.Factor] = Reading{Value: v}
	}
	return converted.Judge(limit)
}

// value is what is known of the term's factor, on the term's basis.
func (t Term) value(l *Load) odds.Value {
	v, ok := l.Value(t.Key)
	if !ok || !t.AsIs {
		return v
	}
	w, ok := l.Value(Of(Moisture))
	if !ok {
		return unknown()
	}
	return v.Map(func(x float64) float64 { return x * (1 - w.Mid) })
}
