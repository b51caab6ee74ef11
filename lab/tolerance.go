package lab

import (
	"math"

	"awn/odds"
)

// rangeChance is the chance with which replicates of one sample differ by more
// than the tolerated range.
const rangeChance = 0.025

// RangeTolerance is the widest difference between the best and the worst
// replicate of a germination test that sampling explains; beyond it the test
// is repeated. Mean and result are fractions.
//
//	w = q(0.975; r) sqrt(p (1-p) / n)        (q the studentised range of r normal draws, n kernels in each)
//
// Recalled: ISTA, ch. 5, table 5B: binomial variance and chance 0.025.
// Valid: mean 0 to 1, at least 2 replicates and 1 kernel; NaN outside.
// Check: testdata/germ_tolerance.csv; within one kernel of table 5B at 81 to 99 %.
func RangeTolerance(mean float64, replicates, kernels int) float64 {
	if !(mean >= 0 && mean <= 1) || kernels < 1 {
		return math.NaN()
	}
	return odds.SpanQuantile(1-rangeChance, replicates) * math.Sqrt(mean*(1-mean)/float64(kernels))
}
