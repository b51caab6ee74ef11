package reckon

import (
	"math"
	"slices"
	"strings"

	"awn/finding"
	"awn/unit"
)

// Filled is an input with what was read for it.
type Filled struct {
	Input    *Input
	Value    float64 // in the dimension's own unit; a plain number; NaN for a word
	In       unit.Dimension
	Quantity unit.Quantity
	Word     string // of a choice
	Written  string // as it was typed, with what its unit stands for
	Part     int    // of the line, from 0
	Default  bool   // nobody gave it
}

// given is what an entry computes from.
type given struct {
	entry    *Entry
	filled   []Filled
	parts    int
	findings []finding.Finding
}

// say adds a finding to the answer.
func (g *given) say(fs ...finding.Finding) { g.findings = append(g.findings, fs...) }

// part is what was given in one part of a line, and for the whole line.
func (g *given) part(i int) *given {
	p := &given{entry: g.entry, parts: 1}
	for _, f := range g.filled {
		if f.Part == i || f.Input.Once {
			p.filled = append(p.filled, f)
		}
	}
	return p
}

// at is the value of an input, in the first part that has it; NaN if it was left out.
func (g *given) at(key string) float64 { return g.get(key).Value }

// has reports whether the input has a value.
func (g *given) has(key string) bool { return g.get(key).Input != nil }

// get is an input as it was filled, the zero value with NaN if it was not.
func (g *given) get(key string) Filled {
	for _, f := range g.filled {
		if f.Input.Key == key {
			return f
		}
	}
	return Filled{Value: math.NaN()}
}

// small are words that join the others to a sentence.
var small = []string{"a", "an", "and", "at", "by", "for", "from", "of", "on", "over", "the", "to", "with"}

// mostParts is how many parts a line may have.
const mostParts = 12

// longestUnit is the most words that a unit has: "kg CO2e/MMBtu LHV", "lb/bu imperial".
const longestUnit = 3

// reading is the state of the reader of one line.
type reading struct {
	entry  *Entry
	tokens []token
	next   int
	given  given
	part   int
	asked  token // the unit behind "in"
	faults Faults
}

// read reads what was typed behind an entry's name.
//
// A line is inputs one after another. An input is a quantity, with its name in
// front or not: "rh=50 %", "rh 50 %", "50 %". Without a name it goes to the
// first input, in the order of the entry, that is still empty and is written
// in that unit. Small words may join them; "in lb" at the end asks for a unit.
// Where an entry has parts, its own word begins the next: "15 d at 17 % then
// 30 d at 13 %".
func (e *Entry) read(line string) (*reading, error) {
	r := &reading{entry: e, tokens: tokens(line), given: given{entry: e}}
	for r.next < len(r.tokens) {
		r.item()
	}
	if len(r.faults) == 0 {
		r.finish()
	}
	if len(r.faults) > 0 {
		return nil, r.faults
	}
	return r, nil
}

// item reads one input, small word or asked unit.
func (r *reading) item() {
	t := r.tokens[r.next]
	followed := r.next+1 < len(r.tokens) && r.tokens[r.next+1].text == "="
	in := r.entry.named(t.text)
	switch {
	case t.number:
		r.quantity(nil, t)
	case t.text == r.entry.Again && t.text != "" && r.part < mostParts-1:
		r.next++
		r.part++
	case in != nil:
		r.next++
		if followed {
			r.next++
		}
		r.behind(in, t)
	case followed:
		r.unknown(t)
		r.skip()
	case r.entry.chosen(t.text) != nil:
		r.next++
		r.fill(t, Filled{Input: r.entry.chosen(t.text), Value: math.NaN(), Word: t.text, Written: t.text})
	case t.text == "in":
		r.next++
		r.askedUnit(t)
	case slices.Contains(small, t.text):
		r.next++
	default:
		r.next++
		r.unknown(t)
	}
}

// unknown notes a word that means nothing to the entry.
func (r *reading) unknown(t token) {
	f := &Fault{Code: "reckon.word.unknown", Got: t.text, Allowed: r.entry.keys()}
	if len([]rune(t.text)) > 1 {
		f.Nearest = unit.Nearest(t.text, r.entry.words())
	}
	r.fault(t, f)
}

// behind reads what stands behind the name of an input.
func (r *reading) behind(in *Input, name token) {
	if r.next >= len(r.tokens) {
		r.fault(name, &Fault{Code: "reckon.input.value", Got: name.text, Allowed: []string{in.form()}})
		return
	}
	switch t := r.tokens[r.next]; {
	case t.number:
		r.quantity(in, t)
	case slices.Contains(in.Choices, t.text):
		r.next++
		r.fill(t, Filled{Input: in, Value: math.NaN(), Word: t.text, Written: t.text})
	case len(in.Choices) > 0:
		r.next++
		r.fault(t, &Fault{Code: "reckon.word.unknown", Got: t.text, Allowed: in.Choices, Nearest: unit.Nearest(t.text, in.Choices)})
	default:
		r.fault(name, &Fault{Code: "reckon.input.value", Got: name.text, Allowed: []string{in.form()}})
	}
}

// skip passes a name that is not known with the quantity behind it.
func (r *reading) skip() {
	r.next++
	if r.next < len(r.tokens) && r.tokens[r.next].text == "=" {
		r.next++
	}
	if r.next < len(r.tokens) && r.tokens[r.next].number {
		r.unit(nil)
	}
}

// askedUnit reads the unit behind "in".
func (r *reading) askedUnit(in token) {
	from := r.next
	for r.next < len(r.tokens) && !r.tokens[r.next].number {
		r.next++
	}
	if from == r.next {
		r.fault(in, &Fault{Code: "reckon.input.value", Got: "in", Allowed: []string{"a unit behind it"}})
		return
	}
	r.asked = token{text: join(r.tokens[from:r.next]), at: r.tokens[from].at}
}

// fault notes what is wrong with a token.
func (r *reading) fault(t token, f *Fault) {
	f.At, f.Width = t.at, t.width()
	r.faults = append(r.faults, f)
}

// quantity reads a number with its unit for an input, or for the first that
// takes it.
func (r *reading) quantity(in *Input, number token) {
	symbol := r.unit(in)
	written := strings.TrimSpace(number.text + " " + symbol)
	if strings.HasPrefix(symbol, "/") {
		written = number.text + symbol
	}
	span := token{text: written, at: number.at}
	if last := r.tokens[r.next-1]; symbol != "" {
		span.text = strings.Repeat(" ", last.at+last.width()-number.at)
	}
	if in == nil {
		if in = r.place(span, written, symbol); in == nil {
			return
		}
	}
	f, err := in.parse(number.text, symbol)
	if err != nil {
		err.At, err.Width = span.at, span.width()
		r.faults = append(r.faults, err)
		return
	}
	r.fill(span, f)
}

// unit takes the number and the unit behind it: the longest that an input
// knows, else the next word if it can be nothing else.
func (r *reading) unit(in *Input) string {
	r.next++
	most := r.next
	for most < len(r.tokens) && most-r.next < longestUnit && !r.tokens[most].number && r.tokens[most].text != "=" {
		most++
	}
	for end := most; end > r.next; end-- {
		symbol := join(r.tokens[r.next:end])
		if in != nil && in.takes(symbol) || in == nil && slices.ContainsFunc(r.entry.Inputs, func(i Input) bool { return i.takes(symbol) }) {
			r.next = end
			return symbol
		}
	}
	if r.next >= len(r.tokens) {
		return ""
	}
	t := r.tokens[r.next]
	another := r.entry.named(t.text) != nil || r.entry.chosen(t.text) != nil || slices.Contains(small, t.text) || t.text == "in" || t.text == r.entry.Again
	isName := r.next+1 < len(r.tokens) && r.tokens[r.next+1].text == "="
	if t.number || t.text == "=" || !t.glued && (another || isName) {
		return ""
	}
	r.next++
	return t.text
}

// filled is what an input was filled with: in this part, or anywhere if it
// belongs to the whole line.
func (r *reading) filled(in *Input, part int) (Filled, bool) {
	for _, f := range r.given.filled {
		if f.Input == in && (f.Part == part || in.Once) {
			return f, true
		}
	}
	return Filled{}, false
}

// has reports whether an input has its value in this part.
func (r *reading) has(in *Input) bool {
	_, ok := r.filled(in, r.part)
	return ok
}

// finish puts the inputs in order, with their defaults, and asks for those
// that are wanted.
func (r *reading) finish() {
	var ordered []Filled
	for part := range r.part + 1 {
		for i := range r.entry.Inputs {
			in := &r.entry.Inputs[i]
			if in.Once && part > 0 {
				continue
			}
			f, ok := r.filled(in, part)
			if !ok && in.Default != "" {
				f = in.byDefault()
				f.Part, ok = part, true
			}
			switch {
			case ok:
				ordered = append(ordered, f)
			case in.Must:
				r.faults = append(r.faults, &Fault{Code: "reckon.input.missing", Got: in.Doc, Allowed: []string{in.form()}})
			}
		}
	}
	r.given.filled, r.given.parts = ordered, r.part+1
}

// join puts the words of a unit together.
func join(ts []token) string {
	var b strings.Builder
	for i, t := range ts {
		if i > 0 && !t.glued {
			b.WriteByte(' ')
		}
		b.WriteString(t.text)
	}
	return b.String()
}
