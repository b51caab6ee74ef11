package lab

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"awn/odds"
)

// Multiples of the standard deviation at which a chart warns and asks for action.
const (
	Warning = 2.0
	Action  = 3.0
)

// Points and reach of the quadratures over a range: beyond 16 standard
// deviations nothing is left of 25 draws.
const (
	rangePoints = 200
	rangeReach  = 16.0
)

// RangeMean is the mean range of n standard normal draws: d2 of control charts.
//
//	d2 = ∫ (1 - P(R <= q)) dq        (P of odds.SpanChance)
//
// Definition.
// Valid: n from 2 to 25; NaN outside.
// Check: testdata/range.csv.
func RangeMean(n int) float64 {
	if n < 2 || n > 25 {
		return math.NaN()
	}
	return quad.Fixed(func(q float64) float64 { return 1 - odds.SpanChance(q, n) }, 0, rangeReach, rangePoints, nil, 0)
}

// RangeDeviation is the standard deviation of the range of n standard normal
// draws: d3 of control charts.
//
//	d3 = sqrt(2 ∫ q (1 - P(R <= q)) dq - d2²)        (P of odds.SpanChance)
//
// Definition.
// Valid: n from 2 to 25; NaN outside.
// Check: testdata/range.csv.
func RangeDeviation(n int) float64 {
	mean := RangeMean(n)
	if math.IsNaN(mean) {
		return mean
	}
	square := quad.Fixed(func(q float64) float64 { return 2 * q * (1 - odds.SpanChance(q, n)) }, 0, rangeReach, rangePoints, nil, 0)
	return math.Sqrt(square - mean*mean)
}

// MovingRange is the mean distance from one reading to the next. Readings that are
// missing are passed over.
//
//	mean of |x(i) - x(i-1)|
//
// Definition.
// Valid: two readings or more; NaN below.
// Check: NIST e-Handbook, 6.3.2.2, worked example (Recalled there).
func MovingRange(x []float64) float64 {
	sum, n, before := 0.0, 0.0, math.NaN()
	for _, v := range x {
		if math.IsNaN(v) {
			continue
		}
		if !math.IsNaN(before) {
			sum += math.Abs(v - before)
			n++
		}
		before = v
	}
	if n == 0 {
		return math.NaN()
	}
	return sum / n
}

// FromRange is the standard deviation behind a mean range of n readings; of
// moving ranges n is 2.
//
//	s = R/d2
//
// Recalled: NIST e-Handbook, 6.3.2.
// Valid: n from 2 to 25; NaN outside.
// Check: NIST e-Handbook, 6.3.2.2, worked example.
func FromRange(mean float64, n int) float64 { return mean / RangeMean(n) }

// RangeLimit is the action limit of a range of n readings whose mean range is
// known.
//
//	R (1 + 3 d3/d2)
//
// Recalled: NIST e-Handbook, 6.3.2.
// Valid: n from 2 to 25; NaN outside.
// Check: 3.267 R for n = 2, 2.114 R for n = 5: the printed D4.
func RangeLimit(mean float64, n int) float64 {
	return mean * (1 + Action*RangeDeviation(n)/RangeMean(n))
}

// movingFreedom is how many degrees of freedom the standard deviation from
// moving ranges of n readings is worth: 62 % of those of the usual one.
//
// Recalled from the theory of the mean of successive differences; exact enough
// to choose Student's quantile by.
func movingFreedom(n int) float64 { return 0.62 * float64(n-1) }
