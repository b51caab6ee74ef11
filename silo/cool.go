package silo

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/unit"
)

// grainJKgK is the heat capacity of grain as it is, J/(kg K).
func grainJKgK(w unit.WetBasis) float64 {
	return barley.HeatCapacity(w.DryBasis()) * float64(1-w)
}

// CoolingHours is how long air must blow to carry grain from one temperature
// to another when it leaves at rest with the grain: the least there is.
//
//	τ = c (t0 - t1)/(m (h(t0, RH) - h(t1, RH)))      (c of the grain in J/(kg K), m kg of air per kg of grain and hour)
//
// Definition.
// Valid: t0 above t1, an airflow above 0; NaN outside.
// Check: 57.1 h for 25 to 15 °C at 65 %, 1750 J/(kg K) and 12 kg/(h t), computed by hand.
// Note: multiply by the cooling effort of the parameter table for a real store.
func CoolingHours(grainJKgK float64, from, to unit.Celsius, rh unit.RelativeHumidity, airKgHT, pressurePa float64) float64 {
	if !(from > to && airKgHT > 0) {
		return math.NaN()
	}
	h := func(t unit.Celsius) float64 { return air.Enthalpy(t, air.HumidityRatio(t, rh, pressurePa)) }
	return grainJKgK * float64(from-to) / (airKgHT / 1000 * (h(from) - h(to)))
}

// besselZeros are the first zeros of the Bessel function of order 0.
// Recalled: any table.
var besselZeros = [...]float64{2.404825557695773, 5.520078110286311, 8.653727912911013, 11.79153443901428, 14.93091770848779}

// CoreDays is the time constant with which the core of a round silo follows
// the temperature outside by conduction alone, days.
//
//	τ = R²/(5.783 α), α = λ/(ρ c)
//
// Recalled: Crank 1975, the cylinder; 5.783 is the square of the first zero of J0.
// Valid: figures above 0; NaN outside.
// Check: 240 d for a radius of 4 m and 1.34e-7 m²/s, computed by hand.
func CoreDays(radiusM, conductivityWMK, grainKgM3, grainJKgK float64) float64 {
	if !(radiusM > 0 && conductivityWMK > 0 && grainKgM3 > 0 && grainJKgK > 0) {
		return math.NaN()
	}
	z := besselZeros[0]
	return radiusM * radiusM / (z * z * conductivityWMK / (grainKgM3 * grainJKgK)) / secondsPerDay
}

// CoreTemp is the temperature at the axis of a round silo that was filled at
// one temperature and has stood so long beside another, by conduction alone.
//
//	t = ts + (t0 - ts) Σ 2/(z J1(z)) exp(-(z/z1)² d/τ)      (z the zeros of J0)
//
// Recalled: Crank 1975, the cylinder.
// Valid: days of 0.15 τ and more, where five terms do; at less, the filling temperature, which the core still has.
// Check: the first term alone late on; 1.602 of it.
func CoreTemp(filled, beside unit.Celsius, days, coreDays float64) unit.Celsius {
	if !(days >= 0 && coreDays > 0) {
		return unit.Celsius(math.NaN())
	}
	if days < 0.15*coreDays {
		return filled
	}
	sum := 0.0
	for _, z := range besselZeros {
		ratio := z / besselZeros[0]
		sum += 2 / (z * math.J1(z)) * math.Exp(-ratio*ratio*days/coreDays)
	}
	return beside + (filled-beside)*unit.Celsius(sum)
}

// DryingRule is how hot barley may be dried to keep it fit for malting: the
// sources disagree, and a house keeps to its region's.
type DryingRule struct {
	Name   string
	AirC   float64 // most air-on
	GrainC float64 // most grain temperature, NaN where the rule is on air alone
	Source string
}

// DryingRules lists them, the most careful first.
var DryingRules = []DryingRule{
	{"United States", 38, math.NaN(), "Northern Ag 2010"},
	{"Canada", 43, math.NaN(), "BMBRI undated"},
	{"United Kingdom", 65, 40, "Appel 2023"},
}

// DryingWater is the water that drying takes out, kg per tonne of grain as it
// came.
//
//	1000 (w0 - w1)/(1 - w1)
//
// Definition.
// Valid: 0 <= w1 <= w0 < 1; NaN outside.
// Check: 40.7 kg from 17 to 13.5 %, computed by hand.
func DryingWater(from, to unit.WetBasis) float64 {
	if !(to >= 0 && from >= to && from < 1) {
		return math.NaN()
	}
	return 1000 * float64(from-to) / float64(1-to)
}
