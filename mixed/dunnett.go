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
	if !served(m, 1, freedom) || !shared(correlation) {
		return math.NaN()
	}
	known := besideCheck(m, correlation)
	return studentised(freedom, func(s float64) float64 { return known(t * s) })
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
	if !served(m, 1, freedom) || !shared(correlation) {
		return math.NaN()
	}
	known := aboveCheck(m, correlation)
	return studentised(freedom, func(s float64) float64 { return known(t * s) })
}

// besideCheck is DunnettChance with the standard deviation known, as a function
// of t.
func besideCheck(m int, correlation float64) func(t float64) float64 {
	return oneCheck(m, correlation, func(t, shift, spread float64) float64 {
		return distuv.UnitNormal.CDF((t+shift)/spread) - distuv.UnitNormal.CDF((-t+shift)/spread)
	})
}

// aboveCheck is DunnettOneSidedChance with the standard deviation known.
func aboveCheck(m int, correlation float64) func(t float64) float64 {
	return oneCheck(m, correlation, func(t, shift, spread float64) float64 {
		return distuv.UnitNormal.CDF((t + shift) / spread)
	})
}

// oneCheck averages the chance of one difference to the power of m over the
// error of the check that they share.
func oneCheck(m int, correlation float64, one func(t, shift, spread float64) float64) func(t float64) float64 {
	root, spread := math.Sqrt(correlation), math.Sqrt(1-correlation)
	return func(t float64) float64 {
		sum := 0.0
		for i, z := range normalGrid.at {
			sum += normalGrid.weight[i] * math.Pow(one(t, root*z, spread), float64(m))
		}
		return sum
	}
}

// shared reports whether two differences from one check can go together so.
func shared(correlation float64) bool { return correlation >= 0 && correlation < 1 }

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
