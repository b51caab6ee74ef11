package words

import (
	"strings"

	"awn/finding"
)

// nameSlots are the places of a sentence that Named fills.
var nameSlots = []string{"entry", "environment", "term", "line", "got", "meant", "district", "variety", "contract", "asked", "quality", "bench", "other", "sample", "since", "between", "name", "event"}

// Named is the sentence of a finding that speaks of things by their names: pairs
// of a place's name and what goes there. A name that is empty counts as unknown. The
// sentence begins with a small letter, for it may follow a place.
func Named(f finding.Finding, u Units, names ...string) string {
	text, ok := u.finding(f.Code)
	if !ok {
		return bare(f, u)
	}
	// A name may hold brackets of its own: it goes in when all else is filled.
	const mark = "\x00"
	var hide, show []string
	for i := 0; i+1 < len(names); i += 2 {
		if names[i+1] != "" {
			sign := mark + names[i] + mark
			hide, show = append(hide, "{"+names[i]+"}", sign), append(show, sign, names[i+1])
		}
	}
	text = fill(strings.NewReplacer(hide...).Replace(text), f, u)
	return strings.NewReplacer(show...).Replace(text)
}

// Term is the name of a source of difference in a trial.
func (u Units) Term(code string) string {
	return named(u, "term", code, func(l *language) map[string]string { return l.terms })
}
