package reckon

import (
	"fmt"
	"math"

	"awn/air"
	"awn/germinate"
	"awn/programme"
	"awn/unit"
)

func germinating(g *given) ([]Result, error) {
	pa, _, err := pressureOf(g)
	if err != nil {
		return nil, err
	}
	w := unit.WetBasis(g.at("moisture"))
	heat := g.at("heat")
	if g.get("heat").Quantity.Kind == unit.KindAsIs {
		heat /= float64(1 - w)
	}
	on := air.State{TempC: unit.Celsius(g.at("on")), PressurePa: pa}
	on.W = air.HumidityRatio(on.TempC, unit.RelativeHumidity(g.at("rh")), pa)
	top, limit, rise := unit.Celsius(g.at("top")), unit.Celsius(g.at("limit")), g.at("rise")
	kg := germinate.BedAir(heat, rise, on, top, w.DryBasis())
	perKg := kg * (1 - g.at("barley")) / programme.ReferenceAirKgM3 // m³/s for each kg as cast
	still := germinate.StillRise(heat, w.DryBasis())
	tell := germinate.Tell{
		PassingM3HT: perKg * perHour * perTon, AskedM3HT: g.at("asked") * perHour * perTon, RiseKH: rise, LimitC: float64(limit),
		Hours: germinate.HoursTo(limit, top, rise), StillHours: germinate.HoursTo(limit, top, still),
	}
	g.say(tell.Findings()...)
	return bedResults(g, tell, kg, perKg, still), nil
}

// bedResults are what a bed tells, as numbers.
func bedResults(g *given, tell germinate.Tell, kg, perKg, still float64) []Result {
	var out []Result
	if !math.IsNaN(perKg) {
		passing := scale{perTonne, []string{"m3/h/t~3", "cfm/bu~3"}}.result("airflow_m3_s_kg", "air that must be passing", perKg, "germinate.BedAir",
			fmt.Sprintf("G = %s kg/(s kg dm) × (1 - %s)/%s kg/m³ = %s m³/h/t", figures(kg, 4), figures(g.at("barley"), 3), plain(programme.ReferenceAirKgM3), figures(tell.PassingM3HT, 3)))
		out = append(out, passing)
		if g.has("asked") {
			out = append(out, shareScale.result("passing_share", "of what the fan is asked for", perKg/g.at("asked"), "germinate.BedAir", ""))
		}
	}
	if !math.IsNaN(tell.Hours) {
		worked := ""
		if tell.Hours > 0 {
			worked = fmt.Sprintf("τ = (%s - %s)/%s = %s h", figures(g.at("limit"), 4), figures(g.at("top"), 4), figures(tell.RiseKH, 4), figures(tell.Hours, 3))
		}
		out = append(out, bare("to_limit_h", "to the limit as it warms", tell.Hours, 1, 1, "h", "germinate.HoursTo", worked))
	}
	return append(out,
		scale{unit.Warming, []string{"K/h~3", "°F/h~3"}}.result("still_k_h", "rise if no air passed", still, "germinate.StillRise", ""),
		bare("still_h", "to the limit without air", tell.StillHours, 1, 1, "h", "germinate.HoursTo", ""))
}
