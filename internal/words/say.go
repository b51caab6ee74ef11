package words

import (
	"slices"
	"strings"
)

// Say gives a phrase of the catalogue with its places filled: parts are pairs
// of a place's name and what goes there. A key without a phrase is given as
// it is.
func (u Units) Say(key string, parts ...string) string {
	text, ok := u.phrase(key)
	if !ok {
		return key
	}
	pairs := make([]string, 0, len(parts))
	for i := 0; i+1 < len(parts); i += 2 {
		pairs = append(pairs, "{"+parts[i]+"}", parts[i+1])
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// List joins words: "a, b and c"; "a, fine; b and c" where a word has a comma of
// its own.
func (u Units) List(items []string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	last, comma := len(items)-1, ", "
	if slices.ContainsFunc(items, func(s string) bool { return strings.Contains(s, ",") }) {
		comma = "; "
	}
	return strings.Join(items[:last], comma) + u.Say("list.and") + items[last]
}

// Span writes a stretch of hours in days and hours: "6 d 5 h".
func (u Units) Span(hours float64) string {
	whole := int(hours + 0.5)
	days, rest := whole/24, whole%24
	switch {
	case days == 0:
		return u.Say("span.hours", "hours", u.Number(float64(rest), 0))
	case rest == 0:
		return u.Say("span.days", "days", u.Number(float64(days), 0))
	}
	return u.Say("span.both", "days", u.Number(float64(days), 0), "hours", u.Number(float64(rest), 0))
}

// Phrases lists the keys of the phrases, for the test that none is idle.
func Phrases() []string {
	out := make([]string, 0, len(english.phrases))
	for key := range english.phrases {
		out = append(out, key)
	}
	return out
}
