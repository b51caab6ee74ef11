package report

import (
	"io"
	"math"
	"slices"

	"awn/barley"
	"awn/internal/draw"
	"awn/internal/words"
	"awn/programme"
)

// HTML writes the comparison: one file without script that opens offline.
func (c *Comparison) HTML(w io.Writer) error { return c.page().write(w, c.Units) }

// page gathers the comparison.
func (c *Comparison) page() page {
	u := c.Units
	p := page{Name: u.Say("compare.title"), Title: u.Say("compare.title"), Verdict: c.verdict(), Makes: c.rests(), Stamp: stamp(c.Version, u),
		Compared: true}
	for i := range c.Pieces {
		p.Lines = append(p.Lines, letter(i)+"  "+c.heading(i))
	}
	n := &counter{}
	for _, s := range []section{
		{ID: "course", Title: u.Say("section.course"), Wide: true, Figures: n.figures([]string{u.Say("compare.curves")}, c.curves())},
		{ID: "odds", Title: u.Say("section.odds"), Tables: append([]table{c.oddsTable()}, c.againstTables()...)},
		{ID: "figures", Title: u.Say("compare.figures"), Tables: []table{c.figuresTable()}},
		{ID: "given", Title: u.Say("compare.given"), Wide: true, Tables: []table{c.givenTable()}},
		{ID: "balance", Title: u.Say("section.balance"), Intro: u.Say("intro.balance"), Tables: c.balanceTables()},
	} {
		s.Tables = slices.DeleteFunc(s.Tables, func(t table) bool { return len(t.Rows) == 0 })
		p.add(s)
	}
	return p
}

func (c *Comparison) givenTable() table {
	t := table{Head: append([]string{c.Units.Say("head.key")}, c.letters()...), Words: map[int]bool{}}
	for i := range c.Pieces {
		t.Words[i+1] = true
	}
	for _, d := range c.Differences {
		t.Rows = append(t.Rows, append([]string{d.Path}, d.Values...))
	}
	return t
}

func (c *Comparison) oddsTable() table {
	t := table{Caption: c.Units.Say("compare.lines"), Head: append([]string{""}, c.letters()...)}
	for _, l := range c.lines() {
		t.Rows = append(t.Rows, append([]string{c.Units.Parameter(l.Parameter)}, c.each(func(i int) string { return c.met(i, l) })...))
	}
	if len(t.Rows) > 0 {
		t.Rows = append(t.Rows, append([]string{c.Units.Say("compare.all")}, c.each(c.metAll)...))
	}
	return t
}

// figuresTable is the range of each figure of each piece.
func (c *Comparison) figuresTable() table {
	t := table{Caption: c.Units.Say("compare.ranges"), Head: append([]string{""}, c.letters()...)}
	for _, g := range c.groups() {
		t.Rows = append(t.Rows, []string{g.name})
		for _, f := range g.figures {
			t.Rows = append(t.Rows, append([]string{f.name}, c.each(func(i int) string { return c.ranged(i, f.key) })...))
		}
	}
	return t
}

// ranged is a figure of a piece with its range.
func (c *Comparison) ranged(i int, key string) string {
	b, ok := c.Pieces[i].band(key)
	if !ok {
		return "–"
	}
	return c.Units.Say("compare.range", "middle", c.Pieces[i].sum(key, b.P50), "low", c.bare(key, b.P10), "high", c.bare(key, b.P90))
}

// bare is a figure without its unit.
func (c *Comparison) bare(key string, x float64) string {
	if isMoney(key) {
		return c.Units.Number(x, 0)
	}
	return c.Units.Number(words.Value(unitOf(key), x, c.Units), words.Decimals(unitOf(key), c.Units))
}

// againstTables are the differences from the first piece.
func (c *Comparison) againstTables() []table {
	u := c.Units
	var out []table
	for other := 1; other < len(c.Pieces); other++ {
		out = append(out, table{
			Caption: u.Say("compare.contrast", "first", letter(0), "other", letter(other)),
			Head:    []string{"", "P10", "P50", "P90", u.Say("head.more")}, Rows: c.contrasts(other),
		})
	}
	return out
}

// balanceTables are the lines of dry matter, water and heat of all pieces, each
// at the middle of what is uncertain.
func (c *Comparison) balanceTables() []table {
	u := c.Units
	var out []table
	for _, g := range []struct {
		good         barley.Good
		phrase, unit string
	}{{barley.Dry, "table.dry", "kg"}, {barley.Water, "table.water", "kg"}, {barley.HeatJ, "table.heat", "j"}} {
		worst := 0.0
		var names []string
		amounts := map[string][]float64{}
		for i, r := range c.Pieces {
			worst = max(worst, r.closure(g.good))
			for _, l := range r.balanceLines(g.good) {
				name := r.lineName(l)
				if amounts[name] == nil {
					names, amounts[name] = append(names, name), make([]float64, len(c.Pieces))
				}
				amounts[name][i] += l.Amount
			}
		}
		t := table{Caption: u.Say(g.phrase, "closure", power(worst)), Head: append([]string{words.Symbol(g.unit, u)}, c.letters()...)}
		for _, name := range names {
			t.Rows = append(t.Rows, append([]string{name}, c.each(func(i int) string {
				return c.Pieces[i].amount(words.Value(g.unit, amounts[name][i], u))
			})...))
		}
		out = append(out, t)
	}
	return out
}

// strokes tell the pieces apart.
var strokes = [MostCompared]draw.Stroke{draw.Solid, draw.Accent, draw.Dashed, draw.Fine}

// curves are the pieces over each other on one time axis.
func (c *Comparison) curves() draw.Picture {
	u := c.Units
	all := draw.Course{ID: "compared", Title: u.Say("compare.curves"), Says: u.Say("compare.says"), HourWord: u.Say("axis.hours")}
	for _, r := range c.Pieces {
		all.ToH = max(all.ToH, r.hours())
		all.TimeH = append(all.TimeH, r.Outcome.Curve.TimeH...)
	}
	slices.Sort(all.TimeH)
	all.TimeH = slices.Compact(all.TimeH)
	for _, panel := range []struct {
		reading      programme.Reading
		phrase, unit string
	}{
		{programme.Moisture, "panel.moisture", "wb"}, {programme.TempMean, "compare.grain", "c"}, {programme.AirOn, "compare.air-on", "c"},
		{programme.Acrospire, "compare.acrospire", ""},
	} {
		one := draw.Panel{Title: u.Say(panel.phrase, "unit", words.Symbol(panel.unit, u)), Decimals: 1}
		for i, r := range c.Pieces {
			line := draw.Line{Word: letter(i), Values: at(all.TimeH, r.Outcome.Curve.TimeH, r.series(panel.reading)), Stroke: strokes[i]}
			one.Lines = append(one.Lines, line)
		}
		if one = onlyKnown(one); len(one.Lines) > 0 {
			all.Panels = append(all.Panels, one)
		}
	}
	return c.Pieces[0].pen().Course(all)
}

// at is a series at other moments, straight between its own; NaN after its end
// and where it is not known.
func at(moments, timeH, values []float64) []float64 {
	out := make([]float64, len(moments))
	next := 0
	for i, h := range moments {
		for next < len(timeH) && timeH[next] < h {
			next++
		}
		switch {
		case next == len(timeH):
			out[i] = math.NaN()
		case timeH[next] == h || next == 0:
			out[i] = values[next]
		default:
			part := (h - timeH[next-1]) / (timeH[next] - timeH[next-1])
			out[i] = values[next-1] + part*(values[next]-values[next-1])
		}
	}
	return out
}
