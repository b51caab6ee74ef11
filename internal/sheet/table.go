package sheet

import "math"

// Align says how the columns of a table stand: one letter each, l or r. What
// is missing at the end stands as the last one given.
type Align string

func (a Align) of(column int) string {
	if len(a) == 0 {
		return "L"
	}
	if a[min(column, len(a)-1)] == 'r' {
		return "R"
	}
	return "L"
}

// Between two columns, and the height of a line, in millimetres.
const (
	columnGapMm = 3.5
	rowMm       = 4.4
	tablePt     = 9.5
)

// Table writes rows between two rules. The head stands again on each page. A
// row of one cell is a heading within it.
func (s *Sheet) Table(head []string, rows [][]string, align Align) {
	if len(head) == 0 {
		return
	}
	s.pdf.SetFont(family, "", tablePt)
	widths := s.widths(head, rows)
	s.room(6 * rowMm)
	s.head(head, widths, align)
	for _, r := range rows {
		if len(r) == 1 && len(head) > 1 {
			s.part(r[0])
			continue
		}
		cells, high := s.wrap(r, widths)
		_, page := s.pdf.GetPageSize()
		if s.pdf.GetY()+high > page-footMm-lineMm {
			s.rule(0.35)
			s.pdf.AddPage()
			s.head(head, widths, align)
		}
		s.cells(cells, widths, align)
	}
	s.rule(0.35)
	s.plain()
	s.pdf.Ln(gapMm)
}

// part writes a heading within a table.
func (s *Sheet) part(words string) {
	s.room(3 * rowMm)
	s.pdf.SetFont(family, "I", tablePt)
	s.pdf.Ln(0.8)
	s.pdf.CellFormat(s.wide, rowMm, words, "", 1, "L", false, 0, "")
	s.pdf.SetFont(family, "", tablePt)
}

// head writes the names of the columns.
func (s *Sheet) head(head []string, widths []float64, align Align) {
	s.pdf.SetFont(family, "I", tablePt)
	s.colour(faint)
	cells, _ := s.wrap(head, widths)
	s.cells(cells, widths, align)
	s.colour(ink)
	s.rule(0.35)
	s.pdf.Ln(0.8)
	s.pdf.SetFont(family, "", tablePt)
}

// cells writes one row whose cells may have several lines.
func (s *Sheet) cells(cells [][]string, widths []float64, align Align) {
	y, lines := s.pdf.GetY(), 1
	for i, texts := range cells {
		x := marginMm
		for _, w := range widths[:i] {
			x += w
		}
		wide := widths[i]
		if i < len(widths)-1 {
			wide -= columnGapMm
		}
		for n, text := range texts {
			s.pdf.SetXY(x, y+float64(n)*rowMm)
			s.pdf.CellFormat(wide, rowMm, text, "", 0, align.of(i), false, 0, "")
		}
		lines = max(lines, len(texts))
	}
	s.pdf.SetXY(marginMm, y+float64(lines)*rowMm)
}

// wrap breaks the cells of a row to the widths of their columns.
func (s *Sheet) wrap(row []string, widths []float64) (cells [][]string, heightMm float64) {
	lines := 1
	for i, wide := range widths {
		if i < len(widths)-1 {
			wide -= columnGapMm
		}
		var texts []string
		if i < len(row) && row[i] != "" {
			texts = s.pdf.SplitText(row[i], wide+0.1)
		}
		cells = append(cells, texts)
		lines = max(lines, len(texts))
	}
	return cells, float64(lines) * rowMm
}

// widths are the widths of the columns, each with the room behind it: what
// the longest cell needs if all fits, or else the longest cut down.
func (s *Sheet) widths(head []string, rows [][]string) []float64 {
	out := make([]float64, len(head))
	for _, r := range append([][]string{head}, rows...) {
		if len(r) == 1 && len(head) > 1 {
			continue // a heading within the table
		}
		for i := range min(len(r), len(out)) {
			out[i] = math.Max(out[i], s.pdf.GetStringWidth(r[i])+columnGapMm+0.3)
		}
	}
	out[len(out)-1] -= columnGapMm
	total := 0.0
	for _, w := range out {
		total += w
	}
	if total <= s.wide {
		return s.spread(out, total)
	}
	return cut(out, s.wide)
}

// spread widens the columns to the page, though not so far that a row can no
// longer be followed.
func (s *Sheet) spread(widths []float64, total float64) []float64 {
	const most = 1.6
	factor := math.Min(most, s.wide/total)
	for i := range widths {
		widths[i] *= factor
	}
	return widths
}

// cut lowers the widest columns to one width so that all fit.
func cut(widths []float64, room float64) []float64 {
	low, high := 0.0, room
	for range 50 {
		most, total := (low+high)/2, 0.0
		for _, w := range widths {
			total += math.Min(w, most)
		}
		if total > room {
			high = most
		} else {
			low = most
		}
	}
	out := make([]float64, len(widths))
	for i, w := range widths {
		out[i] = math.Min(w, low)
	}
	return out
}
