package report

import (
	"math"
	"strings"

	"awn/course"
	"awn/internal/words"
)

// oddsSection is how sure the account is; empty where no draws were made.
func (r Report) oddsSection() section {
	u := r.Units
	s := section{ID: "odds", Title: u.Say("section.odds")}
	if r.Odds == nil {
		return s
	}
	s.Intro = strings.TrimSpace(r.oddsLine() + " " + u.Say("odds.uncalibrated") + " " + r.adviceLine())
	for _, t := range []table{r.lineTable(), r.checkTable(), r.nextTable(), r.driverTable(), r.totalTable(), r.bandTable()} {
		if len(t.Rows) > 0 {
			s.Tables = append(s.Tables, t)
		}
	}
	return s
}

// lineTable is each line of the specification with its odds and its guard band.
func (r Report) lineTable() table {
	u := r.Units
	t := table{Caption: u.Say("table.odds"), Head: []string{u.Say("head.figure"), u.Say("head.limit"), u.Say("head.in-hundred"), "P10", "P50", "P90", u.Say("head.guard")}}
	for i, l := range r.Odds.Lines {
		key := l.Limit.Parameter.Key(l.Limit.Basis)
		number := func(x float64) string { return u.Number(words.Value(key, x, u), words.Decimals(key, u)) }
		t.add(key, u.Say("with-unit", "name", u.Parameter(l.Limit.Parameter), "unit", words.Symbol(key, u)), r.limit(key, l.Limit),
			r.inHundred(l.In.Share()), number(l.P10), number(l.P50), number(l.P90), r.margin(key, r.Odds.Guards[i]))
	}
	return t
}

// checkTable is what is to be measured before a release, with its guards.
func (r Report) checkTable() table {
	u := r.Units
	t := table{
		Caption: u.Say("table.checks"), Head: []string{u.Say("head.figure"), u.Say("head.deviation"), u.Say("head.guard"), u.Say("head.beyond"), u.Say("head.standing")},
		Words: map[int]bool{4: true},
	}
	for _, c := range r.Odds.Advice.Measured {
		l := r.Odds.Lines[c.Line].Limit
		key := l.Parameter.Key(l.Basis)
		rests := u.Say("check.practice")
		if c.Published {
			rests = u.Say("check.published")
		}
		t.add(key, u.Say("with-unit", "name", u.Parameter(l.Parameter), "unit", words.Symbol(key, u)),
			r.margin(key, c.Deviation), r.margin(key, c.Guard), r.inHundred(c.AtLimit), rests)
	}
	return t
}

func (r Report) nextTable() table {
	u := r.Units
	t := table{Caption: u.Say("table.next"), Head: []string{"", u.Say("head.takes"), u.Say("head.falls"), "±"}}
	for _, m := range r.Odds.Next {
		t.Rows = append(t.Rows, []string{r.measurable(m.Key), r.figure("h", m.Hours), r.inHundred(m.Now) + " → " + r.inHundred(m.Now-m.Fall), r.inHundred(m.Deviation)})
	}
	return t
}

// driverTable is what drives each line, by itself; a line whose regression
// explains too little says so.
func (r Report) driverTable() table {
	u := r.Units
	t := table{Caption: u.Say("table.drivers"), Head: []string{u.Say("head.figure"), "R²", u.Say("head.drivers")}, Words: map[int]bool{2: true}}
	for _, d := range r.Odds.Drivers {
		text := u.Say("drivers.unsaid")
		if d.Good() {
			text = r.driversOf(d, len(d.Shares))
		}
		if d.Log {
			text += u.Say("drivers.logarithm")
		}
		t.Rows = append(t.Rows, []string{u.Parameter(r.Odds.Lines[d.Line].Limit.Parameter), u.Number(d.R2, 2), text})
	}
	return t
}

// totalTable is the total shares of the groups.
func (r Report) totalTable() table {
	u := r.Units
	t := table{Caption: u.Say("table.totals"), Head: []string{u.Say("head.figure")}}
	if len(r.Odds.Totals) == 0 {
		return t
	}
	for _, group := range r.Odds.Totals {
		t.Head = append(t.Head, u.Say("group-of."+string(group.Group)))
	}
	for i, l := range r.Odds.Lines {
		row := []string{u.Parameter(l.Limit.Parameter)}
		for _, group := range r.Odds.Totals {
			row = append(row, r.totalOf(group, i))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (r Report) totalOf(t course.Total, line int) string {
	if math.IsNaN(t.Shares[line]) {
		return "–"
	}
	return r.Units.Number(100*t.Shares[line], 0) + "\u00a0±\u00a0" + r.Units.Number(math.Ceil(100*t.Deviation[line]), 0)
}

// bandTable is every figure of the account with its odds, under the key that it
// has for machines.
func (r Report) bandTable() table {
	t := table{Caption: r.Units.Say("table.bands"), Shut: true, Head: []string{r.Units.Say("head.key"), "P10", "P50", "P90"}}
	for _, b := range r.Odds.Bands {
		t.Rows = append(t.Rows, []string{b.Key, r.sum(b.Key, b.P10), r.sum(b.Key, b.P50), r.sum(b.Key, b.P90)})
	}
	return t
}
