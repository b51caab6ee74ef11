package report

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
	"strings"

	"awn/course"
	"awn/internal/draw"
	"awn/internal/words"
)

//go:embed page.html
var pageText string

// FormulaText is the template “formula”: what is known of one.
//
//go:embed formula.html
var FormulaText string

//go:embed page.css
var pageStyle string

// page is the report, ready to be set.
type page struct {
	Name, Stamp               string // what it is, and what made it
	Title, Verdict, Makes     string
	FindingsTitle, NoFindings string
	Compared                  bool // several pieces, whose findings are not told
	Lines                     []string
	Style                     template.CSS
	Nav                       []section
	Findings, Rest            []found
	Sections                  []section
}

// section is a part of the report with a heading.
type section struct {
	ID, Title, Intro string
	Wide             bool // one column on a desk too
	Figures          []figure
	Tables           []table
	Formulas         []formulaGroup
}

// figure is a picture as it stands in the report.
type figure struct {
	Number      int
	Title, Says string
	SVG         template.HTML // made by draw, which escapes every word in it
	Table       table
}

// table is a table under two plain rules. A row of one cell is a heading
// within it.
type table struct {
	ID      string // under which it can be had alone; "" in a report
	Caption string
	Head    []string
	Rows    [][]string
	Words   map[int]bool // columns that hold words and not numbers
	Note    string       // below it
	Shut    bool         // long, and opened by whoever wants it

	Behind map[int][]string // formulas behind a row, by its index
}

// add appends a row; key names the formulas behind it, if any.
func (t *table) add(key string, cells ...string) {
	if formulas := behind[key]; formulas != nil {
		if t.Behind == nil {
			t.Behind = map[int][]string{}
		}
		t.Behind[len(t.Rows)] = formulas
	}
	t.Rows = append(t.Rows, cells)
}

// HTML writes the report: one file without script that opens offline.
func (r Report) HTML(w io.Writer) error { return r.page().write(w, r.Units) }

// write sets the page.
func (p page) write(w io.Writer, u words.Units) error {
	p.Style = template.CSS(Style())
	t, err := template.New("page").Funcs(template.FuncMap{"say": u.Say, "tongue": u.Tongue.Tag, "formulas": func() string { return "" }}).Parse(pageText + FormulaText)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, p); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// add appends a section that holds something.
func (p *page) add(s section) {
	if len(s.Figures)+len(s.Tables)+len(s.Formulas) > 0 {
		p.Sections = append(p.Sections, s)
		p.Nav = append(p.Nav, section{ID: s.ID, Title: s.Title})
	}
}

// Style is the style sheet of a report and of its pictures.
func Style() string { return pageStyle + draw.Style }

// page gathers the report.
func (r Report) page() page {
	title, lines := r.heading()
	all := r.findings()
	p := page{
		Name: r.Units.Say("report.name"), FindingsTitle: r.Units.Say("section.findings"), NoFindings: r.Units.Say("findings.none"),
		Title: title, Lines: lines, Verdict: r.verdict(), Makes: strings.TrimSpace(r.makes() + " " + r.bedLine()), Stamp: r.stamp(),
		Findings: all[:min(len(all), mostFindings)], Rest: all[min(len(all), mostFindings):],
	}
	n := &counter{}
	for _, s := range []section{
		r.courseSection(n), r.oddsSection(), r.bedSection(n, course.Germinate), r.bedSection(n, course.Kiln), r.maltSection(n),
		r.balanceSection(n), r.costSection(), r.lotSection(), r.formulaSection(),
	} {
		p.add(s)
	}
	return p
}

// counter numbers the figures through the report.
type counter struct{ n int }

// figures numbers pictures.
func (c *counter) figures(titles []string, pics ...draw.Picture) []figure {
	var out []figure
	for i, pic := range pics {
		c.n++
		out = append(out, figure{
			Number: c.n, Title: titles[min(i, len(titles)-1)], Says: pic.Says, SVG: template.HTML(pic.SVG),
			Table: table{Head: pic.Table.Head, Rows: pic.Table.Rows},
		})
	}
	return out
}

// courseSection is the course on one time axis, its steps and its account.
func (r Report) courseSection(n *counter) section {
	u := r.Units
	s := section{ID: "course", Title: u.Say("section.course"), Intro: u.Say("intro.course"), Wide: true}
	if len(r.Outcome.Curve.TimeH) > 1 {
		s.Figures = n.figures([]string{u.Say("picture.course")}, r.coursePicture())
	}
	s.Tables = []table{r.accountTable(), r.stepTable()}
	return s
}

// accountTable is the account in grain order, worst beside mean.
func (r Report) accountTable() table {
	u := r.Units
	t := table{
		Caption: u.Say("table.account"), Head: []string{"", u.Say("head.mean"), u.Say("head.worst")}, Words: map[int]bool{2: true},
	}
	for _, g := range r.groups() {
		t.Rows = append(t.Rows, []string{join([]string{g.Name, g.When})})
		for _, row := range g.Rows {
			t.add(row.Key, row.Name, row.Mean, row.Worst)
		}
	}
	return t
}

// stepTable is each step with what ended it and how it left the grain.
func (r Report) stepTable() table {
	u := r.Units
	t := table{
		Caption: u.Say("table.steps"),
		Head: []string{u.Say("head.step"), u.Say("head.from"), u.Say("head.to"), u.Say("head.ended"),
			words.Symbol("wb", u), words.Symbol("c", u)},
		Words: map[int]bool{3: true},
	}
	for _, s := range r.Outcome.Stages {
		t.Rows = append(t.Rows, []string{u.Stage(s.Stage.String())})
		for _, st := range s.Steps {
			t.Rows = append(t.Rows, []string{
				u.Step(st.Name), u.Number(st.FromH, 1), u.Number(st.ToH, 1), r.ended(st), r.stepMoisture(st), r.stepTemp(st),
			})
		}
	}
	return t
}
