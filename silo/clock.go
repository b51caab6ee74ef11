package silo

import (
	"math"

	"awn/unit"
)

// Law says how long barley of a moisture may lie at a temperature before its
// germination has fallen to about 95 %, days.
type Law interface {
	SafeDays(w unit.WetBasis, t unit.Celsius) float64
}

// FraserMuir is the clock of wheat and other cereals.
type FraserMuir struct{}

// The range over which the clock is answered. Assumed: the range it was fitted
// over is not known here; checks in barley lie within.
const (
	clockLeastWB, clockMostWB = 0.12, 0.24
	clockLeastC, clockMostC   = 0, 40
)

// SafeDays is the time until about 95 % germinate, days.
//
//	θ = 10^(6.234 - 0.2118 m - 0.0527 t)      (m per cent wet basis, t in °C)
//
// Source: Fraser and Muir 1981, as printed on Grain aeration undated.
// Valid: 12 to 24 %, 0 to 40 °C; NaN outside. The fitted range is not known.
// Check: 14.5 % and 20 °C, 128 d, as printed there; within the factor of the table in testdata/safe_days.csv.
// Note: uncertain by a factor of 1.5; plan with PlanShare of it.
func (FraserMuir) SafeDays(w unit.WetBasis, t unit.Celsius) float64 {
	if !(w >= clockLeastWB && w <= clockMostWB && t >= clockLeastC && t <= clockMostC) {
		return math.NaN()
	}
	return math.Pow(10, fraserMuirLog(100*float64(w), float64(t)))
}

func fraserMuirLog(points, tempC float64) float64 { return 6.234 - 0.2118*points - 0.0527*tempC }

// PlanShare is the share of the safe time that a plan may count on.
//
// Assumed: common practice, no source.
const PlanShare = 0.7

// Chart is a clock as an extension service prints it: days by moisture at one
// temperature, and days by temperature at one moisture.
type Chart struct {
	atC      float64 // temperature of byWB
	byWB     []point // moisture, days; rising moisture
	byTempC  []point // temperature, days at one moisture; rising temperature
	daysBoth float64 // days where the two lists cross
}

type point struct{ x, days float64 }

// Temperatures of the chart in °F.
const (
	f60 = (60 - 32) / 1.8
	f70 = (70 - 32) / 1.8
	f80 = (80 - 32) / 1.8
)

// NDSU2019 is the chart for malting barley with its longer figure at 17 %,
// which is printed as 25 to 30 days. Only that figure is printed with its 70
// °F; the others are for August weather, which is taken as the same.
var NDSU2019 = ndsu(30)

// NDSU2019Short is the chart with its shorter figure at 17 %.
var NDSU2019Short = ndsu(25)

func ndsu(at17 float64) Chart {
	return Chart{
		atC:      f70,
		byWB:     []point{{0.13, 270}, {0.14, 175}, {0.16, 50}, {0.17, at17}, {0.18, 18}},
		byTempC:  []point{{f60, 430}, {f70, 175}, {f80, 70}},
		daysBoth: 175,
	}
}

// SafeDays is the time that the chart allows, days. Between its figures it is
// taken on straight lines of the logarithm; its row of temperatures holds for
// every moisture in proportion.
//
//	log θ = log θ(w at 70 °F) + log θ(14 % at t) - log θ(14 % at 70 °F)
//
// Source: NDSU 2019, with the row of 14 % of NDSU 2009.
// Valid: 13 to 18 %, 60 to 80 °F; NaN outside.
// Check: its own figures.
func (c Chart) SafeDays(w unit.WetBasis, t unit.Celsius) float64 {
	return between(c.byWB, float64(w)) * between(c.byTempC, float64(t)) / c.daysBoth
}

// between interpolates the logarithm of the days; NaN outside the list.
func between(list []point, x float64) float64 {
	const slack = 1e-9 // a temperature turned from °F
	for i := 1; i < len(list); i++ {
		a, b := list[i-1], list[i]
		if x >= a.x-slack && x <= b.x+slack {
			return a.days * math.Pow(b.days/a.days, (x-a.x)/(b.x-a.x))
		}
	}
	return math.NaN()
}

// Spell is a time at one moisture and temperature.
type Spell struct {
	Days     float64
	Moisture float64 // wet basis
	TempC    float64
}

// Used is the share of the safe time that spells have used up: the clock never
// starts again, not even when the grain was dried.
//
//	Σ days/θ
//
// Source: NDSU 2019, which states that what is used adds up.
// Valid: 12 to 24 % and 0 to 40 °C by FraserMuir; NaN outside.
// Check: 15 of 30 days use half, and leave 135 of 270.
func Used(law Law, spells []Spell) float64 {
	used := 0.0
	for _, s := range spells {
		used += s.Days / law.SafeDays(unit.WetBasis(s.Moisture), unit.Celsius(s.TempC))
	}
	return used
}

// Left is how many days barley still has at a moisture and temperature after
// a share of its safe time was used; 0 if all was.
//
//	θ (limit - used)      (limit 1, or PlanShare for a plan)
//
// Definition.
// Valid: as the law; NaN outside.
// Check: half of 270 days are 135.
func Left(law Law, used, limit float64, w unit.WetBasis, t unit.Celsius) float64 {
	return law.SafeDays(w, t) * max(0, limit-used)
}

// MoistureFor is the highest moisture at which barley keeps for so many days,
// by the clock of FraserMuir and with PlanShare of it.
//
//	m = (6.234 - 0.0527 t - log10(days/0.7))/0.2118
//
// Source: Fraser and Muir 1981, as printed on Grain aeration undated.
// Valid: 0 to 40 °C and answers of 12 to 24 %; NaN outside.
// Check: inverse of SafeDays.
func MoistureFor(days float64, t unit.Celsius) unit.WetBasis {
	w := unit.WetBasis((6.234 - 0.0527*float64(t) - math.Log10(days/PlanShare)) / 21.18)
	if math.IsNaN(FraserMuir{}.SafeDays(w, t)) {
		return unit.WetBasis(math.NaN())
	}
	return w
}

// TempFor is the highest temperature at which barley of a moisture keeps for so
// many days more after a share of its safe time was used, by the clock of
// FraserMuir.
//
//	t = (6.234 - 0.2118 m - log10(days/(limit - used)))/0.0527      (limit 1, or PlanShare for a plan)
//
// Source: Fraser and Muir 1981, as printed on Grain aeration undated.
// Valid: 12 to 24 %, answers of 0 to 40 °C, a used share below the limit; NaN outside.
// Check: inverse of SafeDays.
func TempFor(days, used, limit float64, w unit.WetBasis) unit.Celsius {
	t := unit.Celsius((fraserMuirLog(100*float64(w), 0) - math.Log10(days/(limit-used))) / 0.0527)
	if !(used < limit) || math.IsNaN(FraserMuir{}.SafeDays(w, t)) {
		return unit.Celsius(math.NaN())
	}
	return t
}
