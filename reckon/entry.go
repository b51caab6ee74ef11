package reckon

import (
	"slices"
	"strings"

	"awn/unit"
)

// Entry is one sum of the pocket tables.
type Entry struct {
	Name     string
	Aliases  []string
	Subject  string // the heading it stands under
	Title    string
	Inputs   []Input
	Note     string   // what a reader must know before trusting it; may be empty
	Rounding string   // how its numbers are rounded; Unrounded if empty
	Again    string   // the word that begins another of its parts: "then"; empty if it has but one
	Examples []string // what to type after "awn reckon"

	compute func(*given) ([]Result, error)
}

// Input is one thing that an entry asks for.
type Input struct {
	Key     string   // name in "key=30 °C" and, with its unit behind it, in JSON
	Words   []string // also read as the name
	Doc     string
	In      []unit.Dimension  // what it may be given in; none for a plain number or a word
	Also    map[string]string // units as people write them, and what each stands for: "%" is "% wb"
	Choices []string          // the words that may stand for it
	Least   float64           // limits of a plain number
	Most    float64
	Named   bool   // read only behind its name
	Once    bool   // belongs to the whole line and not to one of its parts
	Must    bool   // the entry cannot do without it
	Default string // what is taken if it is left out, as it would be typed
}

// Subjects are the headings of the tables in the order in which grain moves.
var Subjects = []string{"Measures", "At the gate", "Barley", "Life", "Air", "Malt", "Brewing", "Odds"}

// Unrounded is what holds of the numbers of an entry that names no rule of
// its own.
const Unrounded = "worked in full; only what is shown is rounded, a half away from zero."

// RoundingRule is how the numbers of the entry are rounded.
func (e *Entry) RoundingRule() string {
	if e.Rounding != "" {
		return e.Rounding
	}
	return Unrounded
}

// Entries are all entries, by subject.
func Entries() []*Entry {
	var out []*Entry
	for _, table := range [][]Entry{measures, gates, grain, lives, airs, malts, worts, beers, chances} {
		for i := range table {
			out = append(out, &table[i])
		}
	}
	return out
}

// Find returns the entry of that name or alias, or else a *Fault with the
// nearest name.
func Find(name string) (*Entry, error) {
	var names []string
	for _, e := range Entries() {
		if name == e.Name || slices.Contains(e.Aliases, name) {
			return e, nil
		}
		names = append(append(names, e.Name), e.Aliases...)
	}
	return nil, &Fault{Code: "reckon.entry.unknown", Got: name, Nearest: unit.Nearest(name, names), Width: len([]rune(name))}
}

// named returns the input that a word names in whatever capitals, or nil.
func (e *Entry) named(word string) *Input {
	for i := range e.Inputs {
		in := &e.Inputs[i]
		if is := func(name string) bool { return strings.EqualFold(name, word) }; is(in.Key) || slices.ContainsFunc(in.Words, is) {
			return in
		}
	}
	return nil
}

// chosen returns the input that has the word as a choice, or nil.
func (e *Entry) chosen(word string) *Input {
	for i := range e.Inputs {
		if in := &e.Inputs[i]; slices.Contains(in.Choices, word) {
			return in
		}
	}
	return nil
}

// plain reports whether the input is a number without a unit.
func (in *Input) plain() bool { return len(in.In) == 0 && len(in.Choices) == 0 }

// stands returns what a unit as written stands for.
func (in *Input) stands(symbol string) string {
	if s, ok := in.Also[symbol]; ok {
		return s
	}
	if _, ok := in.having(symbol); ok {
		return symbol
	}
	for _, s := range spelled(symbol) {
		if _, ok := in.having(s); ok {
			return s
		}
	}
	return symbol
}

// dimension returns the dimension that has the unit.
func (in *Input) dimension(symbol string) (unit.Dimension, bool) {
	return in.having(in.stands(symbol))
}

// having returns the dimension that has a unit of that name.
func (in *Input) having(symbol string) (unit.Dimension, bool) {
	for _, d := range in.In {
		if _, ok := d.Unit(symbol); ok {
			return d, true
		}
	}
	return unit.Dimension{}, false
}

// takes reports whether the unit may be written for the input.
func (in *Input) takes(symbol string) bool {
	_, ok := in.dimension(symbol)
	return ok || symbol == "" && in.plain()
}

// Units lists what the input may be written in.
func (in *Input) Units() []string {
	if len(in.Choices) > 0 {
		return in.Choices
	}
	var out []string
	for _, d := range in.In {
		out = append(out, d.Symbols()...)
	}
	if in.plain() {
		out = append(out, "a number without unit")
	}
	return out
}

// keys lists the names of the inputs.
func (e *Entry) keys() []string {
	out := make([]string, len(e.Inputs))
	for i := range e.Inputs {
		out[i] = e.Inputs[i].Key
	}
	return out
}

// words lists all words that mean something to the entry.
func (e *Entry) words() []string {
	out := e.keys()
	for _, in := range e.Inputs {
		out = append(append(out, in.Words...), in.Choices...)
	}
	return out
}

// form shows how an input may be written: "t=… °C".
func (in *Input) form() string {
	switch {
	case len(in.Choices) > 0:
		return strings.Join(in.Choices, " or ")
	case in.plain():
		return in.Key + "=…"
	}
	return in.Key + "=… " + in.In[0].Units[0].Symbol
}
