package malthouse

import (
	"context"
	"strings"

	"awn/ledger"
)

// Held is what one place holds by the book.
type Held struct {
	ledger.Balance
	Leave ledger.Leave
	Drawn ledger.Drawn
	State ledger.State // of a piece
	Lots  []LotShare   // of a malt store
}

// Stock is what the house holds, and what it cannot explain.
type Stock struct {
	Head        ledger.Head
	AtMs        int64
	Places      []Held // shipments apart
	Unexplained []Unexplained
	Shaken      []ledger.Fact // certificates and releases that rest on a struck fact
}

// Stock says what we hold and where, by the book, with what is unexplained.
func (h *House) Stock(ctx context.Context, a Actor) (Stock, error) {
	if err := a.Permit(UseLook); err != nil {
		return Stock{}, err
	}
	return h.stock(ctx, h.Store.Read(h.Code))
}

func (h *House) stock(ctx context.Context, r ledger.Reader) (s Stock, err error) {
	s.AtMs = h.Clock().UnixMilli()
	if s.Head, err = r.Head(ctx); err != nil {
		return s, err
	}
	balances, err := r.Balances(ctx)
	if err != nil {
		return s, err
	}
	as := restsOn(balances)
	for _, b := range balances {
		switch {
		case b.Account.Inside() && b.Account.Kind() != ledger.Shipment && (b.Dry != 0 || b.Water != 0):
			held, err := h.held(ctx, r, b, as)
			if err != nil {
				return s, err
			}
			s.Places = append(s.Places, held)
		case strings.HasPrefix(string(b.Account), "unexplained:") && b.Dry != 0:
			place, month := unexplainedOf(b.Account)
			x, err := h.unexplained(ctx, r, place, month)
			if err != nil {
				return s, err
			}
			s.Unexplained = append(s.Unexplained, x)
		}
	}
	s.Shaken, err = r.Shaken(ctx)
	return s, err
}

// unexplainedOf is the place and the month of an account of what is
// unexplained.
func unexplainedOf(a ledger.Account) (place ledger.Account, month ledger.Month) {
	_, rest, _ := strings.Cut(string(a), ":")
	i := strings.LastIndexByte(rest, ':')
	return ledger.Account(rest[:i]), ledger.Month(rest[i+1:])
}

func (h *House) held(ctx context.Context, r ledger.Reader, b ledger.Balance, as string) (Held, error) {
	held := Held{Balance: b}
	s, _, err := r.Subject(ctx, b.Account.Ref())
	if err != nil {
		return held, err
	}
	held.Leave, held.Drawn, held.State = s.Leave, s.Drawn, s.State
	if b.Account.Kind() == ledger.MaltStore {
		held.Lots, err = h.Shares.of(ctx, r, b.Account, as)
	}
	return held, err
}

// Told is a fact as it is listed: who entered it and what it is about.
type Told struct {
	Fact   ledger.Fact
	Body   ledger.Body
	Who    string
	Struck bool
}

// PieceView is all that the record says of one piece.
type PieceView struct {
	Piece   ledger.Code
	State   ledger.State
	Held    ledger.Balance
	Told    []Told
	Results []ledger.Result
	Booked  *Booked // nil until it is dressed
}

// Piece gathers what the record says of a piece.
func (h *House) Piece(ctx context.Context, a Actor, code ledger.Code) (PieceView, error) {
	v := PieceView{Piece: code}
	if err := a.Permit(UseLook); err != nil {
		return v, err
	}
	r := h.Store.Read(h.Code)
	at := ledger.In(ledger.Piece, code)
	s, err := known(ctx, r, at.Ref())
	if err != nil {
		return v, err
	}
	v.State = s.State
	if v.Held, err = r.Balance(ctx, at); err != nil {
		return v, err
	}
	if v.Told, err = h.told(ctx, r, at.Ref()); err != nil {
		return v, err
	}
	if v.Results, err = r.Results(ctx, at.Ref()); err != nil {
		return v, err
	}
	if v.State == ledger.Done {
		b, err := h.Booked(ctx, code)
		if err != nil {
			return v, err
		}
		v.Booked = &b
	}
	return v, nil
}

// told lists the facts about a thing with the names of those who entered them.
func (h *House) told(ctx context.Context, r ledger.Reader, about ledger.Ref) (out []Told, err error) {
	struck, err := strikes(ctx, r, about)
	if err != nil {
		return nil, err
	}
	var facts []ledger.Fact
	for f, err := range r.Facts(ctx, ledger.Query{About: about}) {
		if err != nil {
			return nil, err
		}
		facts = append(facts, f)
	}
	return h.toldOf(ctx, facts, struck)
}

// toldOf gives facts their bodies and the names of those who entered them.
func (h *House) toldOf(ctx context.Context, facts []ledger.Fact, struck map[string]bool) ([]Told, error) {
	names := map[string]string{}
	out := make([]Told, len(facts))
	for i, f := range facts {
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, err
		}
		if names[f.Who] == "" {
			names[f.Who] = f.Who
			if p, err := h.Desk.Person(ctx, f.Who); err == nil && p.Name != "" {
				names[f.Who] = p.Name
			}
		}
		out[i] = Told{f, body, names[f.Who], struck[f.ID]}
	}
	return out, nil
}

// Booked holds what was made of a piece against what was expected.
func (h *House) Booked(ctx context.Context, code ledger.Code) (Booked, error) {
	r := h.Store.Read(h.Code)
	b := Booked{Piece: code}
	at := ledger.In(ledger.Piece, code)
	casts, _, err := bodies[*ledger.Casting](ctx, r, at.Ref(), ledger.Cast)
	if err != nil {
		return b, err
	}
	for _, c := range casts {
		b.CastKg += kg(total(c.From))
	}
	dressed, facts, err := bodies[*ledger.Dressing](ctx, r, at.Ref(), ledger.Dressed)
	if err != nil {
		return b, err
	}
	var water ledger.Grams
	for i, d := range dressed {
		for _, m := range d.Malt {
			b.MaltKg += kg(m.Amount.FreshKg)
			water += waterIn(m.Amount)
			b.Lots = append(b.Lots, m.Lot)
		}
		for _, s := range d.Beside {
			switch s.What {
			case ledger.Culms:
				b.CulmsKg += kg(s.Amount.FreshKg)
			default:
				b.ScreeningsKg += kg(s.Amount.FreshKg)
			}
		}
		if d.Losses != nil {
			b.RespiredKg += kg(d.Losses.RespiredKg)
		}
		month := ledger.Month(timeOf(facts[i], h.Zone).Format("2006-01"))
		x, err := h.unexplained(ctx, r, at, month)
		if err != nil {
			return b, err
		}
		if x.Gap != 0 {
			b.Unexplained = &x
		}
	}
	if b.MaltKg > 0 {
		b.MaltWB = kg(water) / b.MaltKg
	}
	if b.CastKg > 0 {
		b.Yield = b.MaltKg / b.CastKg
	}
	b.Expected, err = planOf(ctx, r, h.Desk, code)
	if b.Expected != nil && b.Expected.CastKg > 0 {
		b.ExpectedYield = b.Expected.MaltKg / b.Expected.CastKg
	}
	return b, err
}
