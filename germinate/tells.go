package germinate

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/finding"
	"awn/unit"
)

// BedAir is the air that must be passing a bed whose warmest layer stands at a
// temperature, kg of dry air per kg of dry matter and s: what grows heat and is
// not warmed by it has given it to the air, which leaves saturated.
//
//	G = (q - c dt/dt')/(h2 - h1 - (W2 - W1) hw)      (c = dH/dt of the grain, hw = dH/dX, h2 and W2 saturated at the warmest layer)
//
// Definition.
// Valid: a bed warmer than the air-on, heat that more than warms it; NaN outside.
// Check: from 15 to 20 °C saturated, 2 W/kg and no rise, by the enthalpies of a printed table of moist air.
// Note: the whole bed is taken to warm as fast as its warmest layer; walls and turning are left out.
func BedAir(heatWKg, riseKH float64, on air.State, warmest unit.Celsius, x unit.DryBasis) float64 {
	off := air.State{TempC: warmest, W: air.SaturationRatio(warmest, on.PressurePa), PressurePa: on.PressurePa}
	carried := air.Enthalpy(off.TempC, off.W) - air.Enthalpy(on.TempC, on.W) - float64(off.W-on.W)*barley.WaterEnthalpy(warmest, x)
	given := heatWKg - barley.EnthalpySlope(x)*riseKH/3600
	if !(warmest > on.TempC && carried > 0 && given > 0) {
		return math.NaN()
	}
	return given / carried
}

// StillRise is how fast a bed warms through which no air passes, K/h.
//
//	dt/dt' = 3600 q/c      (c = dH/dt of the grain)
//
// Definition.
// Valid: heat of 0 and more; NaN outside.
// Check: 2 W/kg at 0.8 kg/kg, 1300 + 4186 × 0.8 J/(kg K) and what sorption adds, worked by hand.
// Note: an upper bound; growth slows as oxygen goes.
func StillRise(heatWKg float64, x unit.DryBasis) float64 {
	if !(heatWKg >= 0) {
		return math.NaN()
	}
	return 3600 * heatWKg / barley.EnthalpySlope(x)
}

// HoursTo is how long a bed that warms evenly takes to a limit, h; 0 if it is
// there.
//
//	τ = (tmax - t)/rise
//
// Definition.
// Valid: a rise above 0, unless the limit is reached; NaN outside.
func HoursTo(limit, warmest unit.Celsius, riseKH float64) float64 {
	switch {
	case warmest >= limit:
		return 0
	case !(riseKH > 0):
		return math.NaN()
	}
	return float64(limit-warmest) / riseKH
}

// Tell is what a bed tells about its air.
type Tell struct {
	PassingM3HT float64 // counted as airflows are
	AskedM3HT   float64 // NaN if it was not said
	RiseKH      float64
	LimitC      float64
	Hours       float64 // to the limit as it rises now; NaN if it does not
	StillHours  float64 // to the limit if no air passed
}

// Of the air asked for, what must at least be passing before the fan, its
// dampers or a felted bed are looked at; and the hours within which somebody
// has to act. Assumed: common practice, no source.
const (
	leastPassing = 0.7
	actWithinH   = 12
)

// Findings says what a bed tells and what to do.
func (t Tell) Findings() (out []finding.Finding) {
	say := func(f finding.Finding, act string, chance, cost float64) {
		f.Act, f.Source, f.Chance, f.Cost = act, practice, chance, cost
		out = append(out, f)
	}
	if t.PassingM3HT < leastPassing*t.AskedM3HT {
		say(finding.New("germinate.passing.short", finding.Alarm, "germinate",
			finding.Figure{Name: "passing_m3_h_t", Value: t.PassingM3HT}, finding.Figure{Name: "asked_m3_h_t", Value: t.AskedM3HT}),
			"act.germinate.find-air", 0.8, 0.05)
	}
	if math.IsNaN(t.PassingM3HT) && t.RiseKH > 0 {
		say(finding.New("germinate.passing.none", finding.Caution, "germinate", finding.Figure{Name: "rise_k", Value: t.RiseKH}),
			"act.germinate.find-air", 0.6, 0.05)
	}
	if math.IsNaN(t.PassingM3HT) && !(t.RiseKH > 0) {
		say(finding.New("germinate.passing.untold", finding.Note, "germinate"), "", 0.1, 0.02)
	}
	switch {
	case t.Hours == 0:
		say(finding.New("germinate.limit.passed", finding.Alarm, "germinate", finding.Figure{Name: "limit_c", Value: t.LimitC}),
			"act.germinate.cool-now", 0.9, 0.1)
	case t.Hours <= actWithinH:
		say(finding.New("germinate.limit.soon", finding.Alarm, "germinate",
			finding.Figure{Name: "limit_c", Value: t.LimitC}, finding.Figure{Name: "hours_h", Value: t.Hours}, finding.Figure{Name: "still_h", Value: t.StillHours}),
			"act.germinate.cool-now", 0.8, 0.08)
	case t.Hours > actWithinH:
		say(finding.New("germinate.limit.far", finding.Note, "germinate",
			finding.Figure{Name: "limit_c", Value: t.LimitC}, finding.Figure{Name: "hours_h", Value: t.Hours}, finding.Figure{Name: "still_h", Value: t.StillHours}),
			"", 0.2, 0.05)
	default:
		say(finding.New("germinate.bed.steady", finding.Note, "germinate",
			finding.Figure{Name: "limit_c", Value: t.LimitC}, finding.Figure{Name: "still_h", Value: t.StillHours}), "", 0.1, 0.05)
	}
	return out
}
