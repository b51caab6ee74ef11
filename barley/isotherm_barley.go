package barley

import (
	"math"

	"awn/unit"
)

// ChungPfost is the modified Chung-Pfost isotherm.
type ChungPfost struct{ A, B, C float64 }

// Henderson is the modified Henderson isotherm.
type Henderson struct{ K, N, C float64 }

// BarleyIsotherm is the isotherm of barley used unless another is chosen; it
// lies near drying grain. Recalled: ASABE D245.
func BarleyIsotherm(c Constants) ChungPfost {
	return ChungPfost{A: c.ChungPfostA, B: 0.14843, C: 71.996}
}

// BarleySpread holds every isotherm of barley known here: the default with A in
// both orders of its digits (475.12 recalled, ASABE D245; 457.12 as a public
// file quotes Rosentrater 2022, p. 272), the older constants (recalled, Pfost 1976) and the
// modified Henderson (recalled, ASABE D245). The first two are nearer to drying
// grain, the others to wetting grain; they differ by up to 2 points.
func BarleySpread() Spread {
	return Spread{
		ChungPfost{A: 475.12, B: 0.14843, C: 71.996},
		ChungPfost{A: 457.12, B: 0.14843, C: 71.996},
		ChungPfost{A: 761.66, B: 0.19889, C: 91.323},
		Henderson{K: 2.2919e-5, N: 2.0123, C: 195.267},
	}
}

// The range over which isotherms of barley are answered. Assumed: the ranges
// they were fitted over are not known here; these are those of a store and a
// gentle drier. Near humidity 0 and 1 the forms themselves break down.
const (
	barleyMinC  = -20
	barleyMaxC  = 65
	barleyMinRH = 0.02
	barleyMaxRH = 0.99
)

func barleyHolds(t unit.Celsius) bool { return t >= barleyMinC && t <= barleyMaxC }

func barleyHumid(rh float64) bool { return rh >= barleyMinRH && rh <= barleyMaxRH }

// Moisture is what barley settles at in air of a given humidity, kg per kg dry
// matter.
//
//	X = -ln(-ln(RH) (t + C)/A)/(100 B)      (t in °C)
//
// Recalled: ASABE D245, modified Chung-Pfost.
// Valid: -20 to 65 °C, humidity 0.02 to 0.99; NaN outside. The fitted range is not known.
// Check: values computed by hand from the constants, in testdata/isotherm.csv;
// British practice holds 14.5 % wet basis to rest at 65 % (common practice, no source).
// Note: uncertain by 1 point; see BarleySpread.
func (i ChungPfost) Moisture(t unit.Celsius, rh unit.RelativeHumidity) unit.DryBasis {
	if !barleyHolds(t) || !barleyHumid(float64(rh)) {
		return unit.DryBasis(math.NaN())
	}
	x := -math.Log(-math.Log(float64(rh))*(float64(t)+i.C)/i.A) / (100 * i.B)
	return unit.DryBasis(max(x, 0))
}

// Humidity is that of the air which barley of a given moisture settles at.
//
//	RH = exp(-A/(t + C) exp(-100 B X))      (t in °C)
//
// Recalled: ASABE D245, modified Chung-Pfost.
// Valid: -20 to 65 °C, answers of 0.02 to 0.99; NaN outside. The fitted range is not known.
// Check: inverse of Moisture.
func (i ChungPfost) Humidity(t unit.Celsius, x unit.DryBasis) unit.RelativeHumidity {
	rh := math.Exp(-i.A / (float64(t) + i.C) * math.Exp(-100*i.B*float64(x)))
	if !barleyHolds(t) || !(x >= 0) || !barleyHumid(rh) {
		rh = math.NaN()
	}
	return unit.RelativeHumidity(rh)
}

// Moisture is what barley settles at in air of a given humidity, kg per kg dry
// matter.
//
//	X = (-ln(1 - RH)/(K (t + C)))^(1/N)/100      (t in °C)
//
// Recalled: ASABE D245, modified Henderson.
// Valid: -20 to 65 °C, humidity 0.02 to 0.99; NaN outside. The fitted range is not known.
// Check: values computed by hand from the constants, in testdata/isotherm.csv.
func (i Henderson) Moisture(t unit.Celsius, rh unit.RelativeHumidity) unit.DryBasis {
	if !barleyHolds(t) || !barleyHumid(float64(rh)) {
		return unit.DryBasis(math.NaN())
	}
	return unit.DryBasis(math.Pow(-math.Log1p(-float64(rh))/(i.K*(float64(t)+i.C)), 1/i.N) / 100)
}

// Humidity is that of the air which barley of a given moisture settles at.
//
//	RH = 1 - exp(-K (t + C) (100 X)^N)      (t in °C)
//
// Recalled: ASABE D245, modified Henderson.
// Valid: -20 to 65 °C, answers of 0.02 to 0.99; NaN outside. The fitted range is not known.
// Check: inverse of Moisture.
func (i Henderson) Humidity(t unit.Celsius, x unit.DryBasis) unit.RelativeHumidity {
	rh := -math.Expm1(-i.K * (float64(t) + i.C) * math.Pow(100*float64(x), i.N))
	if !barleyHolds(t) || !(x >= 0) || !barleyHumid(rh) {
		rh = math.NaN()
	}
	return unit.RelativeHumidity(rh)
}
