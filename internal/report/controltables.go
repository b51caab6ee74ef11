package report

import (
	"math"
	"strconv"
	"strings"

	"awn/complaint"
	"awn/lab"
)

// controlHeads are column heads by the ends of their phrases.
func (a ControlAccount) heads(keys ...string) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = a.Units.Say("lab.head." + k)
	}
	return out
}

// tables are those of the parts that are there.
func (a ControlAccount) tables() (out []table) {
	for _, t := range append([]table{a.chartTable(), a.benchTable(), a.repeatTable(), a.ringTable()}, a.pieceTables()...) {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

func (a ControlAccount) interval(quality int, low, high float64) string {
	if math.IsNaN(low) {
		return "–"
	}
	return a.Units.Say("lab.range", "low", a.number(quality, low), "high", a.number(quality, high))
}

// state is how a stretch of a chart stands, in a word.
func (a ControlAccount) state(c lab.Chart, s lab.Segment) string {
	beyond, pattern := false, false
	for _, p := range c.Points[s.From : s.To+1] {
		for _, r := range p.Broken {
			beyond = beyond || r == lab.BeyondAction
			pattern = pattern || r != lab.BeyondAction
		}
	}
	key := "steady"
	switch {
	case s.Basis == lab.NoLimits:
		key = "none"
	case s.Shift != nil && s.Shift.Low <= 0 && s.Shift.High >= 0:
		key = "unsteady"
	case s.Shift != nil && s.Shift.Gradual:
		key = "drifts"
	case s.Shift != nil:
		key = "shifted"
	case beyond:
		key = "alarm"
	case pattern:
		key = "pattern"
	}
	return a.Units.Say("lab.state." + key)
}

// chartTable is each stretch of each chart with its limits.
func (a ControlAccount) chartTable() table {
	u := a.Units
	t := table{Caption: u.Say("lab.charts"), Head: a.heads("sample", "state", "n", "mean", "sd", "action", "basis", "warning", "range-limit", "bias", "interval"), Words: map[int]bool{1: true, 6: true}}
	for _, c := range a.Charts {
		t.Rows = append(t.Rows, []string{join([]string{a.qualityName(c.Quality), a.bench(c.Bench)})})
		for _, s := range c.Segments {
			n, readings := func(x float64) string { return a.number(c.Quality, x) }, 0
			for _, p := range c.Points[s.From : s.To+1] {
				readings += min(p.N, 1)
			}
			limits := func(by float64) string { return a.interval(c.Quality, s.Centre-by*s.Sigma, s.Centre+by*s.Sigma) }
			low, high := s.BiasLimits(readings)
			t.Rows = append(t.Rows, []string{strings.TrimSpace(s.Sample + " " + s.Batch), a.state(c, s), strconv.Itoa(readings), n(s.Centre), n(s.Sigma), limits(lab.Action),
				u.Say("lab.basis."+string(s.Basis), "count", strconv.Itoa(s.Base)), limits(lab.Warning), n(s.RangeMost), n(s.Bias), a.interval(c.Quality, low, high)})
		}
	}
	return t
}

// benchTable is every two benches side by side.
func (a ControlAccount) benchTable() table {
	u := a.Units
	t := table{Caption: u.Say("lab.benches"), Head: a.heads("quality", "difference", "interval", "n", "allowed", "beyond", "slope", "interval", "outside", "offset")}
	for _, x := range a.Benches {
		if x.Few {
			continue
		}
		t.Rows = append(t.Rows, []string{a.bench(x.B) + " − " + a.bench(x.A)})
		beyond := "–"
		if !math.IsNaN(x.Beyond) {
			beyond = hundred(x.Beyond, u) + " %"
		}
		slope := u.Say("lab.range", "low", u.Number(x.Line.SlopeLow, 2), "high", u.Number(x.Line.SlopeHigh, 2))
		outside := "–"
		if !math.IsNaN(x.R95) {
			outside = strconv.Itoa(x.Outside)
		}
		t.Rows = append(t.Rows, []string{a.qualityName(x.Quality), a.number(x.Quality, x.Difference), a.interval(x.Quality, x.Low, x.High), strconv.Itoa(x.Agreement.Pairs),
			a.number(x.Quality, x.Allowed), beyond, u.Number(x.Line.Slope, 2), slope, outside, a.number(x.Quality, x.Line.Offset)})
	}
	return t
}

// repeatTable is how each bench repeats itself.
func (a ControlAccount) repeatTable() table {
	u := a.Units
	t := table{Caption: u.Say("lab.repeats"), Head: a.heads("quality", "n", "sd", "interval", "limit", "published", "worse")}
	for _, x := range a.Repeats {
		t.Rows = append(t.Rows, []string{a.bench(x.Bench)})
		worse := "–"
		if !math.IsNaN(x.Worse) {
			worse = hundred(x.Worse, u) + " %"
		}
		t.Rows = append(t.Rows, []string{a.qualityName(x.Quality), strconv.Itoa(x.Samples), a.number(x.Quality, x.Deviation), a.interval(x.Quality, x.Low, x.High),
			a.number(x.Quality, x.Limit), a.number(x.Quality, x.Published), worse})
	}
	return t
}

// ringTable is the scores of ring tests.
func (a ControlAccount) ringTable() table {
	u := a.Units
	t := table{Caption: u.Say("lab.rings"), Head: a.heads("ring", "quality", "found", "assigned", "sd", "score", "basis"), Words: map[int]bool{1: true, 6: true}}
	for _, x := range a.Rings {
		score, own := u.Number(x.Score, 2), ""
		if x.Primed {
			score += " z′"
		}
		if x.Own {
			own = u.Say("lab.own", "count", strconv.Itoa(x.Of))
		}
		n := func(v float64) string { return a.number(x.Quality, v) }
		t.Rows = append(t.Rows, []string{a.bench(x.Bench)}, []string{x.Sample, a.qualityName(x.Quality), a.read(x.Quality, x.X), a.read(x.Quality, x.Assigned), n(x.SD), score, own})
	}
	return t
}

// pieceTables are, for each quality, what the differences are owed to and each
// vessel and test against the others.
func (a ControlAccount) pieceTables() (out []table) {
	for _, c := range a.Comparisons {
		out = append(out, a.partTable(c), a.levelTable(c))
	}
	return out
}

func (a ControlAccount) partTable(c complaint.Comparison) table {
	u := a.Units
	t := table{Caption: u.Say("lab.pieces") + ": " + a.qualityName(c.Quality), Head: a.heads("term", "share", "sd", "interval", "levels", "sure")}
	for _, p := range c.Parts {
		high, sure := a.number(c.Quality, p.High), ""
		if math.IsInf(p.High, 1) {
			high = u.Say("lab.endless")
		}
		if !math.IsNaN(p.PHolm) {
			sure = hundred(1-p.PHolm, u) + " %"
		}
		t.Rows = append(t.Rows, []string{a.term(p.Term), hundred(p.Share, u) + " %", a.number(c.Quality, p.SD),
			u.Say("lab.range", "low", a.number(c.Quality, p.Low), "high", high), strconv.Itoa(p.Levels), sure})
	}
	return t
}

func (a ControlAccount) levelTable(c complaint.Comparison) table {
	t := table{Caption: a.qualityName(c.Quality), Head: a.heads("level", "difference", "interval", "figures", "sure")}
	term := ""
	for _, l := range c.Levels {
		if l.Term == complaint.Barley {
			continue
		}
		if l.Term != term {
			term = l.Term
			t.Rows = append(t.Rows, []string{a.term(term)})
		}
		name := l.Name
		if name == "" {
			name = "–"
		}
		sure := "–"
		if !math.IsNaN(l.PHolm) {
			sure = hundred(1-l.PHolm, a.Units) + " %"
		}
		t.Rows = append(t.Rows, []string{name, a.number(c.Quality, l.Difference.Value), a.interval(c.Quality, l.Low, l.High), strconv.Itoa(l.Figures), sure})
	}
	return t
}
