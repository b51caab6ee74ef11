package report

import (
	"io"
	"time"

	"awn/internal/sheet"
	"awn/internal/words"
)

// Leaf is a document of a few pages: what it is about, what must be known
// first, parts with tables, and how it can be checked. Text and print say the
// same.
type Leaf struct {
	Title, Number string
	Foot          string // of each printed page
	Stamp         string // program and model
	At            time.Time
	URL           string // where the same can be read; may be empty
	About         [][2]string
	First         []string
	Parts         []part
	Proof         []string
	Last          string   // on a terminal alone
	Signatures    []string // words under the lines to sign on, in print alone
	Units         words.Units
}

// part is one part of a document: a table, and sentences under it.
type part struct {
	title string
	head  []string
	align sheet.Align
	rows  [][]string
	says  []string
}

// PDF writes the document as printed sheets.
func (l Leaf) PDF(w io.Writer, paper sheet.Paper) error {
	u := l.Units
	s := sheet.New(sheet.Options{
		Title: join([]string{l.Title, l.Number}), Lang: u.Tongue.Tag(), Paper: paper, Foot: l.Foot, Of: u.Say("sheet.page"), At: l.At, Producer: l.Stamp,
	})
	if l.URL != "" {
		s.QR(l.URL, 28)
	}
	number := ""
	if l.Number != "" {
		number = u.Say("certificate.number", "number", l.Number)
	}
	s.Title(l.Title, number)
	s.Pairs(l.About)
	for _, text := range l.First {
		s.Strong(text)
	}
	for _, p := range l.Parts {
		s.Heading(p.title)
		if p.head != nil {
			s.Table(p.head, p.rows, p.align)
		}
		for _, text := range p.says {
			s.Says(text)
		}
	}
	s.Sign(l.Signatures...)
	for _, text := range l.Proof {
		s.Small(text)
	}
	_, err := s.WriteTo(w)
	return err
}

// Text writes the document for a terminal.
func (l Leaf) Text(w io.Writer) error {
	p := &printer{}
	p.pair(join2(l.Title, l.Number), l.Stamp)
	p.rule()
	for _, pair := range l.About {
		if pair[1] != "" {
			p.wrapped(pad(pair[0], 14), pair[1])
		}
	}
	for _, text := range l.First {
		p.wrapped("", text)
	}
	for _, part := range l.Parts {
		p.line("")
		p.line(part.title)
		p.rule()
		var rows []entry
		for _, r := range part.rows {
			rows = append(rows, entry{r[0], r[1], join(r[2:])})
		}
		p.list(rows)
		for _, text := range part.says {
			p.wrapped("", text)
		}
	}
	if len(l.Proof) > 0 {
		p.rule()
	}
	for _, text := range l.Proof {
		p.wrapped("", text)
	}
	if l.Last != "" {
		p.wrapped("", l.Last)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// join2 is a title with its number, if it has one.
func join2(title, number string) string {
	if number == "" {
		return title
	}
	return title + " " + number
}
