package lab

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Repeats is what samples read more than once say of a bench.
type Repeats struct {
	Samples   int
	Freedom   float64
	Deviation float64 // of one result, repeated at once
	Low, High float64 // of it, 95 of 100
	Limit     float64 // r: two results differ by more once in twenty times
	Published float64 // as published at the mean; NaN if there is none
	Worse     float64 // chance that the bench repeats worse than published
	Apart     int     // samples whose results lie farther apart than r published allows
}

// Repeated pools the results of samples that were read more than once. It reports
// false if none was.
func Repeated(samples [][]float64, published float64) (Repeats, bool) {
	r := Repeats{Published: published, Worse: math.NaN()}
	sum := 0.0
	for _, x := range samples {
		if len(x) < 2 {
			continue
		}
		r.Samples++
		r.Freedom += float64(len(x) - 1)
		s := deviation(x)
		sum += s * s * float64(len(x)-1)
		if s*math.Sqrt2 > published && len(x) == 2 {
			r.Apart++
		}
	}
	if r.Samples == 0 {
		return r, false
	}
	r.Deviation = math.Sqrt(sum / r.Freedom)
	chi := distuv.ChiSquared{K: r.Freedom}
	r.Low, r.High = r.Deviation*math.Sqrt(r.Freedom/chi.Quantile(0.975)), r.Deviation*math.Sqrt(r.Freedom/chi.Quantile(0.025))
	r.Limit = RepeatLimit(r.Deviation)
	if published > 0 {
		ratio := r.Deviation / Deviation(published)
		r.Worse = chi.CDF(r.Freedom * ratio * ratio)
	}
	return r, true
}

// RepeatLimit is how far two results may differ, 19 times out of 20, whose
// standard deviation is known: the inverse of Deviation.
//
//	r = 1.960 sqrt(2) s
//
// Recalled: ISO 5725-6.
// Check: 2.77 s.
func RepeatLimit(sd float64) float64 { return sd / Deviation(1) }
