package words

import (
	"maps"
	"strings"

	"awn/finding"
	"awn/intake"
	"awn/malt"
	"awn/odds"
	"awn/programme"
	"awn/silo"
)

// language is the catalogue of one language: every text by its code.
type language struct {
	comma bool // its decimal mark

	findings, acts, lines, steps, stages map[string]string
	faults                               map[string]string // of English each package has its own

	phrases  map[string]string
	weekdays [7]string // Sunday first
	months   [12]string

	readings   map[programme.Reading]string
	parameters map[malt.Parameter]string
	verdicts   map[malt.Word]string
	reasons    map[malt.Reason]string
	standings  map[odds.Standing]string
	severities map[finding.Severity]string

	factors   map[intake.Factor]string
	decisions map[intake.Decision]string
	bars      map[intake.Bar]string
	turns     map[silo.Reason]string
	goings    map[silo.Going]string
	terms     map[string]string // sources of difference in a trial
	inputs    map[string]string // what is uncertain and drawn
}

var languages = map[Tongue]*language{English: &english, Spanish: &spanish}

// language is the reader's; English where there is no other.
func (u Units) language() *language {
	if l, ok := languages[u.Tongue]; ok {
		return l
	}
	return &english
}

// merged joins the parts of a catalogue.
func merged(parts ...map[string]string) map[string]string {
	out := map[string]string{}
	for _, p := range parts {
		maps.Copy(out, p)
	}
	return out
}

// Stage is the name of a stage.
func (u Units) Stage(code string) string {
	return named(u, "stage", code, func(l *language) map[string]string { return l.stages })
}

// Step is the name of a step; the house's own word where it has one.
func (u Units) Step(code string) string {
	text, ok := text(u, "step", code, func(l *language) map[string]string { return l.steps })
	if !ok {
		return code
	}
	return text
}

// Line is the name of a balance line.
func (u Units) Line(code string) string {
	return named(u, "line", code, func(l *language) map[string]string { return l.lines })
}

// Reading is the name of a reading.
func (u Units) Reading(r programme.Reading) string {
	if text, ok := text(u, "reading", r, func(l *language) map[programme.Reading]string { return l.readings }); ok {
		return text
	}
	return r.Key()
}

// Parameter is the name of a figure of a malt analysis.
func (u Units) Parameter(p malt.Parameter) string {
	return named(u, "parameter", p, func(l *language) map[malt.Parameter]string { return l.parameters })
}

// Verdict is the word for the outcome of a limit.
func (u Units) Verdict(w malt.Word) string {
	return named(u, "verdict", w, func(l *language) map[malt.Word]string { return l.verdicts })
}

// Why says why a figure cannot be given.
func (u Units) Why(r malt.Reason) string {
	return named(u, "reason", r, func(l *language) map[malt.Reason]string { return l.reasons })
}

// Standing says how well a number is known.
func (u Units) Standing(s odds.Standing) string {
	return named(u, "standing", s, func(l *language) map[odds.Standing]string { return l.standings })
}

// Severity is the word for how severe a finding is.
func (u Units) Severity(s finding.Severity) string {
	if text, ok := text(u, "severity", s, func(l *language) map[finding.Severity]string { return l.severities }); ok {
		return text
	}
	return s.String()
}

// Input is the name of something that is uncertain and drawn.
func (u Units) Input(key string) string {
	inputs := func(l *language) map[string]string { return l.inputs }
	if text, ok := text(u, "input", key, inputs); ok {
		return text
	}
	if p, ok := strings.CutPrefix(key, "model."); ok {
		of, _ := text(u, "input", "model.*", inputs)
		return strings.Replace(of, "{figure}", u.Parameter(malt.Parameter(p)), 1)
	}
	return key
}
