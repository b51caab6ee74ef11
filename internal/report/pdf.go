package report

import (
	"io"
	"time"

	"awn/internal/draw"
	"awn/internal/sheet"
	"awn/internal/words"
)

// Print is how a report is set on paper.
type Print struct {
	Paper sheet.Paper
	At    time.Time // of the document, for whoever files it
}

// PDF writes the report as sheets to print.
func (r Report) PDF(w io.Writer, as Print) error { return r.page().print(w, r.Units, as) }

// PDF writes the account of a trial as sheets to print.
func (a TrialAccount) PDF(w io.Writer, as Print) error { return a.page().print(w, a.Units, as) }

// PDF writes the report of a harvest as sheets to print.
func (a CropAccount) PDF(w io.Writer, as Print) error { return a.page().print(w, a.Units, as) }

// print sets a page on paper: all that is folded on a screen lies open, and
// formulas are left to the page.
func (p page) print(w io.Writer, u words.Units, as Print) error {
	s := sheet.New(sheet.Options{Title: p.Title, Lang: u.Tongue.Tag(), Paper: as.Paper, Foot: p.Stamp, Of: u.Say("sheet.page"), At: as.At, Producer: p.Stamp})
	s.Title(p.Title, p.Name)
	for _, text := range p.Lines {
		s.Small(text)
	}
	for _, text := range []string{p.Verdict, p.Makes} {
		if text != "" {
			s.Strong(text)
		}
	}
	if all := append(p.Findings[:len(p.Findings):len(p.Findings)], p.Rest...); !p.Compared {
		s.Heading(p.FindingsTitle)
		for _, f := range all {
			s.Says(join([]string{f.Severity + ". " + f.Reason + " " + f.Change, f.Source}))
		}
		if len(all) == 0 {
			s.Says(p.NoFindings)
		}
	}
	for _, part := range p.Sections {
		part.print(s)
	}
	_, err := s.WriteTo(w)
	return err
}

// print sets a part of a report on paper.
func (part section) print(s *sheet.Sheet) {
	if len(part.Figures)+len(part.Tables) == 0 {
		return
	}
	s.Heading(part.Title)
	if part.Intro != "" {
		s.Says(part.Intro)
	}
	for _, f := range part.Figures {
		s.Picture(draw.Picture{SVG: string(f.SVG), Says: join([]string{f.Title, f.Says})})
	}
	for _, t := range part.Tables {
		t.print(s)
	}
}

// print sets a table on paper.
func (t table) print(s *sheet.Sheet) {
	if len(t.Rows) == 0 {
		return
	}
	if t.Caption != "" {
		s.Says(t.Caption)
	}
	align := []byte("l")
	for i := 1; i < len(t.Head); i++ {
		if t.Words[i] {
			align = append(align, 'l')
		} else {
			align = append(align, 'r')
		}
	}
	s.Table(t.Head, t.Rows, sheet.Align(align))
	if t.Note != "" {
		s.Small(t.Note)
	}
}
