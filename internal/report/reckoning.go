package report

import (
	"awn/internal/house"
	"awn/reckon"
)

// Reckoning is an answer in the envelope of all results. What was given for
// each of several parts stands in the parts, in their order.
func Reckoning(a reckon.Answer, v house.Version) Pairs {
	inputs, parts := givenJSON(a)
	result := Pairs{}
	findings := FindingObjects(a.Findings)
	for _, r := range a.Results {
		one := Pairs{}.With("value", r.Value).With("low", r.Low).With("high", r.High)
		if len(one) == 0 {
			findings = append(findings, map[string]any{"code": "reckon.answer.range", "figure": r.Key})
			continue
		}
		one = one.With("standing", r.Standing)
		if r.Formula != "" {
			one = one.With("formula", r.Formula)
		}
		if r.Worked != "" {
			one = one.With("worked", r.Worked)
		}
		result = result.With(r.Key, one)
	}
	formulas := Pairs{}
	for _, f := range a.Formulas {
		formulas = formulas.With(f.Key(), formulaJSON(f))
	}
	out := Pairs{}.With("awn", "reckoning/1").With("program", v.Release).With("model", v.Model).With("entry", a.Entry.Name).With("inputs", inputs)
	if len(parts) > 0 {
		out = out.With("parts", parts)
	}
	return out.With("result", result).With("formulas", formulas).With("rounding", a.Entry.RoundingRule()).With("findings", findings)
}

// givenJSON is what was given for the whole line, and for each part of one
// that has several.
func givenJSON(a reckon.Answer) (inputs Pairs, parts []Pairs) {
	inputs = Pairs{}
	if a.Parts > 1 {
		parts = make([]Pairs, a.Parts)
	}
	for _, f := range a.Given {
		in := &inputs
		if a.Parts > 1 && !f.Input.Once {
			in = &parts[f.Part]
		}
		if f.Word != "" {
			*in = in.With(f.Key(), f.Word)
		} else {
			*in = in.With(f.Key(), f.Value)
		}
	}
	return inputs, parts
}

// formulaJSON is what the catalogue says of a formula, without what it leaves
// unsaid.
func formulaJSON(f reckon.Formula) Pairs {
	out := Pairs{}.With("text", f.Text).With("standing", f.Standing)
	for _, p := range []struct{ key, text string }{{"source", f.Source}, {"valid", f.Valid}, {"check", f.Check}, {"note", f.Note}} {
		if p.text != "" {
			out = out.With(p.key, p.text)
		}
	}
	return out
}
