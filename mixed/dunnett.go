package mixed

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// DunnettChance is the chance that none of m studentised differences from one
// check exceeds t in size, if none truly differs. Any two of the differences
// have the given correlation: 0.5 where all means are equally well known.
//
//	P = ∫ f(s) ∫ φ(z) (Φ((t s + z√r)/√(1-r)) - Φ((-t s + z√r)/√(1-r)))^m dz ds
//
// Recalled: Dunnett 1955.
// Valid: m from 1 to 5000, freedom from 2, correlation from 0 to below 1, t from 0; NaN outside.
// Check: testdata/dunnett.csv.
func DunnettChance(t float64, m int, freedom, correlation float64) float64 {
	if !(t >= 0) {
		return math.NaN()
	}
	return oneCheck(m, freedom, correlation, func(s, shift, spread float64) float64 {
		return distuv.UnitNormal.CDF((t*s+shift)/spread) - distuv.UnitNormal.CDF((-t*s+shift)/spread)
	})
}

// DunnettOneSidedChance is the chance that none of m studentised differences
// from one check exceeds t, if none truly differs.
//
//	P = ∫ f(s) ∫ φ(z) Φ((t s + z√r)/√(1-r))^m dz ds
//
// Recalled: Dunnett 1955.
// Valid: as DunnettChance, t of either sign.
// Check: testdata/dunnett.csv.
func DunnettOneSidedChance(t float64, m int, freedom, correlation float64) float64 {
	if math.IsNaN(t) {
		return math.NaN()
	}
	return oneCheck(m, freedom, correlation, func(s, shift, spread float64) float64 {
		return distuv.UnitNormal.CDF((t*s + shift) / spread)
	})
}

// oneCheck averages the chance of one difference to the power of m over the
// error of the check that they share, and over the spread.
func oneCheck(m int, freedom, correlation float64, one func(s, shift, spread float64) float64) float64 {
	if !served(m, 1, freedom) || !(correlation >= 0 && correlation < 1) {
		return math.NaN()
	}
	root, spread := math.Sqrt(correlation), math.Sqrt(1-correlation)
	return studentised(freedom, func(s float64) float64 {
		sum := 0.0
		for i, z := range normalGrid.at {
			sum += normalGrid.weight[i] * math.Pow(one(s, root*z, spread), float64(m))
		}
		return sum
	})
}

// DunnettQuantile is the size of the studentised difference from the check that
// none of m exceeds with chance p, if none truly differs.
//
//	t = P⁻¹(p)        (P of DunnettChance)
//
// Recalled: Dunnett 1955.
// Valid: p strictly between 0 and 1, else as DunnettChance; NaN outside.
// Check: testdata/dunnett.csv.
func DunnettQuantile(p float64, m int, freedom, correlation float64) float64 {
	if !inside(p) || math.IsNaN(DunnettChance(1, m, freedom, correlation)) {
		return math.NaN()
	}
	return quantile(p, func(t float64) float64 { return DunnettChance(t, m, freedom, correlation) })
}

// DunnettOneSidedQuantile is the studentised difference from the check that
// none of m exceeds with chance p, if none truly differs.
//
//	t = P⁻¹(p)        (P of DunnettOneSidedChance)
//
// Recalled: Dunnett 1955.
// Valid: p from 0.5 to below 1, else as DunnettChance; NaN outside.
// Check: testdata/dunnett.csv.
func DunnettOneSidedQuantile(p float64, m int, freedom, correlation float64) float64 {
	if !inside(p) || p < 0.5 || math.IsNaN(DunnettOneSidedChance(1, m, freedom, correlation)) {
		return math.NaN()
	}
	return quantile(p, func(t float64) float64 { return DunnettOneSidedChance(t, m, freedom, correlation) })
}
