package report

import "strings"

// widths is how many letters each column takes.
func (t table) widths() []int {
	out := make([]int, len(t.Head))
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		for i, c := range row {
			if len(row) > 1 {
				out[i] = max(out[i], letters(c))
			}
		}
	}
	return out
}

// table writes a table for a terminal; columns at the end that have no room are
// left to the other forms, which is reported.
func (p *printer) table(t table) (cut bool) {
	widths := t.widths()
	room, n := wideText-2, 0
	for n < len(widths) && room >= widths[n]+2 {
		room -= widths[n] + 2
		n++
	}
	p.line(t.Caption)
	p.rows(t, widths[:n])
	if t.Note != "" {
		p.wrapped("  ", t.Note)
	}
	return n < len(widths)
}

// rows writes head and rows of as many columns as there are widths. A row of one
// cell is a heading within the table; a head of nothing is left out.
func (p *printer) rows(t table, widths []int) {
	for k, row := range append([][]string{t.Head}, t.Rows...) {
		if len(row) == 1 {
			p.wrapped("  ", row[0])
			continue
		}
		line := ""
		for i, c := range row[:min(len(widths), len(row))] {
			c = short(c, widths[i])
			space := strings.Repeat(" ", widths[i]-letters(c))
			if i == 0 || t.Words[i] {
				line += "  " + c + space
			} else {
				line += "  " + space + c
			}
		}
		if strings.TrimSpace(line) != "" || k > 0 {
			p.line(strings.TrimRight(line, " "))
		}
	}
}
