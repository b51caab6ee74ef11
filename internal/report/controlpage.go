package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/complaint"
	"awn/finding"
	"awn/internal/draw"
	"awn/internal/words"
	"awn/lab"
)

// HTML writes the report: one file without script that opens and prints anywhere.
func (a ControlAccount) HTML(w io.Writer) error { return a.page().write(w, a.Units) }

// PDF writes the report as sheets to print.
func (a ControlAccount) PDF(w io.Writer, as Print) error { return a.page().print(w, a.Units, as) }

// page gathers the report.
func (a ControlAccount) page() page {
	u := a.Units
	p := page{
		Name: u.Say("lab.name"), Title: u.Say("lab.title", "name", a.Name), Lines: []string{a.size()}, Verdict: a.verdict(), Stamp: stamp(a.Version, u), Makes: u.Say("lab.caution"),
		FindingsTitle: u.Say("lab.findings"), NoFindings: u.Say("lab.findings.none"),
	}
	for i, t := range a.told() {
		f := found{words.Capital(u.Severity(t.Severity)), t.subject + ": " + t.reason, t.act, t.Source, t.Severity.String()}
		if i < mostFindings {
			p.Findings = append(p.Findings, f)
		} else {
			p.Rest = append(p.Rest, f)
		}
	}
	for _, s := range a.sections(&counter{}) {
		p.add(s)
	}
	return p
}

// verdict is which benches have moved, and what pieces differ by.
func (a ControlAccount) verdict() string {
	u := a.Units
	var out, moved []string
	for _, r := range a.Remarks {
		name := u.Say("lab.moved", "bench", a.bench(r.Bench), "quality", a.Results.Qualities[r.Quality].Name)
		if strings.HasPrefix(r.Code, "lab.instrument.") && r.Severity == finding.Alarm && !slices.Contains(moved, name) {
			moved = append(moved, name)
		}
	}
	switch {
	case len(moved) > 0:
		out = append(out, u.Say("lab.verdict.moved", "benches", u.List(moved)))
	case len(a.Charts) > 0:
		out = append(out, u.Say("lab.verdict.steady"))
	}
	for _, c := range a.Comparisons {
		for _, p := range c.Parts {
			if p.Term == c.Cause {
				out = append(out, u.Say("lab.verdict.cause", "quality", words.Capital(a.Results.Qualities[c.Quality].Name), "term", a.term(p.Term), "share", hundred(p.Share, u)+"\u00a0%"))
			}
		}
	}
	return strings.Join(out, " ")
}

// sections are the parts of the report.
func (a ControlAccount) sections(n *counter) []section {
	u := a.Units
	checks := section{ID: "checks", Title: u.Say("lab.charts"), Tables: []table{a.chartTable()}, Wide: true}
	legends := a.legends()
	if len(a.Charts) > 0 {
		checks.Intro = strings.Join(legends[:2], " ")
	}
	for i, c := range a.Charts {
		if len(c.Points) < 2 {
			continue
		}
		title := u.Say("lab.picture", "quality", a.qualityName(c.Quality), "bench", a.bench(c.Bench))
		checks.Figures = append(checks.Figures, n.figures([]string{title}, a.controlPicture(i, c, title))...)
	}
	out := []section{
		checks,
		{ID: "benches", Title: u.Say("lab.benches"), Tables: rowed(a.benchTable()), Wide: true},
		{ID: "repeats", Title: u.Say("lab.repeats"), Tables: rowed(a.repeatTable()), Wide: true},
		{ID: "rings", Title: u.Say("lab.rings"), Tables: rowed(a.ringTable()), Wide: true},
	}
	pieces := section{ID: "pieces", Title: u.Say("lab.pieces"), Tables: rowed(a.pieceTables()...), Intro: u.Say("lab.legend.parts"), Wide: true}
	for i, c := range a.Comparisons {
		if len(c.Parts) > 0 {
			title := u.Say("lab.picture.parts", "quality", a.qualityName(c.Quality))
			pieces.Figures = append(pieces.Figures, n.figures([]string{title}, a.partsPicture(i, c, title))...)
		}
	}
	return append(out, pieces)
}

// rowed keeps the tables that have rows.
func rowed(tables ...table) (out []table) {
	for _, t := range tables {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

func (a ControlAccount) pen() draw.Pen { return draw.Pen{Number: a.Units.Number} }

// axisDays is how many days the axis of a chart names.
const axisDays = 4

// controlPicture is one chart in time.
func (a ControlAccount) controlPicture(i int, c lab.Chart, title string) draw.Picture {
	u := a.Units
	d := draw.Control{ID: "control" + strconv.Itoa(i+1), Title: title, Says: u.Say("lab.picture.says"), Sum: u.Say("lab.picture.sum"), SumMost: lab.Decision, Decimals: a.decimals(c.Quality),
		Head: a.heads("day", "reading", "up", "down", "smooth", "rules")}
	for _, p := range c.Points {
		r := draw.ControlReading{Day: p.Day, Value: p.Mean, Up: p.Up, Down: p.Down, Event: p.Event}
		var broken []string
		for _, rule := range p.Broken {
			r.Out = r.Out || rule == lab.BeyondAction
			broken = append(broken, u.Say("lab.rule."+string(rule)))
		}
		d.Readings = append(d.Readings, r)
		d.Rows = append(d.Rows, []string{day(p.Day), a.number(c.Quality, p.Mean), u.Number(p.Up, 1), u.Number(p.Down, 1), u.Number(p.Smooth, 2), u.List(broken)})
	}
	for _, s := range c.Segments {
		t := draw.Stretch{From: c.Points[s.From].Day, To: c.Points[s.To].Day, Centre: s.Centre, Warn: lab.Warning * s.Sigma, Act: lab.Action * s.Sigma, Word: strings.TrimSpace(s.Sample + " " + s.Batch)}
		d.Stretches = append(d.Stretches, t)
	}
	first, last := c.Points[0].Day, c.Points[len(c.Points)-1].Day
	for k := range axisDays {
		at := math.Round(first + (last-first)*(float64(k)+0.35)/axisDays)
		d.Days = append(d.Days, draw.ControlDay{Day: at, Word: day(at)})
	}
	return a.pen().Control(d)
}

// partsPicture is what each term brings into the figures of a quality.
func (a ControlAccount) partsPicture(i int, c complaint.Comparison, title string) draw.Picture {
	u := a.Units
	r := draw.Rules{ID: fmt.Sprintf("parts%d", i+1), Title: title, Says: u.Say("lab.parts.says"), Words: []string{u.Say("lab.head.sd") + ", " + a.qualityName(c.Quality)}, Zero: "0",
		Head: a.heads("term", "sd", "interval", "interval"), Decimals: a.decimals(c.Quality)}
	for _, p := range c.Parts {
		high := p.High
		if math.IsInf(high, 1) {
			high = math.NaN()
		}
		r.Rows = append(r.Rows, draw.Ruled{Name: a.term(p.Term) + ", " + hundred(p.Share, u) + " %", Marks: []draw.RuleMark{{Mid: p.SD, Low: p.Low, High: high, Out: p.PHolm > 0.05}}})
	}
	return a.pen().Rules(r)
}
