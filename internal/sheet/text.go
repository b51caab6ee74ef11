package sheet

import (
	"fmt"
	"math"
	"strings"
)

// Sizes of headings in points.
const (
	titlePt = 19.0
	headPt  = 12.5
)

// Title writes the name of the document, and under it a lesser line.
func (s *Sheet) Title(words, under string) {
	s.block(titlePt, "", 8.2, words)
	if under != "" {
		s.colour(faint)
		s.block(textPt, "", lineMm, under)
	}
	s.plain()
	s.pdf.Ln(gapMm)
}

// Heading begins a part of the document under a hairline.
func (s *Sheet) Heading(words string) {
	s.room(7 * lineMm)
	s.pdf.Ln(2 * gapMm)
	s.rule(0.15)
	s.pdf.Ln(1.2)
	s.block(headPt, "I", 6, words)
	s.plain()
	s.pdf.Ln(1)
}

// Says writes a paragraph.
func (s *Sheet) Says(words string) {
	s.block(textPt, "", lineMm, words)
	s.pdf.Ln(gapMm)
}

// Strong writes a paragraph that is to be read first.
func (s *Sheet) Strong(words string) {
	s.block(headPt, "B", 5.8, words)
	s.plain()
	s.pdf.Ln(gapMm)
}

// Small writes a paragraph of lesser weight.
func (s *Sheet) Small(words string) {
	s.colour(faint)
	s.block(smallPt, "", 3.9, words)
	s.plain()
	s.pdf.Ln(gapMm)
}

// Caution writes what may hurt somebody between two rules.
func (s *Sheet) Caution(words string) {
	s.room(4 * lineMm)
	s.rule(0.5)
	s.pdf.Ln(1.4)
	s.block(textPt, "B", lineMm, words)
	s.plain()
	s.pdf.Ln(1)
	s.rule(0.5)
	s.pdf.Ln(gapMm)
}

// Pairs writes names with what stands beside each. A pair without a figure is
// left out.
func (s *Sheet) Pairs(rows [][2]string) {
	wide := 0.0
	for _, r := range rows {
		wide = math.Max(wide, s.pdf.GetStringWidth(r[0]))
	}
	wide = math.Min(wide+5, s.wide*0.45)
	for _, r := range rows {
		if r[1] == "" {
			continue
		}
		lines := s.pdf.SplitText(r[1], s.across()-wide)
		names := s.pdf.SplitText(r[0], wide-3)
		s.room(lineMm * float64(max(len(lines), len(names))))
		for i := range max(len(lines), len(names)) {
			s.pdf.CellFormat(wide, lineMm, at(names, i), "", 0, "L", false, 0, "")
			s.pdf.CellFormat(s.wide-wide, lineMm, at(lines, i), "", 1, "L", false, 0, "")
		}
	}
	s.pdf.Ln(gapMm)
}

// Sign leaves lines for signatures over their words, side by side.
func (s *Sheet) Sign(words ...string) {
	if len(words) == 0 {
		return
	}
	s.room(20)
	s.pdf.Ln(13)
	const between = 8.0
	wide := (s.wide - between*float64(len(words)-1)) / float64(len(words))
	y := s.pdf.GetY()
	s.pdf.SetLineWidth(0.2)
	for i := range words {
		x := marginMm + float64(i)*(wide+between)
		s.pdf.Line(x, y, x+wide, y)
	}
	s.pdf.SetFont(family, "", smallPt)
	for i, w := range words {
		s.pdf.SetXY(marginMm+float64(i)*(wide+between), y+0.6)
		s.pdf.CellFormat(wide, lineMm, w, "", 0, "L", false, 0, "")
	}
	s.plain()
	s.pdf.SetXY(marginMm, y+0.6+lineMm+gapMm)
}

// block writes wrapped text in letters of a size.
func (s *Sheet) block(pt float64, style string, line float64, words string) {
	s.pdf.SetFont(family, style, pt)
	s.pdf.MultiCell(s.across(), line, words, "", "L", false)
}

// rule draws a line over the width at the present height.
func (s *Sheet) rule(thickMm float64) {
	s.pdf.SetLineWidth(thickMm)
	y := s.pdf.GetY()
	s.pdf.Line(marginMm, y, marginMm+s.wide, y)
}

// at is one of several texts, empty beyond their end.
func at(texts []string, i int) string {
	if i < len(texts) {
		return texts[i]
	}
	return ""
}

// pageOf writes the number of a page; the number of pages is filled in at the
// end.
func pageOf(form string, page int) string {
	return strings.Replace(strings.Replace(form, "%d", fmt.Sprint(page), 1), "%s", "{of}", 1)
}
