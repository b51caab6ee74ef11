package variety

import "math"

// StressSusceptibility is how much more of its yield an entry loses under stress
// than the trial: below 1 it holds better. It favours entries that yield little
// anyway, so show the yield under stress beside it.
//
//	SSI = (1 - ys/yp) / (1 - Ys/Yp)        (y of the entry, Y the mean; s under stress, p without)
//
// Source: Fischer and Maurer 1978.
// Valid: all yields without stress above 0 and a stress that lowered the mean; NaN else.
// Check: testdata/stress.csv.
func StressSusceptibility(stressed, free, meanStressed, meanFree float64) float64 {
	if !(free > 0 && meanFree > 0 && stressed >= 0 && meanStressed >= 0 && meanStressed < meanFree) {
		return math.NaN()
	}
	return (1 - stressed/free) / (1 - meanStressed/meanFree)
}

// StressTolerance is large for an entry that yields much in both.
//
//	STI = ys yp / Yp²        (Y the mean; s under stress, p without)
//
// Source: Scientific Reports 2025, table 1.
// Valid: yields from 0, mean above 0; NaN else.
// Check: testdata/stress.csv.
func StressTolerance(stressed, free, meanFree float64) float64 {
	if !(stressed >= 0 && free >= 0 && meanFree > 0) {
		return math.NaN()
	}
	return stressed * free / (meanFree * meanFree)
}

// GeometricYield is the geometric mean of the yields with and without stress.
//
//	GMP = sqrt(ys yp)
//
// Source: Scientific Reports 2025, table 1.
// Valid: yields from 0; NaN else.
// Check: testdata/stress.csv.
func GeometricYield(stressed, free float64) float64 {
	if !(stressed >= 0 && free >= 0) {
		return math.NaN()
	}
	return math.Sqrt(stressed * free)
}
