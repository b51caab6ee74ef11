package course

import (
	"slices"

	"awn/programme"
)

// Without is the ensemble less one of its draws.
func (e *Ensemble) Without(k int) *Ensemble {
	return e.scheme.ensemble(e.number, slices.Delete(slices.Clone(e.drawn), k, k+1), Sampling{Draws: e.Asked, Seed: e.Seed})
}

// Drawn is a reading of one draw at an hour.
func (e *Ensemble) Drawn(k int, h float64, r programme.Reading) float64 {
	at, part, _ := e.Outcome.moment(h)
	return e.drawn[k].reading(at, part, r)
}
