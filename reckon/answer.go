package reckon

import (
	"math"
	"slices"
	"strings"

	"awn/finding"
	"awn/odds"
	"awn/unit"
)

// Result is one number of an answer.
type Result struct {
	Key   string // with its unit behind it, as in JSON
	Name  string
	Value float64 // in the unit that Key ends in
	Low   float64 // a band; NaN if there is none
	High  float64

	Shown    []string // the number in each unit, the first the usual one
	Band     string   // the band in the first unit; empty if there is none
	Formula  string   // key of the catalogue; empty for a change of units
	Worked   string   // the formula with the numbers put in
	Standing odds.Standing

	on scale // that Shown was written by; none if its unit is never converted
}

// Answer is an entry with what was given and what came of it.
type Answer struct {
	Entry   *Entry
	Given   []Filled
	Parts   int // of the line
	Results []Result

	Findings []finding.Finding // what the numbers mean, and what to do about it

	Formulas []Formula // behind the results, each once, in their order
}

// Ask reads what was typed behind an entry's name and computes. The error is
// Faults.
func (e *Entry) Ask(line string) (Answer, error) {
	r, err := e.read(line)
	if err != nil {
		return Answer{}, err
	}
	results, err := e.compute(&r.given)
	if err != nil {
		return Answer{}, refused(err)
	}
	if f := prefer(results, r.asked); f != nil {
		return Answer{}, Faults{f}
	}
	a := Answer{Entry: e, Given: r.given.filled, Parts: r.given.parts, Results: results, Findings: r.given.findings, Formulas: behind(results)}
	for i := range results {
		f, _ := a.Formula(results[i].Formula)
		results[i].Standing = standing(f)
		if math.IsNaN(results[i].Value) {
			results[i].Shown, results[i].Worked = []string{"n/a"}, ""
		}
	}
	if a.unknown() {
		return Answer{}, a.outside()
	}
	return a, nil
}

// behind returns the formulas of the results, each once.
func behind(results []Result) []Formula {
	all := Catalogue()
	var out []Formula
	for _, r := range results {
		is := func(f Formula) bool { return f.Key() == r.Formula }
		if i := slices.IndexFunc(all, is); i >= 0 && !slices.ContainsFunc(out, is) {
			out = append(out, all[i])
		}
	}
	return out
}

// Formula returns the formula of that key from those behind the answer.
func (a Answer) Formula(key string) (Formula, bool) {
	i := slices.IndexFunc(a.Formulas, func(f Formula) bool { return f.Key() == key })
	if i < 0 {
		return Formula{}, false
	}
	return a.Formulas[i], true
}

// refused is an error of a computation as faults of the line.
func refused(err error) Faults {
	f, ok := err.(*Fault)
	if !ok {
		f = &Fault{Code: "reckon.answer.range", Got: err.Error()}
	}
	f.Refused = true
	return Faults{f}
}

// unknown reports whether none of the numbers that a formula should have given
// is known.
func (a Answer) unknown() bool {
	by := func(known bool) bool {
		return slices.ContainsFunc(a.Results, func(r Result) bool { return r.Formula != "" && math.IsNaN(r.Value) != known })
	}
	return by(false) && !by(true)
}

// outside refuses an answer of which nothing is known and says the range of
// the formula that should have given it.
func (a Answer) outside() Faults {
	for _, f := range a.Formulas {
		if f.Valid != "" {
			held := strings.TrimSuffix(strings.ReplaceAll(f.Valid, "NaN", "no answer"), ".")
			return Faults{{Code: "reckon.answer.range", Allowed: []string{"It holds for " + held + "."}, Refused: true}}
		}
	}
	return Faults{{Code: "reckon.answer.range", Refused: true}}
}

// prefer puts the unit that was asked for first wherever a result can be shown
// in it. It returns a fault if none can.
func prefer(results []Result, asked token) *Fault {
	if asked.text == "" {
		return nil
	}
	found := false
	var units []string
	for i := range results {
		r := &results[i]
		if len(r.on.units) == 0 {
			continue
		}
		units = append(units, r.on.in.Symbols()...)
		if symbol, ok := r.on.has(asked.text); ok {
			found = true
			first := scale{r.on.in, []string{symbol + "~6"}}.show(r.Value)
			rest := slices.DeleteFunc(r.Shown, func(s string) bool { return symbolOf(s) == symbol })
			r.Shown = append(first, rest...)
		}
	}
	if found {
		return nil
	}
	slices.Sort(units)
	units = slices.Compact(units)
	return &Fault{Code: "reckon.unit.asked", At: asked.at, Width: asked.width(), Got: asked.text, Allowed: units, Nearest: unit.Nearest(asked.text, units)}
}

// symbolOf is the unit behind the number of a printed quantity.
func symbolOf(shown string) string {
	return strings.TrimSpace(strings.TrimLeft(shown, "-0123456789."))
}

// standing is how well what a formula gives is known. A definition, and a
// change of units, is exact; it counts as checked since its worked examples are.
func standing(f Formula) odds.Standing {
	switch f.Standing {
	case "source":
		return odds.Sourced
	case "recalled":
		return odds.Recalled
	case "assumed":
		return odds.Practice
	}
	return odds.Checked
}
