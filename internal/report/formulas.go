package report

import "awn/reckon"

// formulaGroup is the formulas of one package.
type formulaGroup struct {
	Package  string
	Formulas []reckon.Formula
}

// formulaSection is the appendix: every formula of the model with its source.
func (r Report) formulaSection() section {
	s := section{ID: "formulas", Title: r.Units.Say("section.formulas"), Intro: r.Units.Say("intro.formulas"), Wide: true}
	for _, f := range reckon.Catalogue() {
		if n := len(s.Formulas); n == 0 || s.Formulas[n-1].Package != f.Package {
			s.Formulas = append(s.Formulas, formulaGroup{Package: f.Package})
		}
		g := &s.Formulas[len(s.Formulas)-1]
		g.Formulas = append(g.Formulas, f)
	}
	return s
}
