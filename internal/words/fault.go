package words

import (
	"strings"

	"awn/unit"
)

// Fault says a fault in the reader's language: a sentence has places for what was
// got, what is allowed and what is nearest to it; detail and what are places for
// what was got without quotes. Said is the sentence in English, as the package
// has it that gives the code.
func (u Units) Fault(code, said, got string, allowed []string, nearest string) string {
	l := u.language()
	if l == languages[English] {
		return said
	}
	sentence, ok := l.faults[code]
	if !ok {
		if told := watch.Load(); told != nil {
			(*told)(u.Tongue, "fault "+code)
		}
		return said
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
