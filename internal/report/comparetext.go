package report

import (
	"io"
	"math"
	"slices"
	"strings"

	"awn/internal/words"
)

// columnsText are the columns of a table of numbers, in letters: the first, and
// each of the others.
type columnsText struct{ name, number int }

// The columns of a comparison: a piece in each, or the percentiles of a
// difference.
var (
	ofPieces   = columnsText{28, 13}
	ofContrast = columnsText{40, 10}
)

// mostGiven is how many differences of the documents are told; the report has
// all.
const mostGiven = 12

// Text writes the comparison for a terminal.
func (c *Comparison) Text(w io.Writer) error {
	p, u := &printer{}, c.Units
	p.pair(u.Say("compare.title"), stamp(c.Version, u))
	for i := range c.Pieces {
		p.wrapped(letter(i)+"  ", c.heading(i))
	}
	p.wrapped("", c.verdict())
	p.wrapped("", c.rests())
	p.rule()
	c.givenText(p)
	p.rule()
	c.figuresText(p)
	c.linesText(p)
	for i := range c.Against {
		p.rule()
		c.againstText(p, i+1)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// givenText writes what is given differently.
func (c *Comparison) givenText(p *printer) {
	u := c.Units
	if len(c.Differences) == 0 {
		p.line(u.Say("compare.same"))
		return
	}
	p.line(u.Say("compare.given"))
	for _, d := range c.Differences[:min(len(c.Differences), mostGiven)] {
		var values []string
		for i, v := range d.Values {
			if v == "" {
				v = "–"
			}
			values = append(values, letter(i)+"\u00a0"+v)
		}
		p.wrapped("  ", d.Path+": "+strings.Join(values, " | "))
	}
	if more := len(c.Differences) - mostGiven; more > 0 {
		p.line("  " + u.Say("compare.more", "count", u.Number(float64(more), 0)))
	}
}

// cells writes a row of a comparison: a name, and a cell for each column.
func (p *printer) cells(name string, at columnsText, cells []string) {
	line := pad(name, at.name)
	for _, cell := range cells {
		line += strings.Repeat(" ", max(1, at.number-letters(cell))) + cell
	}
	p.line(line)
}

// letters are the heads of the columns.
func (c *Comparison) letters() []string {
	out := make([]string, len(c.Pieces))
	for i := range out {
		out[i] = letter(i)
	}
	return out
}

// figuresText writes the middle of each figure of each piece.
func (c *Comparison) figuresText(p *printer) {
	p.cells(c.Units.Say("compare.middle"), ofPieces, c.letters())
	for _, g := range c.groups() {
		p.line(g.name)
		for _, f := range g.figures {
			p.cells("  "+f.name, ofPieces, c.each(func(i int) string { return c.middle(i, f.key) }))
		}
	}
	p.cells("  "+c.Units.Say("compare.closes"), ofPieces, c.each(func(i int) string { return power(c.Pieces[i].closes()) }))
}

// each is a cell for each piece.
func (c *Comparison) each(cell func(i int) string) []string {
	out := make([]string, len(c.Pieces))
	for i := range out {
		out[i] = cell(i)
	}
	return out
}

// linesText writes how often each line is met.
func (c *Comparison) linesText(p *printer) {
	lines := c.lines()
	if len(lines) == 0 {
		return
	}
	p.rule()
	p.cells(c.Units.Say("head.in-hundred"), ofPieces, c.letters())
	for _, l := range lines {
		p.cells("  "+c.Units.Parameter(l.Parameter), ofPieces, c.each(func(i int) string { return c.met(i, l) }))
	}
	p.cells("  "+c.Units.Say("compare.all"), ofPieces, c.each(c.metAll))
}

// metAll is how often a piece meets all its lines.
func (c *Comparison) metAll(i int) string {
	r := c.Pieces[i]
	if len(r.Odds.Lines) == 0 || math.IsNaN(r.Odds.All.Share()) {
		return "–"
	}
	return r.inHundred(r.Odds.All.Share())
}

// againstText writes how far a piece lies from the first.
func (c *Comparison) againstText(p *printer, other int) {
	p.cells(c.Units.Say("compare.less", "first", letter(0), "other", letter(other)), ofContrast, []string{"P10", "P50", "P90", c.Units.Say("compare.above")})
	for _, row := range c.contrasts(other) {
		p.cells("  "+row[0], ofContrast, row[1:])
	}
}

// contrasts are the differences of a piece from the first, a row for each figure
// that differs at all: its name and unit, the percentiles, and how often there is
// more of it.
func (c *Comparison) contrasts(other int) [][]string {
	var out [][]string
	for _, g := range c.groups() {
		for _, f := range g.figures {
			x, ok := c.contrast(other, f.key)
			if !ok {
				continue
			}
			name := f.name
			if unit := c.unit(f.key); unit != "" {
				name = c.Units.Say("with-unit", "name", name, "unit", unit)
			}
			out = append(out, slices.Concat([]string{name}, c.gaps(f.key, x), []string{c.Pieces[0].inHundred(x.Above.Share())}))
		}
	}
	return out
}

// unit is the unit of a figure: of money, that of the first house.
func (c *Comparison) unit(key string) string {
	if isMoney(key) {
		return c.Pieces[0].Outcome.Cost.Currency
	}
	return words.Symbol(unitOf(key), c.Units)
}
