package cli

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"awn/internal/words"
	"awn/reckon"
)

// nbsp is a space at which no line is broken; it is printed as a plain one.
const nbsp = "\u00a0"

// width is the width of a terminal in letters.
const width = 80

// contents lists the entries of the pocket tables.
func contents() string {
	var b strings.Builder
	b.WriteString("Pocket tables. “awn reckon help NAME” explains one.\n")
	for _, s := range reckon.Subjects {
		head := "\n" + s + "\n"
		for _, e := range reckon.Entries() {
			if e.Subject != s {
				continue
			}
			b.WriteString(head)
			head = ""
			hang(&b, fmt.Sprintf("  %-12s ", e.Name), e.Title)
			typed(&b, "                 ", e.Examples[0])
		}
	}
	return b.String()
}

// afterNumber is the space between a number and its unit.
var afterNumber = regexp.MustCompile(`([0-9]) `)

// typed writes a line to be typed; a long one goes on behind a backslash, as a
// shell reads it.
func typed(b *strings.Builder, head, example string) {
	example = afterNumber.ReplaceAllString(example, "$1"+nbsp)
	lines := wrap("awn reckon "+example, width-utf8.RuneCountInString(head)-len("    \\"))
	for i, l := range lines {
		if i > 0 {
			l = "  " + l
		}
		if i < len(lines)-1 {
			l += " \\"
		}
		b.WriteString(head + strings.ReplaceAll(l, nbsp, " ") + "\n")
	}
}

// explained says what an entry is given and how it is asked.
func explained(e *reckon.Entry) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", e.Title)
	if len(e.Aliases) > 0 {
		fmt.Fprintf(&b, "also called: %s\n", strings.Join(e.Aliases, ", "))
	}
	b.WriteString("\n")
	room := 15
	for i := range e.Inputs {
		room = max(room, len(e.Inputs[i].Key)+1)
	}
	for i := range e.Inputs {
		in := &e.Inputs[i]
		say := in.Doc
		if len(in.Words) > 0 {
			say += " (also “" + strings.Join(in.Words, "”, “") + "”)"
		}
		switch {
		case in.Default != "":
			say += "; " + in.Default + " unless given"
		case !in.Must:
			say += "; may be left out"
		}
		if in.Named {
			say += "; with its name"
		}
		if in.Once && e.Again != "" {
			say += "; once for all parts"
		}
		hang(&b, "  "+pad(in.Key, room), say)
		hang(&b, "  "+pad("", room), strings.Join(in.Units(), ", "))
	}
	if e.Again != "" {
		b.WriteString("\n")
		hang(&b, "", "“"+e.Again+"” begins another part, with its own quantities.")
	}
	b.WriteString("\n")
	for _, x := range e.Examples {
		typed(&b, "  ", x)
	}
	if e.Note != "" {
		b.WriteString("\n")
		hang(&b, "", e.Note)
	}
	return b.String()
}

// answered is an answer for a terminal: what was understood, the numbers, how
// they were worked out, and what stands behind them.
func answered(a reckon.Answer, verbose bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", a.Entry.Title)
	hang(&b, "  ", understood(a))
	b.WriteString("\n")
	name := longest(a.Results, func(r reckon.Result) string { return r.Name })
	number := longest(a.Results, func(r reckon.Result) string { return r.Shown[0] })
	for _, r := range a.Results {
		others := slices.Clone(r.Shown[1:])
		if r.Band != "" {
			others = append(others, "("+r.Band+")")
		}
		for i := range others {
			others[i] = strings.ReplaceAll(others[i], " ", nbsp)
		}
		hang(&b, "  "+pad(r.Name, name)+"   "+pad(r.Shown[0], number)+"   ", strings.Join(others, " "+nbsp+nbsp))
	}
	meaning(&b, a)
	worked(&b, a)
	sources(&b, a, verbose)
	b.WriteString("\nRounding\n")
	hang(&b, "  ", words.Capital(a.Entry.RoundingRule()))
	if a.Entry.Note != "" {
		b.WriteString("\n")
		hang(&b, "", a.Entry.Note)
	}
	return b.String()
}

// understood says what was read, so that nothing is taken in silence: each part
// with its own quantities, then those of the whole line.
func understood(a reckon.Answer) string {
	said := make([][]string, a.Parts+1)
	for _, f := range a.Given {
		text := f.Input.Doc + " " + strings.ReplaceAll(f.Written, " ", nbsp)
		if f.Default {
			text += " (by default)"
		}
		i := f.Part
		if f.Input.Once {
			i = a.Parts
		}
		said[i] = append(said[i], text)
	}
	text := ""
	for i, part := range said {
		switch {
		case len(part) == 0:
			continue
		case text != "" && i < a.Parts:
			text += "; then "
		case text != "":
			text += "; "
		}
		text += strings.Join(part, ", ")
	}
	return text
}

// meaning writes what the numbers say to whoever asked, and what to do.
func meaning(b *strings.Builder, a reckon.Answer) {
	if len(a.Findings) == 0 {
		return
	}
	b.WriteString("\nWhat it means\n")
	u := reader(a.Given)
	for _, f := range a.Findings {
		hang(b, "  "+words.Capital(u.Severity(f.Severity))+". ", words.Sentence(f, u))
	}
}

// reader is who gave quantities in such units.
func reader(given []reckon.Filled) words.Units {
	var u words.Units
	for _, f := range given {
		switch f.Quantity.Symbol {
		case "lb", "bu", "ston", "lb/bu", "gal":
			u.Mass, u.Winchester, u.Customary = words.Pounds, true, true
		case "°F":
			u.Fahrenheit = true
		case "SRM":
			u.ASBC = true
		}
	}
	return u
}

// worked writes each formula once, and under it the lines with the numbers put
// in; last those that are plain arithmetic.
func worked(b *strings.Builder, a reckon.Answer) {
	var laws []string
	lines := map[string][]string{}
	for _, r := range a.Results {
		f, _ := a.Formula(r.Formula)
		if f.Text != "" && !slices.Contains(laws, f.Text) {
			laws = append(laws, f.Text)
		}
		if r.Worked != "" {
			lines[f.Text] = append(lines[f.Text], r.Worked)
		}
	}
	if len(laws)+len(lines) == 0 {
		return
	}
	b.WriteString("\nFormula and working\n")
	for _, text := range laws {
		law(b, text)
		for _, l := range lines[text] {
			hang(b, "    ", l)
		}
	}
	for _, l := range lines[""] {
		hang(b, "  ", l)
	}
}

// law writes a formula as its comment has it; where a line is too long, what
// its letters mean goes below.
func law(b *strings.Builder, text string) {
	for l := range strings.Lines(text) {
		l = "  " + strings.TrimRight(l, "\n")
		if utf8.RuneCountInString(l) <= width {
			fmt.Fprintln(b, l)
			continue
		}
		body := strings.TrimLeft(l, " ")
		head := l[:len(l)-len(body)]
		said, meaning, _ := strings.Cut(body, "    ")
		hang(b, head, said)
		if meaning = strings.TrimSpace(meaning); meaning != "" {
			hang(b, head+"    ", meaning)
		}
	}
}

// sources writes what stands behind the numbers: the formulas with the same
// standing and range together, or each with its text.
func sources(b *strings.Builder, a reckon.Answer, verbose bool) {
	b.WriteString("\nSource and range\n")
	if verbose {
		for _, f := range a.Formulas {
			formula(b, f)
		}
		return
	}
	for _, g := range grounds(a) {
		text := strings.Join(g.names, ", ") + ": " + g.text
		if len(g.ranges) > 0 {
			text += " Range: " + strings.Join(g.ranges, "; ") + "."
		}
		hang(b, "  ", text)
	}
}

// ground is what some results of an answer stand on together.
type ground struct {
	text          string
	names, ranges []string
}

// grounds gathers the results by publication and standing.
func grounds(a reckon.Answer) []*ground {
	var out []*ground
	for _, r := range a.Results {
		text := "as given, or by the definition of the units."
		f, ok := a.Formula(r.Formula)
		if ok {
			publication, _, _ := strings.Cut(strings.NewReplacer(";", ",", ":", ",").Replace(f.Source), ",")
			text = stands(f, strings.TrimSuffix(publication, "."))
		}
		i := slices.IndexFunc(out, func(g *ground) bool { return g.text == text })
		if i < 0 {
			i, out = len(out), append(out, &ground{text: text})
		}
		g := out[i]
		g.names = append(g.names, r.Name)
		if valid, _, _ := strings.Cut(f.Valid, "; NaN"); valid != "" && !slices.Contains(g.ranges, strings.TrimSuffix(valid, ".")) {
			g.ranges = append(g.ranges, strings.TrimSuffix(valid, "."))
		}
	}
	return out
}

// stands says how well a formula is known, and whence it comes.
func stands(f reckon.Formula, source string) string {
	switch f.Standing {
	case "definition":
		return "by definition."
	case "source":
		return "from " + source + "."
	case "recalled":
		return "from memory of " + source + "."
	}
	return "assumed: " + source + "."
}

// formula writes all that the catalogue says of a formula.
func formula(b *strings.Builder, f reckon.Formula) {
	hang(b, "  ", fmt.Sprintf("%s [%s]: %s", f.Title(), f.Key(), f.Says()))
	for l := range strings.Lines(f.Text) {
		fmt.Fprintf(b, "      %s\n", strings.TrimRight(l, "\n"))
	}
	hang(b, "    ", sentence(stands(f, strings.TrimSuffix(f.Source, "."))))
	if f.Valid != "" {
		hang(b, "    ", "Range: "+strings.ReplaceAll(f.Valid, "NaN", "no answer"))
	}
	if f.Check != "" {
		hang(b, "    ", "Check: "+f.Check)
	}
	if f.Note != "" {
		hang(b, "    ", "Note: "+f.Note)
	}
}

// hang writes a text under a head, its later lines set in as far.
func hang(b *strings.Builder, head, text string) {
	room := width - utf8.RuneCountInString(head)
	for i, l := range wrap(text, room) {
		if i == 1 {
			head = strings.Repeat(" ", utf8.RuneCountInString(head))
		}
		if i > 0 {
			l = strings.TrimLeft(l, nbsp)
		}
		b.WriteString(strings.TrimRight(head+strings.ReplaceAll(l, nbsp, " "), " ") + "\n")
	}
}

// wrap breaks a text at its spaces into lines of at most so many letters.
func wrap(text string, room int) []string {
	var out []string
	line := ""
	for _, word := range strings.Split(text, " ") {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > room {
			out, line = append(out, line), word
		} else if line == "" {
			line = word
		} else {
			line += " " + word
		}
	}
	return append(out, line)
}

func pad(s string, n int) string { return s + strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s))) }

func longest(results []reckon.Result, of func(reckon.Result) string) int {
	n := 0
	for _, r := range results {
		n = max(n, utf8.RuneCountInString(of(r)))
	}
	return n
}

// sentence begins with a capital.
func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
