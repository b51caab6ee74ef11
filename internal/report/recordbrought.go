package report

import (
	"io"

	"awn/internal/malthouse"
)

// Brought writes what a file from outside came to.
func (t RecordText) Brought(w io.Writer, b malthouse.Brought) error {
	p, u := &printer{}, t.Units
	count := u.Number(float64(b.Count), 0)
	switch {
	case b.Again:
		p.line(u.Say("record.brought-again"))
	case b.Dry:
		p.wrapped("", u.Say("record.brought-dry", "count", count))
	default:
		seq := func(i int) string { return u.Number(float64(b.Facts[i].Seq), 0) }
		p.wrapped("", u.Say("record.brought-"+b.Rows, "count", count, "from", seq(0), "to", seq(len(b.Facts)-1)))
		p.line(u.Say("record.brought-kept", "sha", b.SHA256))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// BroughtJSON writes it for machines.
func BroughtJSON(w io.Writer, b malthouse.Brought) error {
	out := Pairs{}.With("awn", "brought/1").With("rows", b.Rows).With("count", b.Count).With("again", b.Again).With("dry_run", b.Dry)
	if !b.Dry {
		out = out.With("sha256", b.SHA256).With("seq", b.Facts[len(b.Facts)-1].Seq)
	}
	return WriteJSON(w, out)
}
