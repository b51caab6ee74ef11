package intake

import (
	"math"

	"awn/odds"
)

// Point is where a probe goes in: shares of the length and of the width of the
// vehicle.
type Point struct{ Along, Across float64 }

// EvenPoints lays n probes evenly along a vehicle, by turns at a quarter and
// at three quarters of its width; a single one goes in the middle. A house
// with a pattern of its own lists its points itself.
func EvenPoints(n int) []Point {
	if n == 1 {
		return []Point{{0.5, 0.5}}
	}
	out := make([]Point, max(n, 0))
	for i := range out {
		out[i] = Point{(float64(i) + 0.5) / float64(n), 0.25 + 0.5*float64(i%2)}
	}
	return out
}

// Scheme says how many probes or increments a load needs by its mass.
type Scheme struct {
	Name   string
	Steps  []SchemeStep // by rising mass
	Source string
	Mark   odds.Standing
}

// SchemeStep is the number up to a mass.
type SchemeStep struct {
	UpToKg float64
	Number int
}

// Number is how many probes a load needs; false beyond the scheme.
func (s Scheme) Number(kg float64) (int, bool) {
	for _, step := range s.Steps {
		if kg > 0 && kg <= step.UpToKg {
			return step.Number, true
		}
	}
	return 0, false
}

// Schemes are those known here, all from memory: a house sets its own.
var Schemes = []Scheme{
	{"probes, still bulk", []SchemeStep{{15e3, 3}, {30e3, 8}, {45e3, 11}}, "ISO 24333", odds.Recalled},
	{"increments, mycotoxins", []SchemeStep{{50, 3}, {500, 5}, {1e3, 10}, {3e3, 20}, {10e3, 40}, {20e3, 60}, {50e3, 100}}, "EU sampling 2006", odds.Recalled},
}

// MeanOfProbes is the mean of several probes of one load with the band that
// their own spread gives: what a load that differs from place to place allows
// to be said. One probe has no band.
//
//	m ± t s/√n        (t Student's deviate at 0.95 with n - 1 degrees of freedom)
//
// Definition.
func MeanOfProbes(probes []float64) odds.Value {
	n := float64(len(probes))
	if n == 0 {
		return unknown()
	}
	mean, squares := 0.0, 0.0
	for _, x := range probes {
		mean += x / n
	}
	for _, x := range probes {
		squares += (x - mean) * (x - mean)
	}
	half := odds.StudentQuantile(0.95, n-1) * math.Sqrt(squares/(n-1)/n)
	return odds.Value{Mid: mean, Low: mean - half, High: mean + half, Standing: odds.Measured}
}

// ProbesFor is how many probes place the mean of a load within an error, from
// the standard deviation between probes. It has no answer beyond 1000.
//
//	least n with t s/√n <= e        (t Student's deviate at (1+confidence)/2 with n - 1 degrees of freedom)
//
// Definition.
// Check: s = e at 95 % needs 7 probes: t of 6 degrees is 2.447 < √7 = 2.646, and that of 5 is 2.571 > √6.
func ProbesFor(deviation, wantedError, confidence float64) (int, bool) {
	const most = 1000
	if !(deviation >= 0 && wantedError > 0 && confidence > 0 && confidence < 1) {
		return 0, false
	}
	for n := 2; n <= most; n++ {
		if odds.StudentQuantile((1+confidence)/2, float64(n-1))*deviation <= wantedError*math.Sqrt(float64(n)) {
			return n, true
		}
	}
	return 0, false
}

// mostKernels is how many kernels a plan lays out at most.
const mostKernels = 5000

// SmallestPlan is the smallest number of kernels, and how many of them may be
// bad, such that a lot with the good share of bad kernels is refused with no
// more than the seller's risk and one with the bad share is accepted with no
// more than the buyer's. It reports false where 5000 kernels do not do.
func SmallestPlan(good, bad, sellersRisk, buyersRisk float64) (odds.Plan, bool) {
	if !(good >= 0 && good < bad && bad <= 1 && sellersRisk > 0 && buyersRisk > 0) {
		return odds.Plan{}, false
	}
	p := odds.Plan{N: 1}
	for ; p.N <= mostKernels; p.N++ {
		// With every kernel more the lot is accepted less often: C rises as it can.
		for q := (odds.Plan{N: p.N, C: p.C + 1}); q.C < q.N && q.AcceptChance(bad) <= buyersRisk; q.C++ {
			p.C = q.C
		}
		if p.AcceptChance(bad) <= buyersRisk && p.AcceptChance(good) >= 1-sellersRisk {
			return p, true
		}
	}
	return odds.Plan{}, false
}

// SieveDeviation is the standard deviation that the kernels of one sample give
// a sieve fraction, by chance alone.
//
//	s = sqrt(p (1 - p) m/M)        (m the mass of a kernel, M that of the sample)
//
// Assumed: kernels fall into the sample by chance and weigh the same; common practice, no source.
// Valid: shares of 0 to 1, masses above 0; NaN outside.
// Check: 90 % of 100 g of kernels of 45 mg: 0.64 points, computed by hand.
// Note: shaking and the place of the sample in the load come on top.
func SieveDeviation(share, kernelMg, sampleG float64) float64 {
	if !(share >= 0 && share <= 1 && kernelMg > 0 && sampleG > 0) {
		return math.NaN()
	}
	return math.Sqrt(share * (1 - share) * kernelMg / (1000 * sampleG))
}
