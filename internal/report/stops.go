package report

import (
	"awn/course"
	"awn/germinate"
)

// stopFigure is one line of the table of stops.
type stopFigure struct {
	phrase, key string
	of          func(*germinate.Still) float64
}

var stopFigures = []stopFigure{
	{"stops.oxygen", "min", func(s *germinate.Still) float64 { return s.OxygenMin }},
	{"stops.hot", "min", func(s *germinate.Still) float64 { return s.HotMin }},
	{"stops.mean", "c", func(s *germinate.Still) float64 { return s.MeanC }},
	{"stops.hottest", "c", func(s *germinate.Still) float64 { return s.HottestC }},
	{"stops.least", "share", func(s *germinate.Still) float64 { return s.OxygenLeast }},
	{"stops.dioxide", "share", func(s *germinate.Still) float64 { return s.DioxideMost }},
}

// stopTable is what a stop of the fan does, with the band that its draught leaves.
func (r Report) stopTable(s *course.Stop) table {
	u := r.Units
	dampers := "stops.open"
	if s.DampersShut {
		dampers = "stops.shut"
	}
	t := table{
		Caption: u.Say("table.stop", "hours", r.figure("h", s.Hours), "at", r.figure("h", s.AtH), "dampers", u.Say(dampers)),
		Head:    []string{"", u.Say("head.usual-draught"), u.Say("head.least-draught"), u.Say("head.most-draught")},
	}
	for _, f := range stopFigures {
		t.Rows = append(t.Rows, []string{u.Say(f.phrase), r.figure(f.key, f.of(&s.Usual)), r.figure(f.key, f.of(&s.Least)), r.figure(f.key, f.of(&s.Most))})
	}
	return t
}

// stop is one stop of the fan, for JSON.
func stop(s course.Stop) object {
	still := func(x germinate.Still) object {
		return object{}.num("draught_m3_h_t_k", x.DraughtM3HTK).num("oxygen_min", x.OxygenMin).num("hot_min", x.HotMin).
			num("mean_c", x.MeanC).num("hottest_c", x.HottestC).num("oxygen_least", x.OxygenLeast).num("co2_most", x.DioxideMost)
	}
	return object{"dampers_shut": s.DampersShut, "usual": still(s.Usual), "least": still(s.Least), "most": still(s.Most)}.
		num("at_h", s.AtH).num("stopped_h", s.Hours)
}
