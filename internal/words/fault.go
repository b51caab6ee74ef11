package words

import (
	"strings"

	"awn/unit"
)

// Fault says a fault in the reader's language. English is the sentence of the
// package that gives the code, with places for what was got, what is allowed and
// what is nearest to it; detail and what are names of the same place as got, set
// without quotes.
func (u Units) Fault(code, english, got string, allowed []string, nearest string) string {
	sentence := english
	if l := u.language(); l != languages[English] {
		if text, ok := l.faults[code]; ok {
			sentence = text
		} else if told := watch.Load(); told != nil {
			(*told)(u.Tongue, "fault "+code)
		}
	}
	if nearest != "" {
		nearest = u.Say("fault.nearest", "word", nearest)
	}
	sentence = strings.NewReplacer("{nearest}", nearest, "{detail}", got, "{what}", got).Replace(sentence)
	if got == "" {
		sentence = strings.ReplaceAll(sentence, "{got}", u.Say("fault.empty"))
	}
	return unit.Fill(sentence, got, allowed, "")
}
