package silo

import (
	"math"

	"awn/kernel"
	"awn/unit"
)

// breathMostDays is up to when the law knows how respiration eases: later it
// would turn and rise again.
const breathMostDays = 80

// Respiration is the carbon dioxide that stored grain gives off, mg per kg of
// grain and day.
//
//	log10 R = -4.054 + 0.0406 t - 0.0165 d + 0.0001 d² + 23.89 w      (t in °C, d days in store, w wet basis)
//
// Recalled: White 1982, wheat.
// Valid: 0 to 40 °C, 10 to 24 %, 0 to 80 days; NaN outside. The fitted range is not known.
// Check: 0.794, 3.81 and 18.25 at 14 % and 15 °C, 16 and 20, 18 and 25, computed by hand.
// Note: uncertain by a factor of 2. The law of sprouting grain does not hold in store.
func Respiration(w unit.WetBasis, t unit.Celsius, days float64) float64 {
	if !(w >= 0.10 && w <= 0.24 && t >= 0 && t <= 40 && days >= 0 && days <= breathMostDays) {
		return math.NaN()
	}
	return math.Pow(10, breathLog(float64(w), float64(t), days))
}

func breathLog(w, t, days float64) float64 {
	return -4.054 + 0.0406*t + days*(0.0001*days-0.0165) + 23.89*w
}

const (
	secondsPerDay = 86400.0
	hoursPerDay   = 24.0
	mgPerKg       = 1e6
)

// BreathHeat is the heat that respiration gives off, W per tonne of grain.
//
//	q = R · 10.68 J/mg · 1000/86400      (R in mg/(kg d))
//
// Source: Foodmechanics undated, by way of the heat of combustion of starch.
// Check: 2.25 W/t at 18 % and 25 °C, computed from 2816 kJ per 264 g of carbon dioxide.
func BreathHeat(respirationMgKgD float64) float64 {
	return respirationMgKgD / mgPerKg / kernel.DioxidePerKg * kernel.CombustionJKg * 1000 / secondsPerDay
}

// DryLoss is the share of the grain that respiration burns in a day.
//
//	R · 10⁻⁶/1.63
//
// Definition.
// Note: germination of wheat fell from 98 to about 90 % by the time 0.05 % was
// gone, and mould was seen at 0.1 % (White 2001).
func DryLoss(respirationMgKgD float64) float64 {
	return respirationMgKgD / mgPerKg / kernel.DioxidePerKg
}

// WarmingDays is how long grain that keeps all its heat takes to warm itself
// from one temperature to another at the respiration of its first day, days.
//
//	d = c (10^(-0.0406 t0) - 10^(-0.0406 t1))/(k ln 10 · 0.0406),  k the warming in K/d at 0 °C
//
// Recalled: White 1982, wheat; heat capacity as barley.HeatCapacity.
// Valid: 0 <= t0 <= t1 <= 40 °C, 10 to 24 %; NaN outside.
// Check: hourly sum of the warming, in the tests.
// Note: a hot spot warms faster once mould joins in.
func WarmingDays(w unit.WetBasis, from, to unit.Celsius) float64 {
	atZero := Respiration(w, 0, 0)
	if !(from >= 0 && to >= from && to <= 40) {
		return math.NaN()
	}
	perDay := BreathHeat(atZero) * secondsPerDay / 1000 / grainJKgK(w)
	const slope = 0.0406 * math.Ln10
	return (math.Exp(-slope*float64(from)) - math.Exp(-slope*float64(to))) / (slope * perDay)
}
