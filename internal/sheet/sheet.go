// Package sheet lays text, tables and the pictures of package draw out on
// printed pages, as PDF. The same content gives the same bytes.
//
// A sheet is for the hand: the reader who needs it accessible, or wants the
// figures, is given the same as a page or as CSV.
package sheet

import (
	"io"
	"time"

	"codeberg.org/go-fonts/liberation/liberationserifbold"
	"codeberg.org/go-fonts/liberation/liberationserifitalic"
	"codeberg.org/go-fonts/liberation/liberationserifregular"
	"codeberg.org/go-pdf/fpdf"
)

// Paper is a size of page.
type Paper string

// The sizes.
const (
	A4     Paper = "A4"
	Letter Paper = "Letter"
)

// Lengths of a page in millimetres, and of letters in points.
const (
	marginMm = 18.0
	footMm   = 16.0
	lineMm   = 4.9
	gapMm    = 2.2
	textPt   = 10.5
	smallPt  = 8.5
	family   = "text"
)

// Options are what is settled before a sheet is begun.
type Options struct {
	Title    string // of the document, shown by readers of PDF
	Lang     string // as in HTML
	Paper    Paper  // A4 if empty
	Foot     string // left in the foot of every page
	Of       string // page and number of pages, with %d and %s in that order; empty for neither
	At       time.Time
	Subject  string
	Producer string // who made it: the program with its version
}

// Sheet is a document being laid out. An error stops the layout and comes
// back from WriteTo.
type Sheet struct {
	pdf  *fpdf.Fpdf
	wide float64 // between the margins, mm
	mark float64 // side of the code in the corner, mm; 0 for none
}

// New begins a sheet with an empty page.
func New(o Options) *Sheet {
	if o.Paper == "" {
		o.Paper = A4
	}
	p := fpdf.New("P", "mm", string(o.Paper), "")
	p.SetTitle(o.Title, true)
	p.SetSubject(o.Subject, true)
	p.SetCreator(o.Producer, true)
	p.SetLang(o.Lang)
	p.SetCreationDate(o.At.UTC())
	p.SetModificationDate(o.At.UTC())
	p.SetCatalogSort(true)
	p.AddUTF8FontFromBytes(family, "", liberationserifregular.TTF)
	p.AddUTF8FontFromBytes(family, "B", liberationserifbold.TTF)
	p.AddUTF8FontFromBytes(family, "I", liberationserifitalic.TTF)
	p.SetMargins(marginMm, marginMm, marginMm)
	p.SetAutoPageBreak(true, footMm+lineMm)
	p.SetCellMargin(0)
	p.AliasNbPages("{of}")
	s := &Sheet{pdf: p}
	width, _ := p.GetPageSize()
	s.wide = width - 2*marginMm
	p.SetFooterFunc(func() { s.foot(o) })
	p.AddPage()
	s.plain()
	return s
}

// Page begins a new page.
func (s *Sheet) Page() { s.pdf.AddPage() }

// WriteTo writes the sheet as PDF.
func (s *Sheet) WriteTo(w io.Writer) (int64, error) {
	counted := &counter{w: w}
	err := s.pdf.Output(counted)
	return counted.n, err
}

type counter struct {
	w io.Writer
	n int64
}

func (c *counter) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	c.n += int64(n)
	return n, err
}

// foot writes the foot of a page.
func (s *Sheet) foot(o Options) {
	s.pdf.SetY(-footMm)
	s.colour(faint)
	s.pdf.SetFont(family, "", smallPt)
	s.pdf.CellFormat(s.wide*0.8, lineMm, o.Foot, "", 0, "L", false, 0, "")
	if o.Of != "" {
		s.pdf.CellFormat(s.wide*0.2, lineMm, pageOf(o.Of, s.pdf.PageNo()), "", 0, "R", false, 0, "")
	}
	s.plain()
}

// plain sets letters and colours back to those of running text.
func (s *Sheet) plain() {
	s.pdf.SetFont(family, "", textPt)
	s.pdf.SetAlpha(1, "Normal")
	s.pdf.SetDashPattern(nil, 0)
	s.colour(ink)
}

func (s *Sheet) colour(c rgb) {
	s.pdf.SetTextColor(c.r, c.g, c.b)
	s.pdf.SetDrawColor(c.r, c.g, c.b)
	s.pdf.SetFillColor(c.r, c.g, c.b)
}

// room begins a new page unless so much height is left on this one.
func (s *Sheet) room(heightMm float64) {
	_, page := s.pdf.GetPageSize()
	if s.pdf.GetY()+heightMm > page-footMm-lineMm && s.pdf.GetY() > marginMm {
		s.pdf.AddPage()
	}
}
