package germinate

import (
	"awn/air"
	"awn/finding"
	"awn/plant"
)

// Chances that a finding matters and what it then costs, as a share of the
// piece's value. Assumed: judgement, no source.
var weights = map[string]struct{ chance, cost float64 }{
	"germinate.air.warm":     {0.7, 0.02},
	"germinate.air.cold":     {0.6, 0.02},
	"germinate.air.dry":      {0.5, 0.01},
	"germinate.air.short":    {0.5, 0.01},
	"germinate.bed.hot":      {0.5, 0.03},
	"germinate.bed.warm":     {0.6, 0.05},
	"germinate.bed.dry":      {0.6, 0.03},
	"germinate.oxygen.gone":  {0.9, 0.30},
	"germinate.co2.room":     {1.0, 0.10},
	"germinate.turn.missing": {0.8, 0.05},
	"germinate.hold.missed":  {0.5, 0.01},
}

// Findings appends what has been seen since Start. Times count from the start
// of germination.
func (r *Run) Findings(dst []finding.Finding) []finding.Finding {
	dst = r.airFindings(dst)
	dst = r.bedFindings(dst)
	dst = r.holdFindings(dst)
	return r.gasFindings(dst)
}

// airFindings are about the air under the bed.
func (r *Run) airFindings(dst []finding.Finding) []finding.Finding {
	w, handler := &r.now.watch, &r.setup.Vessel.Air
	if m := &w.warm; m.hours > tooLongH {
		act := "act.plant.more-cooling"
		if handler.CoolingKW <= 0 {
			act = "act.germinate.more-return-or-cooling"
		}
		dst = r.add(dst, "germinate.air.warm", finding.Caution, m, act,
			finding.Figure{Name: "asked_c", Value: w.warmWantC},
			finding.Figure{Name: "reached_c", Value: w.warmGotC},
			finding.Figure{Name: "hours_h", Value: m.hours},
			finding.Figure{Name: "fan_heat_k", Value: r.now.fanJKg / air.DryAirJKgK},
			finding.Figure{Name: "outside_c", Value: r.setup.Outside.MeanC})
	}
	if m := &w.cold; m.hours > tooLongH {
		dst = r.add(dst, "germinate.air.cold", finding.Caution, m, "act.germinate.more-return-or-heat",
			finding.Figure{Name: "below_k", Value: m.worst},
			finding.Figure{Name: "hours_h", Value: m.hours})
	}
	if m := &w.dry; m.hours > tooLongH {
		dst = r.add(dst, "germinate.air.dry", finding.Caution, m, "act.plant.better-humidifier",
			finding.Figure{Name: "below_rh", Value: m.worst},
			finding.Figure{Name: "humidifier", Value: handler.Humidifier},
			finding.Figure{Name: "hours_h", Value: m.hours})
	}
	if m := &w.short; m.hours > tooLongH {
		dst = r.add(dst, "germinate.air.short", finding.Caution, m, "act.germinate.less-air-or-bed",
			finding.Figure{Name: "missing_share", Value: m.worst},
			finding.Figure{Name: "reached_kg_m2_s", Value: r.now.airKgS / r.setup.Vessel.AreaM2})
	}
	return dst
}

// bedFindings are about temperature, moisture and turning.
func (r *Run) bedFindings(dst []finding.Finding) []finding.Finding {
	w := &r.now.watch
	cooler := "act.germinate.colder-air"
	if r.setup.Vessel.Kind == plant.Floor {
		cooler = "act.germinate.spread-thinner"
	}
	if m := &w.gap; m.hours > tooLongH {
		dst = r.add(dst, "germinate.bed.hot", finding.Caution, m, "act.germinate.more-air",
			finding.Figure{Name: "gap_k", Value: m.worst},
			finding.Figure{Name: "hours_h", Value: m.hours})
	}
	if m := &w.hot; m.hours > tooLongH {
		dst = r.add(dst, "germinate.bed.warm", finding.Caution, m, cooler,
			finding.Figure{Name: "temp_high_c", Value: m.worst},
			finding.Figure{Name: "hours_h", Value: m.hours})
	}
	if m := &w.dried; m.hours > 0 {
		_, water := r.totals()
		dst = r.add(dst, "germinate.bed.dry", finding.Caution, m, "act.germinate.spray",
			finding.Figure{Name: "start_wb", Value: r.now.startWB},
			finding.Figure{Name: "moisture_wb", Value: r.moisture()},
			finding.Figure{Name: "evaporated_kg", Value: -r.now.sums.airWaterKg},
			finding.Figure{Name: "water_kg", Value: water})
	}
	if m := &w.unturned; m.hours > 0 {
		dst = r.add(dst, "germinate.turn.missing", finding.Caution, m, "act.germinate.turn",
			finding.Figure{Name: "unturned_h", Value: m.worst})
	}
	return dst
}

// gasFindings are about oxygen for the corns and air for people.
func (r *Run) gasFindings(dst []finding.Finding) []finding.Finding {
	w := &r.now.watch
	if m := &w.breathless; m.hours > 0 {
		dst = r.add(dst, "germinate.oxygen.gone", finding.Alarm, m, "act.germinate.restart-fan-open-dampers",
			finding.Figure{Name: "oxygen_least", Value: 1 - m.worst},
			finding.Figure{Name: "hours_h", Value: m.hours},
			finding.Figure{Name: "fermented_kg", Value: r.now.sums.burned.FermentedKg})
		if r.now.stopped && m.sinceH >= r.now.stoppedH { // and not of a stop after that
			f := &dst[len(dst)-1]
			f.Figures = append(f.Figures, finding.Figure{Name: "after_stop_min", Value: 60 * (m.sinceH - r.now.stoppedH)})
		}
	}
	if m := &w.room; m.hours > 0 {
		dst = r.add(dst, "germinate.co2.room", finding.Caution, m, "act.germinate.air-the-room-before-entry",
			finding.Figure{Name: "co2_most", Value: m.worst},
			finding.Figure{Name: "limit", Value: roomCO2},
			finding.Figure{Name: "hours_h", Value: m.hours})
		dst[len(dst)-1].Source = "29 CFR 1910.1000"
	}
	return dst
}

// add appends one finding about a mark.
func (r *Run) add(dst []finding.Finding, code string, severity finding.Severity, m *mark, act string, figures ...finding.Figure) []finding.Finding {
	f := finding.New(code, severity, "germinate", figures...)
	f.AtH, f.Act, f.Source = m.sinceH, act, practice
	if m.cell != finding.Nowhere {
		f.Column, f.Layer = m.cell/r.grain.Layers, m.cell%r.grain.Layers
	}
	f.Chance, f.Cost = weights[code].chance, weights[code].cost
	return append(dst, f)
}
