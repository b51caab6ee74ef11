package report

import "math"

// restLine says how the malt is sent out, if its moisture has moved by as much
// as is printed.
func (r Report) restLine() string {
	u, m := r.Units, r.Outcome.Rested
	const printed = 0.0005
	switch {
	case !r.dressed() || m.Days > 0 && math.Abs(float64(m.Moisture)-r.Outcome.Kilned.MoistureMean) < printed:
		return ""
	case m.Days == 0:
		return u.Say("rest.none")
	}
	return u.Say("rest.line", "rest", u.Span(24*m.Days), "moisture", r.figure("wb", float64(m.Moisture)))
}

// rested is the rest before dispatch, for JSON.
func (r Report) rested() object {
	m := r.Outcome.Rested
	return object{}.num("rest_d", m.Days).num("moisture_wb", float64(m.Moisture)).num("gained_db", m.Gained).num("temp_c", m.TempC).
		num("outer_wb", float64(m.Outer)).num("dew_c", m.DewC).num("wall_c", m.WallC).num("air_m3_h_t", m.Store.AirM3HT)
}
