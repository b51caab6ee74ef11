package malthouse

import (
	"cmp"
	"context"
	"slices"
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
	flows, accounts, err := allFlows(ctx, r)
	if err != nil {
		return b, err
	}
	sum := map[LineName]*Line{}
	add := func(name LineName, sign ledger.Grams, f ledger.Flow) {
		l := sum[name]
		if l == nil {
			l = &Line{Name: name}
			sum[name] = l
		}
		l.Dry += sign * f.Dry
		l.Water += sign * f.Water
	}
	for _, f := range flows {
		into, outOf := own(f.To), own(f.From)
		if f.At >= to.UnixMilli() {
			continue
		}
		if into && !outOf {
			add(LineClosing, 1, f)
		} else if outOf && !into {
			add(LineClosing, -1, f)
		}
		if f.At < from.UnixMilli() {
			if into && !outOf {
				add(LineOpening, 1, f)
			} else if outOf && !into {
				add(LineOpening, -1, f)
			}
			continue
		}
		switch {
		case into && !outOf:
			add(lineIn(f.From), 1, f)
		case outOf && !into:
			add(lineOut(f), -1, f)
		case f.To.Kind() == ledger.Piece:
			add(MadeCast, 1, f)
		case f.From.Kind() == ledger.Piece && f.To.Kind() == ledger.ByProduct:
			add(MadeBeside, 1, f)
		case f.From.Kind() == ledger.Piece:
			add(MadeMalt, 1, f)
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
	return b, h.unexplainedIn(ctx, r, &b, accounts)
}

// own reports whether what is at an account is the house's: a load that went
// out is not.
func own(a ledger.Account) bool { return a.Inside() && a.Kind() != ledger.Shipment }

// lineIn is the line of what comes from an account.
func lineIn(a ledger.Account) LineName {
	switch {
	case a == ledger.Field:
		return LineBarley
	case a == ledger.Mains:
		return LineSteep
	case a == ledger.Metabolic:
		return LineMetabolic
	case a == ledger.Adjust:
		return LineAdjusted
	case a.Kind() == ledger.Shipment:
		return LineReturned
	}
	return lineElse(a)
}

// lineOut is the line of what goes to an account.
func lineOut(f ledger.Flow) LineName {
	if f.To.Kind() != ledger.Shipment {
		return lineElse(f.To)
	}
	switch f.From.Kind() {
	case ledger.ByProduct:
		return LineByProducts
	case ledger.Silo:
		return LineBarleyOut
	}
	return LineMalt
}

func lineElse(a ledger.Account) LineName {
	switch a {
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

// allFlows are the flows in force, each once, in the order of the record, with
// the accounts that they touch.
func allFlows(ctx context.Context, r ledger.Reader) ([]ledger.Flow, []ledger.Balance, error) {
	balances, err := r.Balances(ctx)
	if err != nil {
		return nil, nil, err
	}
	// Every flow has an end inside, so the accounts inside reach them all.
	var inside []ledger.Account
	for _, b := range balances {
		if b.Account.Inside() {
			inside = append(inside, b.Account)
		}
	}
	flows, err := r.Touching(ctx, inside)
	flows = once(flows)
	slices.SortFunc(flows, func(a, b ledger.Flow) int { return cmp.Or(cmp.Compare(a.Seq, b.Seq), cmp.Compare(a.N, b.N)) })
	return flows, balances, err
}
