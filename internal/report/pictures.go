package report

import (
	"math"

	"awn/course"
	"awn/internal/draw"
	"awn/internal/words"
	"awn/programme"
)

// pen draws in the reader's numbers.
func (r Report) pen() draw.Pen { return draw.Pen{Number: r.Units.Number} }

// coursePicture is moisture, temperature, growth and air on one time axis.
func (r Report) coursePicture() draw.Picture {
	o, u := r.Outcome, r.Units
	c := draw.Course{
		ID: "course", Title: u.Say("picture.course"), HourWord: u.Say("axis.hours"),
		ToH: r.hours(), TimeH: o.Curve.TimeH,
	}
	for _, s := range o.Stages {
		c.Stages = append(c.Stages, draw.Span{FromH: s.FromH, ToH: s.ToH, Word: u.Stage(s.Stage.String())})
		for _, st := range s.Steps {
			c.Steps = append(c.Steps, draw.Span{FromH: st.FromH, ToH: st.ToH, Hatch: hatch(s.Stage, st.Name), Word: u.Step(st.Name)})
		}
		if s.Stage == course.Kiln && !math.IsNaN(o.Kilned.BreakH) {
			c.Moments = append(c.Moments, draw.Moment{AtH: s.FromH + o.Kilned.BreakH, Word: u.Reading(programme.Break)})
		}
	}
	if r.NowH > 0 {
		c.Moments = append(c.Moments, draw.Moment{AtH: r.NowH, Word: u.Say("moment.now")})
	}
	c.Panels = r.measured(r.hemmed(r.panels()))
	c.Says, c.Handles = r.courseSays(), r.handles()
	pic := r.pen().Course(c)
	pic.Says += r.waiting()
	return pic
}

// hatch is the hatch of a step.
func hatch(s course.Stage, step string) draw.Hatch {
	switch {
	case s == course.Germinate:
		return draw.Strokes
	case s == course.Kiln:
		return draw.Lines
	case s == course.Dress:
		return draw.Cross
	case step == "immersion" || step == "spray":
		return draw.Waves
	case step == "couch":
		return draw.Dots
	}
	return draw.Plain
}

// panels are the quantities of the course that were read at all.
func (r Report) panels() []draw.Panel {
	u := r.Units
	line := func(reading programme.Reading, phrase string, stroke draw.Stroke) draw.Line {
		return draw.Line{Word: u.Say(phrase), Values: r.series(reading), Stroke: stroke}
	}
	band := func(low, high programme.Reading, lowWord, highWord, word string) draw.Band {
		return draw.Band{Low: r.series(low), High: r.series(high), LowWord: u.Say(lowWord), HighWord: u.Say(highWord), Word: u.Say(word)}
	}
	all := []draw.Panel{
		{
			Title: r.panelTitle("panel.moisture", "wb"), Decimals: 1, FromZero: true,
			Lines: []draw.Line{line(programme.Moisture, "line.mean", draw.Solid), {Word: u.Say("line.drained"), Values: r.drained(), Stroke: draw.Dashed}},
			Bands: []draw.Band{band(programme.DriestLayer, programme.WorstLayer, "line.driest", "line.wettest", "band.moisture")},
		},
		{
			Title: r.panelTitle("panel.temperature", "c"), Decimals: 1,
			Lines: []draw.Line{
				line(programme.TempMean, "line.grain", draw.Solid), line(programme.AirOn, "line.air-on", draw.Dashed),
				line(programme.AirOff, "line.air-off", draw.Accent), line(programme.WaterTemp, "line.water", draw.Fine),
			},
			Bands: []draw.Band{band(programme.TempLow, programme.TempHigh, "line.coolest", "line.warmest", "band.temperature")},
		},
		{
			Title: r.panelTitle("panel.growth", "share"), FromZero: true,
			Lines: []draw.Line{line(programme.Chit, "line.chit", draw.Fine), line(programme.Acrospire, "line.acrospire", draw.Accent)},
			Bands: []draw.Band{band(programme.AcrospireP10, programme.AcrospireP90, "line.slowest", "line.fastest", "band.acrospire")},
		},
		{
			Title: r.panelTitle("panel.gas", "share"), FromZero: true, HeightPx: 90,
			Lines: []draw.Line{line(programme.OxygenLeast, "line.oxygen", draw.Solid), line(programme.CarbonDioxideMost, "line.dioxide", draw.Dashed)},
		},
	}
	out := all[:0]
	for _, p := range all {
		if p = onlyKnown(p); len(p.Lines)+len(p.Bands) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// drained is the moisture with the film on the corns, where there is one.
func (r Report) drained() []float64 {
	out := r.series(programme.Drained)
	for i, inside := range r.series(programme.Moisture) {
		if out[i] == inside {
			out[i] = math.NaN()
		}
	}
	return out
}

func (r Report) panelTitle(phrase, unit string) string {
	return r.Units.Say(phrase, "unit", words.Symbol(unit, r.Units))
}

// onlyKnown drops lines and bands that hold no figure.
func onlyKnown(p draw.Panel) draw.Panel {
	var lines []draw.Line
	for _, l := range p.Lines {
		if known(l.Values) {
			lines = append(lines, l)
		}
	}
	var bands []draw.Band
	for _, b := range p.Bands {
		if known(b.Low) && known(b.High) {
			bands = append(bands, b)
		}
	}
	p.Lines, p.Bands = lines, bands
	return p
}

// courseSays is the course in one sentence.
func (r Report) courseSays() string {
	o, u := r.Outcome, r.Units
	if len(o.Stages) == 0 {
		return u.Say("picture.course")
	}
	first, last := o.Stages[0], o.Stages[len(o.Stages)-1]
	return u.Say("says.course", "from", r.figure("wb", first.Start[programme.Moisture]),
		"to", r.figure("wb", last.End[programme.Moisture]), "span", u.Span(r.hours()))
}

// marksPicture is each limit with its mark.
func (r Report) marksPicture() draw.Picture {
	u := r.Units
	m := draw.Marks{
		ID: "marks", Title: u.Say("picture.marks", "spec", r.specName()), Says: u.Say("says.marks"),
		Head: []string{u.Say("head.figure"), u.Say("head.found"), u.Say("head.least"), u.Say("head.most"), u.Say("head.verdict")},
	}
	rows := r.limitRows()
	for i, v := range r.Outcome.Judged {
		key := v.Limit.Parameter.Key(v.Limit.Basis)
		in := func(x float64) float64 { return words.Value(key, x, u) }
		m.Rows = append(m.Rows, draw.Mark{
			Name: rows[i].Name, Figure: join([]string{rows[i].Found, rows[i].Verdict}), Verdict: rows[i].Verdict,
			Value: in(v.Found.Value.Mid), Low: in(r.toldLimit(i).Low), High: in(r.toldLimit(i).High),
			Least: in(v.Limit.Min), Most: in(v.Limit.Max), Decimals: words.Decimals(key, u), Outside: v.Margin < 0,
			Hump: r.hump(i, in),
		})
	}
	return r.pen().Marks(m)
}
