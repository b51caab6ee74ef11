package report

import (
	"math"

	"awn/course"
	"awn/germinate"
	"awn/internal/words"
	"awn/malt"
)

// bedLine says how the bed lay: a level one is the best case.
func (r Report) bedLine() string {
	u := r.Units
	if len(r.Outcome.Spots) == 0 {
		return u.Say("bed.level")
	}
	var spots []string
	for _, s := range r.Outcome.Spots {
		spots = append(spots, u.Number(s.Depth, 2))
	}
	return u.Say("bed.uneven", "spots", u.List(spots))
}

// inSpot names the spot in which a figure is at its most beside that figure.
func (r Report) inSpot(worst string, of func(*course.Spot) float64) string {
	most, name := math.Inf(-1), ""
	for i := range r.Outcome.Spots {
		if x := of(&r.Outcome.Spots[i]); x > most {
			most, name = x, r.Outcome.Spots[i].Name
		}
	}
	if name == "" || worst == "" {
		return worst
	}
	return r.Units.Say("worst.in", "worst", worst, "spot", r.Units.Say("spot."+name))
}

// spotFigure is one line of the table of spots.
type spotFigure struct {
	phrase, key string
	whole       float64
	of          func(*course.Spot) float64
}

// spotFigures are the figures by which spots are told apart.
func (r Report) spotFigures() []spotFigure {
	o := r.Outcome
	analysis := func(phrase, key string, of func(germinate.Analysis) float64) spotFigure {
		return spotFigure{phrase, key, of(o.Growth.Mean), func(s *course.Spot) float64 { return of(s.Growth.Mean) }}
	}
	return []spotFigure{
		{"spots.floor", "share", 1, func(s *course.Spot) float64 { return s.Share }},
		{"spots.depth", "x", 1, func(s *course.Spot) float64 { return s.Depth }},
		{"spots.air-grown", "x", 1, func(s *course.Spot) float64 { return s.AirGrown }},
		{"spots.air-kilned", "x", 1, func(s *course.Spot) float64 { return s.AirKilned }},
		{"spots.break", "h", o.Kilned.BreakH, func(s *course.Spot) float64 { return s.Kilned.BreakH }},
		{"spots.moisture", "wb", o.Kilned.MoistureMean, func(s *course.Spot) float64 { return s.Kilned.MoistureMean }},
		{"spots.wettest", "wb", o.Kilned.MoistureWettest, func(s *course.Spot) float64 { return s.Kilned.MoistureWettest }},
		{"spots.driest", "wb", o.Kilned.MoistureDriest, func(s *course.Spot) float64 { return s.Kilned.MoistureDriest }},
		{"row.colour", "ebc", o.Kilned.ColourMean, func(s *course.Spot) float64 { return s.Kilned.ColourMean }},
		analysis("growth.friability", "friability", func(a germinate.Analysis) float64 { return a.Friability }),
		analysis("growth.kolbach", "kolbach", func(a germinate.Analysis) float64 { return a.Kolbach }),
		analysis("growth.extract", "extract_fine_dm", func(a germinate.Analysis) float64 { return a.ExtractFine }),
		{"spots.least-grown", "friability", o.Growth.Worst.Friability, func(s *course.Spot) float64 { return s.Growth.Worst.Friability }},
		{"corns.partly", "pug", o.Growth.PartlyCorns, func(s *course.Spot) float64 { return s.Growth.PartlyCorns }},
	}
}

// spotTable is each spot of an uneven bed beside the whole.
func (r Report) spotTable() table {
	u := r.Units
	t := table{Caption: u.Say("table.spots"), Head: []string{"", u.Say("head.whole")}}
	for _, s := range r.Outcome.Spots {
		t.Head = append(t.Head, u.Say("spot."+s.Name))
	}
	for _, f := range r.spotFigures() {
		row := []string{u.Say(f.phrase), words.Figure(f.key, f.whole, u)}
		for i := range r.Outcome.Spots {
			row = append(row, words.Figure(f.key, f.of(&r.Outcome.Spots[i]), u))
		}
		t.Rows = append(t.Rows, row)
	}
	fails := []string{u.Say("spots.fails"), u.Number(float64(failing(r.Outcome.Judged)), 0)}
	for _, s := range r.Outcome.Spots {
		fails = append(fails, u.Number(float64(failing(s.Judged)), 0))
	}
	t.Rows = append(t.Rows, fails)
	return t
}

func failing(verdicts []malt.Verdict) int {
	n := 0
	for _, v := range verdicts {
		if v.Word == malt.Fails {
			n++
		}
	}
	return n
}

// spot is one column, for JSON.
func spot(s course.Spot) object {
	figures := object{}
	for _, c := range corns {
		figures.num(c.key, c.of(s.Growth.Mean))
	}
	return object{"spot": s.Name, "growth": figures, "kilned": kilned(s.Kilned), "malt": analysis(s.Malt), "judged": each(s.Judged, judged)}.
		num("floor_share", s.Share).num("depth_x", s.Depth).num("packing_x", s.Packing).num("dry_share", s.DryShare).
		num("air_grown_x", s.AirGrown).num("air_kilned_x", s.AirKilned)
}
