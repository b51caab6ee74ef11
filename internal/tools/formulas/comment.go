package main

import (
	"strings"

	"awn/reckon"
)

// words are the line-starting words of a formula comment in their order, and
// the standing that the first four give.
var words = []struct{ word, standing string }{
	{"Source:", "source"},
	{"Assumed:", "assumed"},
	{"Recalled:", "recalled"},
	{"Definition.", "definition"},
	{"Valid:", ""},
	{"Check:", ""},
	{"Note:", ""},
}

// read takes a formula comment apart. It returns what it found and what is
// missing or out of order.
func read(doc, name string) (f reckon.Formula, faults []string) {
	var summary, text []string
	values := map[string]string{}
	last := -1
	for line := range strings.Lines(doc) {
		line = strings.TrimRight(line, " \n")
		at, rest := begins(line)
		switch {
		case at >= 0:
			if at < last {
				faults = append(faults, words[at].word+" stands after "+words[last].word)
			}
			last = at
			join(values, words[at].word, rest)
		case last >= 0 && line != "":
			join(values, words[last].word, line)
		case strings.HasPrefix(line, "\t"):
			text = append(text, strings.TrimPrefix(line, "\t"))
		case line != "" && len(text) == 0:
			summary = append(summary, line)
		case line != "": // the meaning of a symbol, said after the formula
			text = append(text, line)
		}
	}
	f.Summary = strings.Join(summary, " ")
	f.Text = strings.Join(text, "\n")
	f.Valid, f.Check, f.Note = values["Valid:"], values["Check:"], values["Note:"]
	for _, w := range words[:4] {
		value, ok := values[w.word]
		if !ok {
			continue
		}
		// A publication outranks what is assumed beside it, and so on down the list.
		if f.Standing == "" {
			f.Standing = w.standing
			f.Source = value
		} else {
			f.Source = strings.TrimSpace(f.Source + " " + w.word + " " + value)
		}
	}
	return f, append(faults, missing(f, name)...)
}

// missing says what a formula comment lacks.
func missing(f reckon.Formula, name string) (faults []string) {
	if !strings.HasPrefix(f.Summary, name+" ") {
		faults = append(faults, "the comment does not begin with the name")
	}
	if f.Text == "" && f.Standing != "definition" {
		faults = append(faults, "no formula: it stands after a blank line, indented by a tab")
	}
	switch {
	case f.Standing == "":
		faults = append(faults, "none of Source:, Assumed:, Recalled: and Definition.")
	case f.Source == "" && f.Standing != "definition":
		faults = append(faults, "nothing after the word that should name the source")
	}
	return faults
}

// begins returns which word a line starts with, or -1, and what follows it.
func begins(line string) (at int, rest string) {
	for i, w := range words {
		if rest, ok := strings.CutPrefix(line, w.word); ok {
			return i, strings.TrimSpace(rest)
		}
	}
	return -1, ""
}

func join(values map[string]string, key, more string) {
	values[key] = strings.TrimSpace(values[key] + " " + more)
}
