package course

import (
	"math"

	"awn/programme"
)

// Found is what was measured of a piece under way.
type Found struct {
	TimeH float64 // since the cast, on the time axis of the piece as it stands
	Of    programme.Reading
	Value float64 // in the unit of the reading
	U     float64 // standard uncertainty; as such a reading usually has where it is not above 0
}

// usualDoubt is the standard uncertainty of a reading together with what the
// model may be off by there: common practice, no source. Readings that are not
// listed tell nothing of the piece itself.
var usualDoubt = map[programme.Reading]float64{
	programme.Moisture: 0.008, programme.Drained: 0.008, programme.WorstLayer: 0.015, programme.DriestLayer: 0.012,
	programme.TempMean: 0.8, programme.TempLow: 1, programme.TempHigh: 1, programme.AirOff: 2, programme.AirOffRH: 0.08,
	programme.Chit: 0.05, programme.Acrospire: 0.06, programme.AcrospireP10: 0.08, programme.AcrospireP90: 0.08,
	programme.OxygenLeast: 0.02, programme.CarbonDioxideMost: 0.02,
}

// Doubt is how much a reading may be off by, as a standard uncertainty: its own,
// or what such a reading usually has; 0 where that is not known.
//
//	u = u of the reading, else that of its kind
//
// Assumed: common practice, no source, for what a reading of a kind usually has.
func (f Found) Doubt() float64 {
	if f.U > 0 {
		return f.U
	}
	return usualDoubt[f.Of]
}

// Given is the ensemble as it stands once something was measured: each draw
// counts by how likely it makes what was found, and the draws are taken anew by
// that. Effective is how many draws the answer rests on; below a dozen or so,
// what was found lies outside of what was drawn, and the bands say little.
//
//	w = exp(−½ Σ ((found − drawn)/u)²);  effective = (Σ w)² / Σ w²
//
// Source: Gordon et al. 1993, §3 (weights by likelihood, draws taken anew); Kish 1965 (effective number).
// Valid: readings of stages that are run; others are left out.
// Check: course/given_test.go, bands given readings of pieces whose course is known.
func (e *Ensemble) Given(found []Found) (given *Ensemble, effective float64) {
	logs := make([]float64, len(e.drawn))
	for _, f := range found {
		u := f.Doubt()
		at, part, ok := e.Outcome.moment(f.TimeH)
		if !ok || !(u > 0) || math.IsNaN(f.Value) {
			continue
		}
		for k := range e.drawn {
			if x := e.drawn[k].reading(at, part, f.Of); !math.IsNaN(x) {
				z := (f.Value - x) / u
				logs[k] -= z * z / 2
			}
		}
	}
	weights, effective := sharesOf(logs)
	drawn := make([]sample, 0, len(weights))
	for _, k := range takenAnew(weights) {
		drawn = append(drawn, e.drawn[k])
	}
	return e.scheme.ensemble(e.number, drawn, Sampling{Draws: e.Asked, Seed: e.Seed}), effective
}

// moment is where an hour lies in resampled curves: the number of the moment
// before it, and the part of the stretch to the next that has passed.
func (o *Outcome) moment(h float64) (at int, part float64, ok bool) {
	for i := range o.Stages {
		s := &o.Stages[i]
		if h < s.FromH || h > s.ToH || !(s.ToH > s.FromH) {
			continue
		}
		m := (h - s.FromH) / (s.ToH - s.FromH) * moments
		whole := min(math.Floor(m), moments-1)
		return i*(moments+1) + int(whole), m - whole, true
	}
	return 0, 0, false
}

// reading is a reading of a draw between two moments.
func (s *sample) reading(at int, part float64, r programme.Reading) float64 {
	before := float64(s.curve[at*int(programme.Readings)+int(r)])
	after := float64(s.curve[(at+1)*int(programme.Readings)+int(r)])
	return before + part*(after-before)
}

// sharesOf makes weights that add up to 1 of their logarithms, and says how
// many equal ones they are worth.
func sharesOf(logs []float64) (weights []float64, effective float64) {
	most := math.Inf(-1)
	for _, l := range logs {
		most = max(most, l)
	}
	weights = make([]float64, len(logs))
	sum, squares := 0.0, 0.0
	for k, l := range logs {
		weights[k] = math.Exp(l - most)
		sum += weights[k]
	}
	for k := range weights {
		weights[k] /= sum
		squares += weights[k] * weights[k]
	}
	return weights, 1 / squares
}

// takenAnew is which draws are taken, as many as there are, each about as often
// as its weight has it: at equal steps through the weights laid end to end, so
// that the same weights always take the same.
func takenAnew(weights []float64) []int {
	n := len(weights)
	out := make([]int, 0, n)
	passed, k := 0.0, 0
	for i := range n {
		at := (float64(i) + 0.5) / float64(n)
		for k < n-1 && passed+weights[k] < at {
			passed += weights[k]
			k++
		}
		out = append(out, k)
	}
	return out
}
