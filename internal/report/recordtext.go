package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/ledger"
)

// thing names a thing of the record for a reader: "silo B7".
func thing(name string, u words.Units) string {
	kind, code, found := strings.Cut(name, ":")
	if !found {
		return u.Say("outside." + kind)
	}
	if at := strings.LastIndexByte(code, ':'); kind == "unexplained" && at >= 0 { // of a place and a month
		return u.Say("record.lost", "place", thing(code[:at], u))
	}
	if _, known := malthouse.Kinds[kind]; !known {
		return name
	}
	return u.Say("kind."+kind, "code", code)
}

// RecordText is an account of the record and the reader it is for.
type RecordText struct {
	Units words.Units
	Stamp string // version of the program
}

func (t RecordText) kg(kg float64) string { return words.Figure("kg", kg, t.Units) }

func (t RecordText) pct(x float64) string { return words.Figure("tenths", x, t.Units) }

// fresh is the mass of both goods.
func fresh(b ledger.Balance) float64 { return float64(b.Dry+b.Water) / 1000 }

func wet(b ledger.Balance) float64 {
	if b.Dry <= 0 || b.Water < 0 {
		return math.NaN()
	}
	return float64(b.Water) / float64(b.Dry+b.Water)
}

// LeastShare is the share of a lot below which it is counted only.
const LeastShare = 0.005

// Stock writes what the house holds.
func (t RecordText) Stock(w io.Writer, s malthouse.Stock) error {
	p, u := &printer{}, t.Units
	p.pair(u.Say("record.stock", "seq", u.Number(float64(s.Head.Seq), 0)), t.Stamp)
	p.rule()
	var rows []entry
	for _, h := range s.Places {
		rows = append(rows, entry{thing(string(h.Account), u), t.kg(fresh(h.Balance)), t.aside(h)})
	}
	if len(rows) == 0 {
		p.line(u.Say("record.empty"))
	}
	p.list(rows)
	for _, h := range s.Places {
		few, left := 0, 0.0
		for _, l := range h.Lots {
			switch {
			case l.Share >= LeastShare:
				p.wrapped("  ", u.Say("record.lot-in", "place", thing(string(h.Account), u), "lot", string(l.Lot), "share", t.pct(l.Share), "least", t.pct(l.Least), "most", t.pct(l.Most)))
			case l.Share > 0:
				few++
				left += l.Share
			}
		}
		if few > 0 {
			p.wrapped("  ", u.Say("record.lots-more", "place", thing(string(h.Account), u), "count", u.Number(float64(few), 0), "share", t.pct(left)))
		}
	}
	if len(s.Unexplained)+len(s.Shaken) > 0 {
		p.rule()
	}
	quiet, gap := 0, 0.0
	for _, x := range s.Unexplained {
		if x.Alarm() {
			p.wrapped("", Say(x.Said(), u))
			continue
		}
		quiet++
		gap += float64(x.Gap) / 1000
	}
	if quiet > 0 {
		p.wrapped("", u.Say("record.quiet", "count", u.Number(float64(quiet), 0), "gap", words.Figure("kg_dm", gap, u)))
	}
	for _, f := range s.Shaken {
		p.wrapped("", Say(malthouse.Shaken(f), u))
	}
	_, err := io.WriteString(w, p.String())
	return err
}

// aside is what is said beside a place: its moisture, and how it stands.
func (t RecordText) aside(h malthouse.Held) string {
	parts := Standing(h, t.Units)
	if m := wet(h.Balance); !math.IsNaN(m) {
		parts = append([]string{words.Figure("wb", m, t.Units)}, parts...)
	}
	return strings.Join(parts, " · ")
}

// Standing is how a place stands: overdrawn, released or held, in layers, and
// where a piece is.
func Standing(h malthouse.Held, u words.Units) (parts []string) {
	if h.Overdrawn() {
		parts = append(parts, u.Say("record.overdrawn"))
	}
	if h.Leave != "" {
		parts = append(parts, u.Say("leave."+string(h.Leave)))
	}
	if h.Drawn == ledger.DrawnLayers {
		parts = append(parts, u.Say("record.layers"))
	}
	if h.Account.Kind() == ledger.Piece {
		parts = append(parts, u.Say("state."+string(h.State)))
	}
	return parts
}

// list writes rows from the left edge: a name, its figure, and what is beside.
func (p *printer) list(rows []entry) {
	name, figure := 0, 0
	for _, r := range rows {
		name, figure = max(name, letters(r.name)), max(figure, letters(r.figure))
	}
	for _, r := range rows {
		head := pad(r.name, min(name, figureText-figure)+2)
		head += strings.Repeat(" ", max(0, min(name, figureText-figure)+2+figure-letters(head)-letters(r.figure))) + r.figure
		p.wrapped(head+"  ", nonEmpty(r.note))
	}
}

// nonEmpty lets a row without a note be written.
func nonEmpty(s string) string {
	if s == "" {
		return " "
	}
	return s
}

// Trace writes where a thing came from and where it went.
func (t RecordText) Trace(w io.Writer, x malthouse.Traced, recall bool) error {
	p, u := &printer{}, t.Units
	p.pair(u.Say("record.trace", "thing", words.Capital(thing(string(x.Thing), u)), "seq", u.Number(float64(x.Head.Seq), 0)), t.Stamp)
	p.rule()
	if len(x.Sources) > 0 {
		p.line(u.Say("record.behind"))
		p.list(t.sources(x))
		t.mixed(p, x)
		t.made(p, x)
	}
	if len(x.Holders) > 0 {
		if len(x.Sources) > 0 {
			p.line("")
		}
		p.line(u.Say("record.ahead"))
		p.list(t.holders(x))
	}
	p.wrapped("", u.Say("record.mixing"))
	if recall {
		t.recall(p, x)
	}
	_, err := io.WriteString(w, p.String())
	return err
}

func (t RecordText) sources(x malthouse.Traced) (rows []entry) {
	for _, s := range x.Sources {
		rows = append(rows, entry{
			thing(string(s.Origin), t.Units), t.pct(s.Share),
			join([]string{t.band(s.Least, s.Most), s.Grower, s.Grown, s.Variety}),
		})
	}
	return rows
}

// band is the least and the most of a share.
func (t RecordText) band(least, most float64) string {
	u := t.Units
	number := func(x float64) string { return u.Number(words.Value("tenths", x, u), 1) }
	if number(least) == number(most) {
		return u.Say("record.exact")
	}
	return u.Say("record.band", "least", number(least), "most", t.pct(most))
}

// mixed writes what was measured of the origins for the whole.
func (t RecordText) mixed(p *printer, x malthouse.Traced) {
	u := t.Units
	for _, m := range x.Mixed {
		key := string(m.Quantity)
		number := func(v float64) string { return u.Number(words.Value(key, v, u), words.Decimals(key, u)+1) }
		phrase := "record.mixed"
		if m.Partly {
			phrase = "record.mixed-partly"
		}
		p.wrapped("", u.Say(phrase, "name", quantityName(key, u), "mean", number(m.Mean), "least", number(m.Least), "most", number(m.Most), "unit", words.Symbol(key, u)))
	}
}

func (t RecordText) made(p *printer, x malthouse.Traced) {
	for _, l := range x.Pieces {
		if l.Share > 0 {
			phrase := "record.of-lot"
			if l.Piece == "" {
				phrase = "record.of-stock"
			}
			p.wrapped("", t.Units.Say(phrase, "lot", string(l.Lot), "piece", string(l.Piece), "share", t.pct(l.Share), "band", t.band(l.Least, l.Most)))
		}
	}
}

func (t RecordText) holders(x malthouse.Traced) (rows []entry) {
	u := t.Units
	for _, h := range x.Holders {
		figure := words.Figure("kg", h.FreshKg, u)
		if !h.Place.Inside() {
			figure = words.Figure("kg_dm", h.DryKg, u)
		}
		note := u.Say("record.dry-band", "least", u.Number(h.LeastKg, 0), "most", words.Figure("kg_dm", h.MostKg, u))
		if h.Receiver != "" {
			note = join([]string{h.Receiver, note})
		}
		name := thing(string(h.Place), u)
		if h.Place == "" {
			name = u.Say("record.nobody")
		}
		rows = append(rows, entry{name, figure, note})
	}
	return rows
}

// recall writes whom to call about what, and how long it took to know.
func (t RecordText) recall(p *printer, x malthouse.Traced) {
	u := t.Units
	p.rule()
	p.line(u.Say("record.recall"))
	n, called := 0.0, 0
	for _, h := range x.Holders {
		switch {
		case h.Place.Kind() == ledger.Shipment:
			contact := h.Contact
			if contact == "" {
				contact = u.Say("record.no-contact")
			}
			p.wrapped("  ", u.Say("record.call", "who", h.Receiver, "what", thing(string(h.Place), u), "load", t.kg(h.HeldKg), "of", t.kg(h.FreshKg), "contact", contact))
			n += h.HeldKg
			called++
		case h.Place.Inside() && h.HeldKg > 0:
			p.wrapped("  ", u.Say("record.keep", "what", thing(string(h.Place), u), "held", t.kg(h.HeldKg), "of", t.kg(h.FreshKg)))
		}
	}
	p.wrapped("", u.Say("record.out", "loads", u.Number(float64(called), 0), "mass", t.kg(n), "took", fmt.Sprintf("%.1f", x.Took.Seconds())))
	p.wrapped("", u.Say("record.caution"))
}

// quantityName is what a figure of an analysis is called.
func quantityName(key string, u words.Units) string {
	if p, _, found := malthouse.Parameter(ledger.Quantity(key)); found {
		return u.Parameter(p)
	}
	return u.Say("quantity." + key)
}
