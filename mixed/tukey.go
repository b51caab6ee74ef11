package mixed

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// TukeyChance is the chance that the studentised range of k means with the
// given degrees of freedom stays below q.
//
//	P = ∫ f(s) k ∫ φ(z) (Φ(z) - Φ(z - q s))^(k-1) dz ds        (f the density of s, an estimated standard deviation over the true one)
//
// Definition.
// Valid: k from 2 to 5000, freedom from 2, q from 0; NaN outside.
// Check: testdata/tukey.csv.
func TukeyChance(q float64, k int, freedom float64) float64 {
	if !served(k, 2, freedom) || !(q >= 0) {
		return math.NaN()
	}
	known := rangeOf(k)
	return studentised(freedom, func(s float64) float64 { return known(q * s) })
}

// rangeOf is TukeyChance with the standard deviation known, as a function of q.
func rangeOf(k int) func(q float64) float64 {
	return func(q float64) float64 {
		sum := 0.0
		for i, z := range normalGrid.at {
			within := distuv.UnitNormal.CDF(z) - distuv.UnitNormal.CDF(z-q)
			sum += normalGrid.weight[i] * math.Pow(within, float64(k-1))
		}
		return float64(k) * sum
	}
}

// TukeyQuantile is the studentised range of k means that is not exceeded with
// chance p. Two means differ honestly, of all pairs looked at, if they differ by
// it times their standard error of a difference over sqrt(2).
//
//	q = P⁻¹(p)        (P of TukeyChance)
//
// Definition.
// Valid: p strictly between 0 and 1, k from 2 to 5000, freedom from 2; NaN outside.
// Check: testdata/tukey.csv.
func TukeyQuantile(p float64, k int, freedom float64) float64 {
	if !inside(p) || !served(k, 2, freedom) {
		return math.NaN()
	}
	return quantile(p, func(q float64) float64 { return TukeyChance(q, k, freedom) })
}
