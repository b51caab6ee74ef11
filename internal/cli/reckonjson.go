package cli

import (
	"awn/internal/house"
	"awn/internal/report"
	"awn/reckon"
)

// answerJSON is an answer in the envelope of all results. What was given for
// each of several parts stands in the parts, in their order.
func answerJSON(a reckon.Answer) pairs {
	v := house.ReadVersion()
	inputs, parts := givenJSON(a)
	result := pairs{}
	findings := report.FindingObjects(a.Findings)
	for _, r := range a.Results {
		one := pairs{}.with("value", r.Value).with("low", r.Low).with("high", r.High)
		if len(one) == 0 {
			findings = append(findings, map[string]any{"code": "reckon.answer.range", "figure": r.Key})
			continue
		}
		one = one.with("standing", r.Standing)
		if r.Formula != "" {
			one = one.with("formula", r.Formula)
		}
		if r.Worked != "" {
			one = one.with("worked", r.Worked)
		}
		result = result.with(r.Key, one)
	}
	formulas := pairs{}
	for _, f := range a.Formulas {
		formulas = formulas.with(f.Key(), formulaJSON(f))
	}
	out := pairs{}.with("awn", "reckoning/1").with("program", v.Release).with("model", v.Model).
		with("entry", a.Entry.Name).with("inputs", inputs)
	if len(parts) > 0 {
		out = out.with("parts", parts)
	}
	return out.with("result", result).with("formulas", formulas).with("rounding", a.Entry.RoundingRule()).with("findings", findings)
}

// givenJSON is what was given for the whole line, and for each part of one
// that has several.
func givenJSON(a reckon.Answer) (inputs pairs, parts []pairs) {
	inputs = pairs{}
	if a.Parts > 1 {
		parts = make([]pairs, a.Parts)
	}
	for _, f := range a.Given {
		in := &inputs
		if a.Parts > 1 && !f.Input.Once {
			in = &parts[f.Part]
		}
		if f.Word != "" {
			*in = in.with(f.Key(), f.Word)
		} else {
			*in = in.with(f.Key(), f.Value)
		}
	}
	return inputs, parts
}

// formulaJSON is what the catalogue says of a formula, without what it leaves
// unsaid.
func formulaJSON(f reckon.Formula) pairs {
	out := pairs{}.with("text", f.Text).with("standing", f.Standing)
	for _, p := range []struct{ key, text string }{{"source", f.Source}, {"valid", f.Valid}, {"check", f.Check}, {"note", f.Note}} {
		if p.text != "" {
			out = out.with(p.key, p.text)
		}
	}
	return out
}
