package report

import (
	"io"
	"time"

	"awn/internal/malthouse"
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
