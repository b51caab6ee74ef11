package words

import (
	"fmt"
	"strings"

	"awn/finding"
)

// Sentence says a finding: what is so and why, and then the change that makes
// it vanish, if there is one.
func Sentence(f finding.Finding, u Units) string {
	return strings.TrimSpace(Reason(f, u) + " " + Change(f, u))
}

// Reason is the part of the sentence that says what is so and why. A code
// without a sentence is given as it is, with its figures.
func Reason(f finding.Finding, u Units) string {
	text, ok := u.finding(f.Code)
	if !ok {
		// One sentence may serve a whole row of codes: malt.*.below.
		text, ok = u.finding(strings.Replace(f.Code, "."+subject(f.Code)+".", ".*.", 1))
	}
	if !ok {
		return bare(f, u)
	}
	return Capital(fill(text, f, u))
}

// Change is the part of the sentence that says what to do; empty if the
// finding names no act.
func Change(f finding.Finding, u Units) string {
	if f.Act == "" {
		return ""
	}
	text, ok := u.act(f.Act)
	if !ok {
		return f.Act + "."
	}
	return Capital(fill(text, f, u))
}

// bare is what is left to say of a finding without a sentence.
func bare(f finding.Finding, u Units) string {
	parts := make([]string, len(f.Figures))
	for i, g := range f.Figures {
		parts[i] = g.Name + " " + Figure(g.Name, g.Value, u)
	}
	if len(parts) == 0 {
		return f.Code + "."
	}
	return fmt.Sprintf("%s: %s.", f.Code, strings.Join(parts, ", "))
}

// Capital is a text that begins with a capital.
func Capital(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}
