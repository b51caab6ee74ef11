package malthouse

import (
	"context"
	"time"

	"awn/ledger"
)

// Line is one line of a balance: what came in or went out, in grams, less than
// nothing if it went out.
type Line struct {
	Name       LineName
	Dry, Water ledger.Grams
}

// LineName is what a line of a balance is about.
type LineName string

// The lines, in the order in which they are written.
const (
	LineOpening     LineName = "opening" // stock at the beginning
	LineBarley      LineName = "barley"  // received
	LineReturned    LineName = "returned"
	LineSteep       LineName = "steep" // water from the mains
	LineMetabolic   LineName = "metabolic"
	LineAdjusted    LineName = "adjusted" // opening stock and corrections with a known cause
	LineMalt        LineName = "malt"     // shipped
	LineByProducts  LineName = "by-products"
	LineBarleyOut   LineName = "barley-out"
	LineRespired    LineName = "respired"
	LineDrain       LineName = "drain"
	LineAir         LineName = "air"
	LineDust        LineName = "dust"
	LineUnexplained LineName = "unexplained"
	LineClosing     LineName = "closing" // stock at the end
)

var lineOrder = []LineName{
	LineOpening, LineBarley, LineReturned, LineSteep, LineMetabolic, LineAdjusted, LineMalt, LineByProducts, LineBarleyOut,
	LineRespired, LineDrain, LineAir, LineDust, LineUnexplained, LineClosing,
}

// Balance is what came in, went out and is left of a stretch of time. Opening
// and all that moved add up to closing, to the gram.
type Balance struct {
	From, To    time.Time // To not included
	Lines       []Line
	Made        []Line // inside: cast, malt made, culms and screenings
	Unexplained []Unexplained
	OffG        ledger.Grams // opening and all lines less closing, both goods: zero
}

// The lines of what was made inside.
const (
	MadeCast   LineName = "cast"
	MadeMalt   LineName = "malt-made"
	MadeBeside LineName = "beside-made"
)

// Balance adds up a stretch of time by when things happened.
func (h *House) Balance(ctx context.Context, a Actor, from, to time.Time) (Balance, error) {
	b := Balance{From: from, To: to}
	if err := a.Permit(UseLook); err != nil {
		return b, err
	}
	if !from.Before(to) {
		return b, refuse("use.period.order", from.Format(time.DateOnly)+" to "+to.Format(time.DateOnly))
	}
	r := h.Store.Read(h.Code)
	before, err := r.Turnover(ctx, 0, from.UnixMilli())
	if err != nil {
		return b, err
	}
	within, err := r.Turnover(ctx, from.UnixMilli(), to.UnixMilli())
	if err != nil {
		return b, err
	}
	accounts, err := r.Balances(ctx)
	if err != nil {
		return b, err
	}
	b.add(before, within)
	return b, h.unexplainedIn(ctx, r, &b, accounts)
}

// add fills in the lines from what moved before the stretch and within it.
func (b *Balance) add(before, within []ledger.Turnover) {
	sum := map[LineName]*Line{}
	add := func(name LineName, sign ledger.Grams, m ledger.Turnover) {
		l := sum[name]
		if l == nil {
			l = &Line{Name: name}
			sum[name] = l
		}
		l.Dry += sign * m.Dry
		l.Water += sign * m.Water
	}
	for _, m := range before {
		add(LineOpening, gain(m), m)
		add(LineClosing, gain(m), m)
	}
	for _, m := range within {
		add(LineClosing, gain(m), m)
		switch g := gain(m); {
		case g > 0:
			add(lineIn(m.From), 1, m)
		case g < 0:
			add(lineOut(m), -1, m)
		case m.To == ledger.Piece:
			add(MadeCast, 1, m)
		case m.From == ledger.Piece && m.To == ledger.ByProduct:
			add(MadeBeside, 1, m)
		case m.From == ledger.Piece:
			add(MadeMalt, 1, m)
		}
	}
	for _, name := range lineOrder {
		l := sum[name]
		if l == nil {
			if name != LineOpening && name != LineClosing {
				continue
			}
			l = &Line{Name: name}
		}
		b.Lines = append(b.Lines, *l)
		sign := ledger.Grams(1)
		if name == LineClosing {
			sign = -1
		}
		b.OffG += sign * (l.Dry + l.Water)
	}
	for _, name := range []LineName{MadeCast, MadeMalt, MadeBeside} {
		if l := sum[name]; l != nil {
			b.Made = append(b.Made, *l)
		}
	}
}

// own reports whether what is at an account of a kind is the house's: a load
// that went out is not.
func own(kind string) bool {
	switch kind {
	case ledger.Silo, ledger.Piece, ledger.MaltStore, ledger.ByProduct:
		return true
	}
	return false
}

// gain is 1 for what the house got, -1 for what it gave, 0 for what it moved.
func gain(m ledger.Turnover) ledger.Grams {
	switch into, outOf := own(m.To), own(m.From); {
	case into && !outOf:
		return 1
	case outOf && !into:
		return -1
	}
	return 0
}

// lineIn is the line of what comes from accounts of a kind.
func lineIn(kind string) LineName {
	switch kind {
	case ledger.Field.Kind():
		return LineBarley
	case ledger.Mains.Kind():
		return LineSteep
	case ledger.Metabolic.Kind():
		return LineMetabolic
	case ledger.Shipment:
		return LineReturned
	}
	return lineElse(kind)
}

// lineOut is the line of what leaves the house.
func lineOut(m ledger.Turnover) LineName {
	if m.To != ledger.Shipment {
		return lineElse(m.To)
	}
	switch m.From {
	case ledger.ByProduct:
		return LineByProducts
	case ledger.Silo:
		return LineBarleyOut
	}
	return LineMalt
}

func lineElse(kind string) LineName {
	switch ledger.Account(kind) {
	case ledger.Respired:
		return LineRespired
	case ledger.Drain:
		return LineDrain
	case ledger.Air:
		return LineAir
	case ledger.Dust:
		return LineDust
	case ledger.Adjust:
		return LineAdjusted
	}
	return LineUnexplained
}

// unexplainedIn lists what is unexplained in the months of the period.
func (h *House) unexplainedIn(ctx context.Context, r ledger.Reader, b *Balance, accounts []ledger.Balance) error {
	for _, x := range accounts {
		if x.Account.Kind() != "unexplained" || x.Dry == 0 {
			continue
		}
		place, month := unexplainedOf(x.Account)
		first, err := time.ParseInLocation("2006-01", string(month), h.Zone)
		if err != nil || !first.Before(b.To) || !first.AddDate(0, 1, 0).After(b.From) {
			continue
		}
		u, err := h.unexplained(ctx, r, place, month)
		if err != nil {
			return err
		}
		b.Unexplained = append(b.Unexplained, u)
	}
	return nil
}
