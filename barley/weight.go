package barley

import (
	"math"

	"awn/unit"
)

// WeightAt is what grain of a known weight and moisture weighs at another
// moisture with its dry matter unchanged, kg.
//
//	m2 = m1 (1 - w1)/(1 - w2)
//
// Definition.
// Valid: moistures of 0 to below 1, weights of 0 and more; NaN outside.
// Check: 25 000 kg from 16.0 to 13.5 % are 24 277.5 kg.
func WeightAt(kg float64, from, to unit.WetBasis) float64 {
	if !(kg >= 0 && possible(from) && possible(to)) {
		return math.NaN()
	}
	return kg * float64(1-from) / float64(1-to)
}

// ShrinkPerPoint is the share of its weight that grain loses for each point of
// moisture that drying takes out, by dry matter alone.
//
//	s = 1/(100 (1 - w2))      (w2 the moisture after drying)
//
// Definition.
// Valid: moistures of 0 to below 1; NaN outside.
// Check: 1.1561 % at 13.5 %.
func ShrinkPerPoint(to unit.WetBasis) float64 {
	if !possible(to) {
		return math.NaN()
	}
	return 1 / (100 * float64(1-to))
}

// SteepedMoisture is the moisture of a sample that was weighed dry and again
// when steeped, from its gain in weight.
//
//	w2 = 1 - m1 (1 - w1)(1 - l)/m2      (l the share of the dry matter that went into the water)
//
// Definition.
// Valid: moistures and leach of 0 to below 1, and an answer of that range; NaN outside.
// Check: 100 g at 12.4 % blotted to 156.9 g hold 44.2 %.
// Note: water on the skin counts as moisture unless it is blotted off.
func SteepedMoisture(dryKg float64, from unit.WetBasis, steepedKg, leach float64) unit.WetBasis {
	if !(dryKg > 0 && steepedKg > 0 && possible(from) && leach >= 0 && leach < 1) {
		return unit.WetBasis(math.NaN())
	}
	w := unit.WetBasis(1 - dryKg*float64(1-from)*(1-leach)/steepedKg)
	if !possible(w) {
		return unit.WetBasis(math.NaN())
	}
	return w
}

// Film is what a drained sample weighs too much in moisture if it is not
// blotted: the water on its skin.
//
// Assumed: common practice, no source.
const (
	FilmLeast unit.WetBasis = 0.01
	FilmMost  unit.WetBasis = 0.02
)

// possible reports whether grain can have the moisture.
func possible(w unit.WetBasis) bool { return w >= 0 && w < 1 }
