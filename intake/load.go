package intake

import (
	"math"
	"slices"

	"awn/lab"
	"awn/odds"
)

// Day is a date as "2026-08-31"; "" is unknown. Days compare as texts.
type Day string

// Seen says whether somebody looked, and what came of it.
type Seen int

// The answers.
const (
	NotLooked Seen = iota
	No
	Yes
)

// Load is what came to the gate. Figures that are not known are NaN, and
// factors that nobody looked at have no reading.
type Load struct {
	Code    string
	Variety string // as declared
	Rows    int    // 2 or 6, 0 unknown

	NetKg   float64 // gross less tare
	Dockage float64 // share of the net that an approved device takes out

	Readings map[Factor]Reading
	Sieves   []Sieve
	// NotedAll says that whoever inspected the load notes frost, heat, mould,
	// ergot, smut, garlic, stones, glass, odour, heating and insects where
	// they are found; what is not noted then counts as none.
	NotedAll bool

	TrueToType    Seen // variety identity test: does it agree with the declaration
	PreviousCargo string
	Arrived       Day
	FumigantClear Day     // first day on which the grain may be handled; "" not fumigated or not said
	GrainC        float64 // temperature of the grain
	Meter         string  // the moisture meter used
	Vehicle       Vehicle
}

// Reading is what was found of one factor.
type Reading struct {
	Value odds.Value      // in the unit of the factor
	Count odds.Proportion // what it was counted from; Of is 0 where it was not counted
	Below bool            // below what the method can see, which is Value.Mid
	Plan  ToxinPlan       // how a mycotoxin was sampled; zero where it is not known
}

// Read is a reading without a band.
func Read(x float64) Reading { return Reading{Value: odds.Alone(x, odds.Measured)} }

// Counted is a reading that was counted.
func Counted(hits, of int) Reading {
	p := odds.Proportion{Hits: hits, Of: of}
	return Reading{Value: p.Value(odds.Measured), Count: p}
}

// Sieve is the share of a sample, by mass, that one slot holds, coarser
// fractions included.
type Sieve struct {
	SlotM float64
	Held  odds.Value
}

// slotSlack is how far two slots may differ and still be the same: printed
// widths are rounded to it. It is a tenth of what parts 5.5/64 in from 2.2 mm.
const slotSlack = 2e-6

// Slot64 is the width of a slot given in 64ths of an inch, m.
//
//	d = 0.0254 n/64
//
// Definition.
func Slot64(n float64) float64 { return 0.0254 * n / 64 }

// Value is what is known of a factor, with a band where one can be given:
// counts by their sampling, moisture and protein by the precision between two
// laboratories, mycotoxins by their sampling. It is unknown where nobody
// looked, and where a sieve of another width was used.
func (l *Load) Value(k Key) (odds.Value, bool) {
	if k.Factor.Sieved() {
		return l.sieved(k)
	}
	r, ok := l.Readings[k.Factor]
	if !ok && l.NotedAll && slices.Contains(noted, k.Factor) {
		return odds.Alone(0, odds.Measured), true
	}
	if !ok || !r.Value.Known() {
		return unknown(), false
	}
	return r.banded(k.Factor), true
}

// sieved is the share held by a slot or fallen through it.
func (l *Load) sieved(k Key) (odds.Value, bool) {
	for _, s := range l.Sieves {
		if math.Abs(s.SlotM-k.SlotM) <= slotSlack && s.Held.Known() {
			if k.Factor == Held {
				return s.Held, true
			}
			return s.Held.Map(func(x float64) float64 { return 1 - x }), true
		}
	}
	return unknown(), false
}

// banded gives the reading the band that its kind allows.
func (r Reading) banded(f Factor) odds.Value {
	switch {
	case r.Below:
		return odds.Value{Mid: r.Value.Mid, Low: 0, High: r.Value.Mid, Standing: odds.Measured}
	case r.Value.Banded():
		return r.Value
	case r.Count.Valid():
		return r.Count.Value(odds.Measured)
	case f == DON && r.Plan.Valid():
		return r.Plan.True(r.Value.Mid)
	case f == Moisture:
		if p, ok := lab.FindPrecision("moisture", "barley", ""); ok {
			return p.Result(r.Value.Mid)
		}
	case f == Protein:
		if p, ok := lab.FindPrecision("nitrogen", "barley", ""); ok {
			return p.Result(lab.Nitrogen(r.Value.Mid)).Map(lab.Protein)
		}
	}
	return r.Value
}

func unknown() odds.Value { return odds.Alone(math.NaN(), odds.Weak) }
