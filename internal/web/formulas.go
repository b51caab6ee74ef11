package web

import (
	"net/http"

	"awn/reckon"
)

// formulaGroup is the formulas of one package.
type formulaGroup struct {
	Package  string
	Formulas []reckon.Formula
}

// formulas lists every formula with its source, so that a number can be opened
// from wherever it stands.
func (s *Server) formulas(r *http.Request) (page, error) {
	var out []formulaGroup
	for _, f := range reckon.Catalogue() {
		if n := len(out); n == 0 || out[n-1].Package != f.Package {
			out = append(out, formulaGroup{Package: f.Package})
		}
		g := &out[len(out)-1]
		g.Formulas = append(g.Formulas, f)
	}
	return page{name: "formulas", title: readerOf(r).Say("page.formulas.title"), data: out}, nil
}
