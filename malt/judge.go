package malt

import (
	"math"

	"awn/odds"
)

// Word is the outcome of one limit.
type Word string

// The words.
const (
	Passes    Word = "passes"
	Fails     Word = "fails"
	CannotSay Word = "cannot-say"
)

// Verdict is one limit against an analysis. All figures are on the basis of the
// limit.
type Verdict struct {
	Limit  Limit
	Word   Word
	Reason Reason // why it cannot be said

	Found  Found   // the figure, the basis it was found on, and what converting took
	Margin float64 // room to the nearer end; negative: how far it fails; NaN if it cannot be said
	Chance float64 // chance that the true figure lies within the limit; NaN without a band
	Guard  float64 // how far two laboratories may differ at this figure, 19 times out of 20; NaN if not known

	Converted   bool // the figure was found on another basis
	OtherMethod bool // limit and figure name different methods
}

// rounding is the share of a limit by which arithmetic alone may miss it.
const rounding = 1e-9

// Judge holds an analysis against a specification: one verdict for each limit,
// in its order. Nothing is left out: what cannot be said has its reason.
func Judge(s Specification, a Analysis) []Verdict {
	out := make([]Verdict, len(s.Limits))
	for i, l := range s.Limits {
		out[i] = judge(l, a)
	}
	return out
}

func judge(l Limit, a Analysis) Verdict {
	v := Verdict{Limit: l, Word: CannotSay, Found: notFound, Margin: math.NaN(), Chance: math.NaN(), Guard: math.NaN()}
	if math.IsNaN(l.Min) && math.IsNaN(l.Max) {
		v.Reason = LimitEmpty
		return v
	}
	v.Found, v.Reason = a.On(l.Parameter, l.Basis)
	if v.Reason != Given {
		return v
	}
	v.Converted = v.Found.On != l.Basis
	v.OtherMethod = l.Method != "" && v.Found.Method != "" && l.Method != v.Found.Method
	v.Margin = l.margin(v.Found.Value.Mid)
	v.Chance = l.chance(v.Found)
	v.Guard = a.guard(l, v.Found)
	if v.Margin >= 0 {
		v.Word = Passes
	} else {
		v.Word = Fails
	}
	return v
}

// Odds is the chance that the true figure lies within the limit: that of its
// band or, where it was given without one, of how far laboratories differ. NaN
// where neither is known.
//
//	s_R = guard / (1.96·√2)
//
// Source: ISO 5725-6:1994, 4.1.4 (from memory: reproducibility limit R = 2.8 s_R).
// Valid: errors between laboratories that are normal.
// Check: malt/judge_test.go, a figure half its guard within a limit.
func (v Verdict) Odds() float64 {
	if !math.IsNaN(v.Chance) || !(v.Guard > 0) {
		return v.Chance
	}
	between := v.Found
	between.Value = odds.WithDeviation(v.Found.Value.Mid, v.Guard/(limitOfTwo*math.Sqrt2), v.Found.Value.Standing)
	return v.Limit.chance(between)
}

// limitOfTwo is how many standard deviations nineteen in twenty normal
// differences stay within.
const limitOfTwo = 1.96

// margin is the room between x and the nearer end that is set.
func (l Limit) margin(x float64) float64 {
	room := math.Inf(1)
	for _, end := range []struct{ at, room float64 }{{l.Min, x - l.Min}, {l.Max, l.Max - x}} {
		if math.IsNaN(end.at) {
			continue
		}
		if math.Abs(end.room) <= rounding*math.Abs(end.at) {
			end.room = 0
		}
		room = min(room, end.room)
	}
	return room
}

// chance is the chance that the true figure lies within the limit.
func (l Limit) chance(f Found) float64 {
	below, above := 1.0, 0.0
	if !f.Value.Banded() {
		return math.NaN()
	}
	if !math.IsNaN(l.Max) {
		below = f.Value.ChanceBelow(l.Max)
	}
	if !math.IsNaN(l.Min) {
		above = f.Value.ChanceBelow(l.Min)
	}
	return max(0, below-above)
}

// Overall is the outcome of a specification: it fails if any limit fails, and
// passes only if every limit does.
func Overall(verdicts []Verdict) Word {
	out := Passes
	if len(verdicts) == 0 {
		return CannotSay
	}
	for _, v := range verdicts {
		switch v.Word {
		case Fails:
			return Fails
		case CannotSay:
			out = CannotSay
		}
	}
	return out
}
