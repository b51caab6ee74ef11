package reckon

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Formula is one formula of the model as the comment beside its code states
// it: what a reader sees on opening a number.
type Formula struct {
	Name      string `json:"name"`      // e.g. "SaturationPressure" or "Celsius.Kelvin"
	Package   string `json:"package"`   // e.g. "air"
	Signature string `json:"signature"` // the Go declaration: names and units of what goes in and comes out
	Summary   string `json:"summary"`   // what it computes, in a sentence or two
	Text      string `json:"text"`      // the formula itself, with the meaning of its symbols
	Standing  string `json:"standing"`  // "source", "assumed", "recalled" or "definition"
	Source    string `json:"source,omitempty"`
	Valid     string `json:"valid,omitempty"`
	Check     string `json:"check,omitempty"`
	Note      string `json:"note,omitempty"`
}

// Key names the formula as documents and reports do: package.Name.
func (f Formula) Key() string { return f.Package + "." + f.Name }

// Title is the name in words: "Saturation Pressure", "GAB Humidity".
func (f Formula) Title() string {
	name := strings.TrimPrefix(f.Name, "Constants.")
	var b strings.Builder
	letters := []rune(name)
	for i, r := range letters {
		inner := i > 0 && unicode.IsUpper(r) && (unicode.IsLower(letters[i-1]) || i+1 < len(letters) && unicode.IsLower(letters[i+1]) && unicode.IsUpper(letters[i-1]))
		switch {
		case r == '.':
			r = ' '
		case inner:
			b.WriteByte(' ')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Says is what it computes, for readers who do not know its name.
func (f Formula) Says() string {
	name := f.Name[strings.LastIndex(f.Name, ".")+1:]
	for _, verb := range []string{" is ", " are ", " returns "} {
		if text, ok := strings.CutPrefix(f.Summary, name+verb); ok && text != "" {
			first, size := utf8.DecodeRuneInString(text)
			return string(unicode.ToUpper(first)) + text[size:]
		}
	}
	return f.Summary
}

//go:generate go run awn/internal/tools/formulas
//go:embed catalogue.json
var catalogueJSON []byte

// Catalogue returns every formula of the model, by package and name. It is
// gathered from the comments of the code when the program is built.
func Catalogue() []Formula {
	var out []Formula
	if err := json.Unmarshal(catalogueJSON, &out); err != nil {
		// The file is part of the program and a test reads it; only a broken
		// build can come here.
		panic(fmt.Sprintf("reckon: the embedded catalogue: %v", err))
	}
	return out
}
