package report

import (
	"io"
	"slices"
	"strings"
	"time"

	"awn/internal/malthouse"
	cells "awn/internal/table"
	"awn/internal/words"
	"awn/ledger"
)

// Piece writes all that the record says of a piece.
func (t RecordText) Piece(w io.Writer, v malthouse.PieceView) error {
	p, u := &printer{}, t.Units
	p.pair(join([]string{words.Capital(thing("piece:"+string(v.Piece), u)), u.Say("state." + string(v.State))}), t.Stamp)
	p.rule()
	for _, x := range v.Told {
		text := u.Moment(x.Fact.At, x.Fact.OffsetMin) + "  " + u.Say("happened."+string(x.Fact.Kind))
		if x.Struck {
			text += u.Say("record.is-struck")
		}
		p.wrapped("", join([]string{text, t.detail(x.Body), x.Who}))
	}
	if len(v.Results) > 0 {
		p.rule()
		var rows []entry
		for _, r := range v.Results {
			rows = append(rows, entry{quantityName(string(r.Quantity), u), words.Figure(string(r.Quantity), r.Value, u), join([]string{r.Method, r.Lab})})
		}
		p.list(rows)
	}
	if b := v.Booked; b != nil {
		p.rule()
		rows := bookedRows(*b, u)
		p.list(rows)
		if b.Unexplained != nil {
			p.wrapped("", Say(b.Unexplained.Said(), u))
		}
	} else {
		p.wrapped("", u.Say("record.holds", "dry", words.Figure("kg_dm", float64(v.Held.Dry)/1000, u), "water", t.kg(float64(v.Held.Water)/1000)))
	}
	p.rule()
	_, err := io.WriteString(w, p.String())
	return err
}

// detail is what stands in the body of a fact beyond its kind.
func (t RecordText) detail(b ledger.Body) string {
	u := t.Units
	mass := func(g ledger.Grams) string { return t.kg(float64(g) / 1000) }
	drawn := func(from []ledger.Draw) string {
		var parts []string
		for _, d := range from {
			parts = append(parts, u.Say("record.from", "mass", mass(d.Amount.FreshKg), "place", thing(string(d.Place), u)))
		}
		return strings.Join(parts, ", ")
	}
	water := func(w *ledger.Water) string {
		if w == nil {
			return ""
		}
		return mass(w.WaterKg)
	}
	switch b := b.(type) {
	case *ledger.Casting:
		return join([]string{drawn(b.From), b.Vessel, b.Note})
	case *ledger.Watering:
		return join([]string{water(b.Water), b.Note})
	case *ledger.Draining:
		return join([]string{water(b.Water), b.Note})
	case *ledger.Spraying:
		return join([]string{water(b.Water), b.Note})
	case *ledger.Couching:
		return join([]string{b.Vessel, b.Note})
	case *ledger.Kilning:
		return join([]string{b.Vessel, b.Note})
	case *ledger.Dressing:
		var parts []string
		for _, m := range b.Malt {
			parts = append(parts, u.Say("record.as", "mass", mass(m.Amount.FreshKg), "lot", string(m.Lot), "place", thing(string(m.To), u)))
		}
		return strings.Join(parts, ", ")
	case *ledger.Decision:
		return join([]string{b.Decision, b.Reason})
	case *ledger.Receipt:
		return join([]string{u.Say("record.into", "mass", mass(b.Amount.FreshKg), "place", thing(string(b.To), u)), b.Grower, b.Variety})
	case *ledger.Move:
		return u.Say("record.between", "mass", mass(b.Amount.FreshKg), "from", thing(string(b.From), u), "to", thing(string(b.To), u))
	case *ledger.Adjustment:
		return join([]string{mass(b.Counted.FreshKg), b.Reason})
	case *ledger.Blending:
		return join([]string{drawn(b.From), string(b.Lot)})
	case *ledger.Shipping:
		return join([]string{drawn(b.From), b.Receiver, b.Vehicle})
	case *ledger.Return:
		return join([]string{u.Say("record.into", "mass", mass(b.Amount.FreshKg), "place", thing(string(b.To), u)), b.Reason})
	case *ledger.Analysis:
		var parts []string
		for _, r := range b.Results {
			parts = append(parts, quantityName(string(r.Quantity), u)+" "+below(r.Less)+words.Figure(string(r.Quantity), r.Value, u))
		}
		return join([]string{strings.Join(parts, ", "), b.Lab, b.Note})
	case *ledger.Release:
		return b.Reason
	case *ledger.Hold:
		return b.Reason
	case *ledger.Strike:
		return b.Reason
	}
	return ""
}

// below marks a figure below what a method can see.
func below(less bool) string {
	if less {
		return "< "
	}
	return ""
}

// Thing names a thing of the record: "silo B7".
func Thing(name string, u words.Units) string { return thing(name, u) }

// Detail is what stands in the body of a fact beyond its kind, in a line.
func Detail(b ledger.Body, u words.Units) string { return RecordText{Units: u}.detail(b) }

// Quantity is what a figure of an analysis is called.
func Quantity(q ledger.Quantity, u words.Units) string { return quantityName(string(q), u) }

// Balance writes what came in, went out and is left.
func (t RecordText) Balance(w io.Writer, b malthouse.Balance) error {
	p, u := &printer{}, t.Units
	p.pair(u.Say("record.balance", "from", t.day(b.From), "to", t.day(b.To.Add(-time.Second))), t.Stamp)
	p.rule()
	for i, row := range t.balanceRows(b) {
		if i > 0 && row.line == malthouse.LineClosing {
			p.rule()
		}
		p.line(pad(row.name, 36) + right(row.dry, 14) + right(row.water, 14) + right(row.both, 14))
	}
	p.wrapped("", u.Say("record.closes", "off", u.Number(float64(b.OffG), 0)))
	if len(b.Made) > 0 {
		p.line("")
		p.line(u.Say("record.inside"))
		for _, l := range b.Made {
			p.line(pad(u.Say("line."+string(l.Name)), 36) + right(t.tonnes(l.Dry), 14) + right(t.tonnes(l.Water), 14) + right(t.tonnes(l.Dry+l.Water), 14))
		}
	}
	for _, x := range b.Unexplained {
		if x.Alarm() {
			p.wrapped("", Say(x.Said(), u))
		}
	}
	_, err := io.WriteString(w, p.String())
	return err
}

func (t RecordText) day(at time.Time) string { return at.Format(time.DateOnly) }

func (t RecordText) tonnes(g ledger.Grams) string {
	return t.Units.Number(words.Value("t", float64(g)/1e6, t.Units), 3)
}

func right(s string, width int) string { return strings.Repeat(" ", max(0, width-letters(s))) + s }

type balanceRow struct {
	line                   malthouse.LineName
	name, dry, water, both string
}

// balanceRows are the head and the lines of a balance.
func (t RecordText) balanceRows(b malthouse.Balance) []balanceRow {
	u := t.Units
	unit := words.Symbol("t", u)
	head := func(phrase string) string { return u.Say(phrase) + ", " + unit }
	rows := []balanceRow{{"", "", head("record.dry"), head("record.water"), head("record.both")}}
	for _, l := range b.Lines {
		rows = append(rows, balanceRow{l.Name, u.Say("line." + string(l.Name)), t.tonnes(l.Dry), t.tonnes(l.Water), t.tonnes(l.Dry + l.Water)})
	}
	return rows
}

// BalancePage is a balance as a table in kg, a row a line.
func BalancePage(b malthouse.Balance) cells.Page {
	return cells.Page{
		Name: "balance", Head: []string{"line", "dry_kg_dm", "water_kg", "fresh_kg"},
		Rows: func(yield func([]any, error) bool) {
			for _, l := range slices.Concat(b.Lines, b.Made) {
				if !yield([]any{string(l.Name), float64(l.Dry) / 1000, float64(l.Water) / 1000, float64(l.Dry+l.Water) / 1000}, nil) {
					return
				}
			}
		},
	}
}
