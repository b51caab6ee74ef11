package report

import (
	"encoding/hex"
	"io"
	"strconv"
	"strings"
	"time"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/sheet"
	"awn/ledger"
)

// Logged writes what came of readings.
func (t RecordText) Logged(w io.Writer, l malthouse.Logged) error {
	u := t.Units
	number := func(n int) string { return u.Number(float64(n), 0) }
	_, err := io.WriteString(w, u.Say("record.logged", "stored", number(l.Stored), "again", number(l.Again), "seals", number(l.Seals))+"\n")
	return err
}

// LoggedJSON writes it for machines.
func LoggedJSON(w io.Writer, l malthouse.Logged) error {
	return WriteJSON(w, Pairs{}.With("awn", "logged/1").With("stored", l.Stored).With("again", l.Again).With("seals", l.Seals))
}

func headText(h ledger.Head) string {
	return strconv.FormatInt(h.Seq, 10) + ":" + hex.EncodeToString(h.Hash[:])
}

// Closing writes the page of a day.
func (t RecordText) Closing(w io.Writer, c malthouse.Closing) error {
	p, u := &printer{}, t.Units
	p.pair(u.Say("record.closed", "day", c.Day, "seq", u.Number(float64(c.Fact.Seq), 0)), t.Stamp)
	p.rule()
	for _, seq := range c.Before {
		p.wrapped("", u.Say("record.closed-before", "seq", u.Number(float64(seq), 0)))
	}
	p.wrapped("", u.Say("record.head", "head", headText(c.Stock.Head)))
	p.wrapped("", u.Say("record.head-use"))
	if c.Rolled > 0 {
		p.wrapped("", u.Say("record.rolled", "rows", u.Number(float64(c.Rolled), 0)))
	}
	p.line(u.Say("record.under-way") + ": " + t.names(refs(c.Pieces)))
	p.line(u.Say("record.on-hold") + ": " + t.names(c.Holds))
	p.line("")
	if _, err := io.WriteString(w, p.String()); err != nil {
		return err
	}
	return t.Stock(w, c.Stock)
}

func refs(held []malthouse.Held) (out []ledger.Ref) {
	for _, h := range held {
		out = append(out, h.Account.Ref())
	}
	return out
}

func (t RecordText) names(things []ledger.Ref) string {
	if len(things) == 0 {
		return t.Units.Say("record.none")
	}
	var names []string
	for _, x := range things {
		names = append(names, thing(string(x), t.Units))
	}
	return strings.Join(names, ", ")
}

// ClosingPDF sets the page of a day on paper.
func (t RecordText) ClosingPDF(w io.Writer, c malthouse.Closing, as Print) error {
	u := t.Units
	title := u.Say("record.closed", "day", c.Day, "seq", u.Number(float64(c.Fact.Seq), 0))
	s := sheet.New(sheet.Options{Title: title, Lang: u.Tongue.Tag(), Paper: as.Paper, Foot: t.Stamp, Of: u.Say("sheet.page"), At: as.At, Producer: t.Stamp})
	s.Title(title, "")
	s.Strong(u.Say("record.head", "head", headText(c.Stock.Head)))
	s.Small(u.Say("record.head-use"))
	for _, seq := range c.Before {
		s.Says(u.Say("record.closed-before", "seq", u.Number(float64(seq), 0)))
	}
	s.Says(u.Say("record.under-way") + ": " + t.names(refs(c.Pieces)))
	s.Says(u.Say("record.on-hold") + ": " + t.names(c.Holds))
	s.Heading(u.Say("record.stock", "seq", u.Number(float64(c.Stock.Head.Seq), 0)))
	var rows [][]string
	for _, h := range c.Stock.Places {
		rows = append(rows, []string{thing(string(h.Account), u), t.kg(fresh(h.Balance)), t.aside(h)})
	}
	if len(rows) == 0 {
		s.Says(u.Say("record.empty"))
	} else {
		s.Table([]string{"", "", ""}, rows, "lrl")
	}
	for _, x := range c.Stock.Unexplained {
		s.Says(Say(x.Said(), u))
	}
	_, err := s.WriteTo(w)
	return err
}

// ClosingJSON writes the page for machines.
func ClosingJSON(w io.Writer, c malthouse.Closing, v house.Version) error {
	return recordJSON(w, "day/1", v, object{
		"day": c.Day, "seq": c.Fact.Seq, "head": headObject(c.Stock.Head), "places": each(c.Stock.Places, heldObject),
		"unexplained": each(c.Stock.Unexplained, unexplainedObject), "pieces": each(c.Pieces, heldObject), "holds": c.Holds,
		"closed_before": c.Before, "seals": c.Seals, "rolled": c.Rolled,
	})
}

// Keys writes the keys that the house signed with; now is the fingerprint of the
// one in the file, "" if there is no file.
func (t RecordText) Keys(w io.Writer, keys []malthouse.SigningKey, now string, zone *time.Location) error {
	p, u := &printer{}, t.Units
	if now != "" {
		p.line(u.Say("record.key-file", "key", now))
	}
	if len(keys) == 0 {
		p.line(u.Say("record.key-none"))
	} else {
		p.line(u.Say("record.keys"))
	}
	for i, k := range keys {
		line := u.Say("record.key-line", "day", time.UnixMilli(k.AtMs).In(zone).Format(time.DateOnly), "count", u.Number(float64(k.Certificates), 0))
		if i == len(keys)-1 {
			line = u.Say("record.key-now") + ", " + line
		}
		p.line("  " + k.Fingerprint)
		p.line("    " + line)
	}
	if n := len(keys); now != "" && n > 0 && keys[n-1].Fingerprint != now {
		p.wrapped("", u.Say("record.key-other"))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// KeysJSON writes them for machines.
func KeysJSON(w io.Writer, keys []malthouse.SigningKey, now string) error {
	return WriteJSON(w, Pairs{}.With("awn", "keys/1").With("file", now).With("keys", each(keys, func(k malthouse.SigningKey) object {
		return object{"fingerprint": k.Fingerprint, "at_ms": k.AtMs, "certificates": k.Certificates, "seq": k.Seq}
	})))
}
