package paper

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"awn/unit"
)

// Fault is one thing that is wrong with a document, with its place.
type Fault struct {
	Code    string   // a key of Codes
	File    string   // as it was named to the reader
	Line    int      // from 1
	Column  int      // from 1, in characters
	Path    string   // "steep[1].water"
	Got     string   // what stands there
	Allowed []string // what may stand there
	Nearest string   // which of those was probably meant, "" if none
	Excerpt string   // the line with a caret under the place
}

// Sentence says the fault in English.
func (f Fault) Sentence() string {
	return unit.Fill(find(f.Code).Sentence, f.Got, f.Allowed, f.Nearest)
}

// Error gives place, path, sentence and code on one line and the excerpt below.
func (f Fault) Error() string {
	path := ""
	if f.Path != "" {
		path = f.Path + ": "
	}
	return fmt.Sprintf("%s:%d:%d: %s%s [%s]\n%s", f.File, f.Line, f.Column, path, f.Sentence(), f.Code, f.Excerpt)
}

// Faults are all that is wrong with one or more documents, in reading order.
type Faults []Fault

// Error lists them.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Codes lists the code of each fault.
func (f Faults) Codes() []string {
	codes := make([]string, len(f))
	for i := range f {
		codes[i] = f[i].Code
	}
	return codes
}

// sorted puts the faults of one document in reading order.
func (f Faults) sorted() Faults {
	slices.SortStableFunc(f, func(a, b Fault) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	return f
}

// excerptWidth is how many characters of a line an excerpt shows.
const excerptWidth = 100

// excerpt returns the line with a caret under the column.
func excerpt(text string, line, column int) string {
	source := ""
	for range line {
		source, text, _ = strings.Cut(text, "\n")
	}
	shown := []rune(strings.ReplaceAll(strings.TrimRight(source, "\r"), "\t", " "))
	if cut := column - 1 - excerptWidth*3/4; cut > 0 && len(shown) > excerptWidth {
		shown, column = shown[min(cut, len(shown)):], column-cut
	}
	shown = shown[:min(len(shown), excerptWidth)]
	number := fmt.Sprintf("%5d | ", line)
	return number + string(shown) + "\n" + strings.Repeat(" ", utf8.RuneCountInString(number)-2) + "| " + strings.Repeat(" ", max(column-1, 0)) + "^"
}
