package report

import (
	"io"
	"strings"
	"unicode/utf8"
)

// Columns of the account, in letters. A line is never longer than wideText.
const (
	wideText   = 80
	groupText  = 12
	figureText = 49 // where the figure ends
	worstText  = 51 // where the worst begins

	// The same where figures have a range.
	bandedFigureText = 50
	bandedWorstText  = 52
)

// mostFindings is how many findings an account shows before the rest.
const mostFindings = 3

// mostLimits is how many limits the account shows; misses come before the
// rest, and the whole list is in the report.
const mostLimits = 10

// Text writes the account for a terminal: one screen in grain order, the worst
// beside the mean, then the weightiest findings. It is plain text without
// colour.
func (r Report) Text(w io.Writer) error {
	p := &printer{figure: figureText, worst: worstText}
	if r.Odds != nil {
		p.figure, p.worst = bandedFigureText, bandedWorstText
	}
	title, lines := r.heading()
	p.pair(join([]string{title, lines[0]}), r.stamp())
	for _, l := range lines[1:] {
		p.wrapped("", l)
	}
	p.wrapped("", strings.TrimSpace(r.verdict()+" "+r.makes()+" "+r.bedLine()))
	p.rule()
	for _, g := range r.groups() {
		p.group(g)
	}
	r.limitsText(p)
	p.wrapped(pad(r.Units.Say("group.yield"), groupText), r.yieldLine())
	p.wrapped(pad(r.Units.Say("group.cost"), groupText), r.costLine())
	p.rule()
	r.oddsText(p)
	r.findingsText(p)
	_, err := io.WriteString(w, p.String())
	return err
}

// limitsText writes the malt against the specification.
func (r Report) limitsText(p *printer) {
	rows := r.limitRows()
	shown := nearest(r.Outcome.Judged, rows, mostLimits)
	name := r.Units.Say("group.malt")
	for _, l := range shown {
		p.columns(name, l.Name, l.Found, strings.TrimSpace(l.Limit+"  "+l.Verdict))
		name = ""
	}
	if left := len(rows) - len(shown); left > 0 {
		p.columns("", r.Units.Say("limits.more", "count", r.Units.Number(float64(left), 0)), "", "")
	}
}

// findingsText writes the weightiest findings and how many more there are.
func (r Report) findingsText(p *printer) {
	all := r.findings()
	if len(all) == 0 {
		p.line(r.Units.Say("findings.none"))
		return
	}
	for i, f := range all[:min(len(all), mostFindings)] {
		p.wrapped(r.Units.Number(float64(i+1), 0)+"  ", f.Severity+". "+strings.TrimSpace(f.Reason+" "+f.Change))
	}
	if more := len(all) - mostFindings; more > 0 {
		p.line(r.Units.Say("findings.more", "count", r.Units.Number(float64(more), 0)))
	}
}

// printer lays text out in columns of letters.
type printer struct {
	strings.Builder
	figure, worst int // columns of the account
}

// line writes one line, without spaces at its end.
func (p *printer) line(s string) {
	p.WriteString(strings.TrimRight(s, " "))
	p.WriteByte('\n')
}

// rule writes a plain rule.
func (p *printer) rule() { p.line(strings.Repeat("─", wideText)) }

// pair writes one text at the left and one at the right, or below each other
// if there is no room.
func (p *printer) pair(left, right string) {
	gap := wideText - letters(left) - letters(right)
	if gap < 2 {
		p.wrapped("", left)
		p.line(right)
		return
	}
	p.line(left + strings.Repeat(" ", gap) + right)
}

// entry is one row of an account: a name, its figure, and what is to be said
// beside it.
type entry struct{ name, figure, note string }

// fit lays the columns out for rows, as narrow as they allow.
func (p *printer) fit(rows []entry) {
	name, figure := 0, 0
	for _, r := range rows {
		name, figure = max(name, letters(r.name)), max(figure, letters(r.figure))
	}
	p.figure = min(groupText+name+2+figure, bandedFigureText)
	p.worst = p.figure + 2
}

// part writes sentences and rows under the word of a part, which stands
// beside the first.
func (p *printer) part(word string, says []string, rows []entry) {
	for _, text := range says {
		if text != "" {
			p.wrapped(pad(word, groupText), text)
			word = ""
		}
	}
	for _, r := range rows {
		p.columns(word, r.name, r.figure, r.note)
		word = ""
	}
}

// group writes the rows of a part of the course.
func (p *printer) group(g group) {
	name := g.Name
	for _, row := range g.Rows {
		p.columns(name, row.Name, row.Mean, row.Worst)
		name = ""
	}
}

// columns writes a row: group, name, figure set to the right, and the worst.
// A last column that is too long goes on below itself.
func (p *printer) columns(group, name, figure, worst string) {
	head := pad(group, groupText) + pad(name, 0)
	head += strings.Repeat(" ", max(0, p.figure-letters(head)-letters(figure))) + figure
	worstAt := max(p.worst, letters(head)+2) // a figure that is too long pushes its own row
	for _, part := range wrap(worst, wideText-worstAt) {
		p.line(pad(head, worstAt) + part)
		head = ""
	}
}

// wrapped writes a text under a head, its later lines set in as far as the
// head is wide.
func (p *printer) wrapped(head, text string) {
	if text == "" {
		return
	}
	for i, part := range wrap(text, wideText-letters(head)) {
		if i == 1 {
			head = strings.Repeat(" ", letters(head))
		}
		p.line(head + part)
	}
}

// wrap breaks a text at its plain spaces into lines of at most so many
// letters; a longer word stands alone. An empty text is one empty line.
func wrap(text string, width int) []string {
	var out []string
	line := ""
	for _, word := range strings.Split(text, " ") {
		switch {
		case line == "":
			line = word
		case letters(line)+1+letters(word) <= width:
			line += " " + word
		default:
			out = append(out, line)
			line = word
		}
	}
	return append(out, line)
}

// pad fills a text up with spaces and leaves at least one behind it.
func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(1, width-letters(s)))
}

func letters(s string) int { return utf8.RuneCountInString(s) }
