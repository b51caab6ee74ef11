package course

import (
	"math"
	"slices"
)

// Contrast is how far a figure of one piece lies from that of another, draw by
// draw: what is uncertain in both alike falls out.
type Contrast struct {
	Key           string
	P10, P50, P90 float64 // of the other less the first
	Above         Chance  // that the other has more of it
}

// Against holds another ensemble against this one, drawn together with it. Draws
// that could not be computed in both are left out.
func (e *Ensemble) Against(other *Ensemble) []Contrast {
	var out []Contrast
	a, b := e.common(other)
	others := other.keys()
	for k, key := range e.keys() {
		n := slices.Index(others, key)
		if n < 0 {
			continue
		}
		c := Contrast{Key: key}
		var gaps []float64
		for i := range a {
			gap := b[i].numbers[n] - a[i].numbers[k]
			if math.IsNaN(gap) { // one of them does not have it
				continue
			}
			gaps = append(gaps, gap)
			c.Above.Of++
			if gap > 0 {
				c.Above.Held++
			}
		}
		if c.P10, c.P50, c.P90 = tenths(gaps); len(gaps) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// common are the draws that could be computed in both.
func (e *Ensemble) common(other *Ensemble) (a, b []*sample) {
	for i, draw := range e.draw {
		if k, ok := slices.BinarySearch(other.draw, draw); ok {
			a, b = append(a, &e.drawn[i]), append(b, &other.drawn[k])
		}
	}
	return a, b
}

// keys are the figures of the account, in the order of a draw's numbers.
func (e *Ensemble) keys() []string {
	keys, _ := figuresOf(e.Outcome, e.Outcome, e.Outcome.Malt)
	return keys
}

// Meets is how often each of two pieces meets every line of its specification,
// on common draws.
type Meets struct{ Both, First, Other, Of int }

// MeetsBeside counts, draw by draw, which of the two meets every line. A draw
// that could not be computed meets none.
func (e *Ensemble) MeetsBeside(other *Ensemble) Meets {
	first, second := e.meeting(), other.meeting()
	m := Meets{Of: min(e.Done, other.Done)}
	for draw := range m.Of {
		switch a, b := first[draw], second[draw]; {
		case a && b:
			m.Both++
		case a:
			m.First++
		case b:
			m.Other++
		}
	}
	return m
}

// meeting are the draws that meet every line.
func (e *Ensemble) meeting() map[int]bool {
	out := map[int]bool{}
	for i, isOut := range e.outs() {
		out[e.draw[i]] = !isOut && len(e.Lines) > 0
	}
	return out
}
