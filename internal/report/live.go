package report

import (
	_ "embed"
	"html/template"
	"io"
)

//go:embed live.html
var liveText string

// live is what is looked at while a piece is thought out.
type live struct {
	Verdict, Makes string
	Findings       []found
	Figures        []figure
	Tables         []table
}

// Fragment writes the part of the report that is looked at while a piece is
// thought out: the verdict, the course, the limits, the weightiest findings
// and the account. It is a piece of a page and brings no style.
func (r Report) Fragment(w io.Writer) error {
	t, err := template.New("page").Funcs(template.FuncMap{"say": r.Units.Say}).Parse(pageText)
	if err != nil {
		return err
	}
	if t, err = t.New("live").Parse(liveText); err != nil {
		return err
	}
	p := r.page()
	l := live{Verdict: p.Verdict, Makes: p.Makes, Findings: p.Findings}
	for _, s := range p.Sections {
		switch s.ID {
		case "course", "malt":
			l.Figures, l.Tables = append(l.Figures, s.Figures...), append(l.Tables, s.Tables...)
		case "balance", "cost":
			l.Tables = append(l.Tables, s.Tables...)
		}
	}
	return t.ExecuteTemplate(w, "live", l)
}
