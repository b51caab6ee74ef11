package report

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"html/template"
	"io"
	"strconv"
	"strings"

	"awn/course"
	cells "awn/internal/table"
	"awn/internal/words"
)

//go:embed live.html
var liveText string

// Live is an account as it is looked at while something is thought out: a part
// of a page that brings no style, each of its tables to be had as CSV.
type Live struct {
	Verdict        string
	Lines          []string
	Figures        []figure
	First          []table // before the findings
	Findings, Rest []found
	Tables         []table
	Compared       bool      // several pieces, whose findings are not told
	Sections       []section // with headings of their own

	units words.Units
}

// Live is the verdict, the course, the limits, what wants attention, and the
// account with its balances and costs; with the doubt, which takes longer
// anyway, the beds as contours too.
func (r Report) Live() *Live {
	n := &counter{}
	l := &Live{Verdict: r.verdict(), Lines: []string{strings.TrimSpace(r.makes() + " " + r.bedLine())}, units: r.Units}
	l.find(r.findings())
	parts := []section{r.courseSection(n)}
	if r.Odds != nil {
		parts = append(parts, section{Figures: r.bedSection(n, course.Germinate).Figures}, section{Figures: r.bedSection(n, course.Kiln).Figures})
	}
	for _, s := range append(parts, r.maltSection(n)) {
		l.Figures, l.Tables = append(l.Figures, s.Figures...), append(l.Tables, s.Tables...)
	}
	if odds := r.oddsSection(); odds.Intro != "" {
		l.Lines, l.Tables = append(l.Lines, odds.Intro), append(l.Tables, odds.Tables...)
	}
	for _, s := range []section{r.balanceSection(n), r.costSection()} {
		l.Tables = append(l.Tables, s.Tables...)
	}
	return l.numbered()
}

// Live is the whole account of a trial.
func (a TrialAccount) Live() *Live {
	p := a.page()
	l := &Live{Verdict: p.Verdict, Lines: p.Lines, Findings: p.Findings, Rest: p.Rest, Sections: p.Sections, units: a.Units}
	return l.numbered()
}

// Live is the whole comparison.
func (c *Comparison) Live() *Live {
	p := c.page()
	l := &Live{Verdict: p.Verdict, Lines: append(p.Lines, p.Makes), Compared: true, Sections: p.Sections, units: c.Units}
	return l.numbered()
}

// find takes findings, the weightiest before the others.
func (l *Live) find(all []found) {
	l.Findings, l.Rest = all[:min(len(all), mostFindings)], all[min(len(all), mostFindings):]
}

// numbered gives each table the number under which CSV knows it.
func (l *Live) numbered() *Live {
	for i, t := range l.tables() {
		t.ID = strconv.Itoa(i + 1)
	}
	return l
}

// tables are all tables in the order in which they stand.
func (l *Live) tables() (out []*table) {
	add := func(figures []figure, tables []table) {
		for i := range figures {
			out = append(out, &figures[i].Table)
		}
		for i := range tables {
			out = append(out, &tables[i])
		}
	}
	add(l.Figures, l.First)
	add(nil, l.Tables)
	for _, s := range l.Sections {
		add(s.Figures, s.Tables)
	}
	return out
}

// Write writes the part of a page. Buttons send its form to csv for a table, and
// formulas stand on a page of their own.
func (l *Live) Write(w io.Writer, csv, formulas string) error {
	t, err := template.New("page").Funcs(template.FuncMap{
		"say": l.units.Say, "tongue": l.units.Tongue.Tag, "csv": func() string { return csv }, "formulas": func() string { return formulas },
	}).Parse(pageText + FormulaText)
	if err != nil {
		return err
	}
	if t, err = t.New("live").Parse(liveText); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, l); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// CSV writes the table of that number, in the reader's own form; false if there
// is no such table.
func (l *Live) CSV(w io.Writer, number string) (bool, error) {
	for _, t := range l.tables() {
		if t.ID == number {
			return true, t.csv(w)
		}
	}
	return false, nil
}

// csv writes a table with its head.
func (t *table) csv(w io.Writer) error {
	c := csv.NewWriter(w)
	rows := append([][]string{t.Head}, t.Rows...)
	for _, row := range rows {
		out := make([]string, len(row))
		for i, cell := range row {
			out[i] = cells.Words(cell)
		}
		if err := c.Write(out); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}
