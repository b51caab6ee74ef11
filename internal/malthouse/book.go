package malthouse

import (
	"context"
	"math"

	"awn/ledger"
)

// What a piece breathes away and leaches as a share of the dry matter cast,
// where it had no plan. Common practice, no source; the uncertainty is as wide
// as to say so.
const (
	usualRespired  = 0.050
	usualLeached   = 0.010
	usualDoubt     = 0.015               // standard uncertainty of both together without a plan
	plannedDoubt   = 0.010               // and with one
	waterOfStarch  = 5 * 18.015 / 162.14 // C6H10O5 + 6 O2 = 6 CO2 + 5 H2O
	leachedOfDoubt = 0.3                 // its share in the doubt of both
)

// Booked is what came of a piece beside what was expected. What nobody
// expected is NaN.
type Booked struct {
	Piece                 ledger.Code
	CastKg, CastDryKg     float64
	MaltKg, MaltWB        float64
	CulmsKg, ScreeningsKg float64
	Yield                 float64 // malt per barley as cast, both as they are
	Expected              *Plan
	ExpectedYield         float64
	RespiredKg, LeachedKg float64 // dry matter, worked out
	Lots                  []ledger.Code
	Unexplained           *Unexplained
}

// Book ends a piece: malt, culms and screenings as they were weighed. What the
// corn breathed away and leached is worked out, from the plan where there is
// one; the dry matter that is still missing or too much is unexplained.
func (h *House) Book(ctx context.Context, a Actor, e Entry, in *ledger.Dressing) (Done, Booked, error) {
	var b Booked
	done, err := h.enter(ctx, a, UseBook, e, in, steps{
		complete: func(ctx context.Context, d *desk) error { return d.dress(ctx, in) },
		after: func(ctx context.Context, d *desk, f ledger.Fact) error {
			return d.settle(ctx, f, ledger.In(ledger.Piece, in.Piece))
		},
		said: func() Said {
			var malt ledger.Grams
			var lots []string
			for _, m := range in.Malt {
				malt += m.Amount.FreshKg
				lots = append(lots, string(m.Lot))
			}
			return Said{What: "dressed", Words: []string{"piece", string(in.Piece), "lots", joined(lots)}}.with("malt_kg", kg(malt))
		},
	})
	if err == nil {
		b, err = h.Booked(ctx, in.Piece)
	}
	return done, b, err
}

func joined(words []string) string {
	out := ""
	for i, w := range words {
		if i > 0 {
			out += ", "
		}
		out += w
	}
	return out
}

// dress completes an entry of malt: codes of lots and the losses of the piece.
func (d *desk) dress(ctx context.Context, in *ledger.Dressing) error {
	was, again := before[*ledger.Dressing](d)
	for i := range in.Malt {
		var code ledger.Code
		if again && i < len(was.Malt) {
			code = was.Malt[i].Lot
		}
		if err := d.number(ctx, &in.Malt[i].Lot, code, letterLot, ledger.LotKind); err != nil {
			return err
		}
		if err := d.fresh(ctx, in.Malt[i].Lot, code, ledger.LotKind); err != nil {
			return err
		}
	}
	if again {
		if in.Losses == nil {
			in.Losses = was.Losses
		}
		return nil
	}
	if _, err := known(ctx, d, ledger.In(ledger.Piece, in.Piece).Ref()); err != nil {
		return err
	}
	held, err := d.Balance(ctx, ledger.In(ledger.Piece, in.Piece))
	switch {
	case err != nil:
		return err
	case held.Dry <= 0:
		return refuse("use.piece.empty", string(in.Piece))
	case in.Losses == nil:
		in.Losses, err = d.losses(ctx, in, held)
	}
	return err
}

// losses works out what a piece breathed away, and the water that left it.
// What it leached is in the drain water that it also lost; here both stand as
// breathed away unless drains were booked with their own.
func (d *desk) losses(ctx context.Context, in *ledger.Dressing, held ledger.Balance) (*ledger.Losses, error) {
	share, doubt := usualRespired+usualLeached, usualDoubt
	cast, err := d.castDry(ctx, in.Piece)
	if err != nil {
		return nil, err
	}
	plan, err := planOf(ctx, d, d.house.Desk, in.Piece)
	if err != nil {
		return nil, err
	}
	if plan != nil {
		share, doubt = plan.RespiredDM+plan.LeachedDM, plannedDoubt
	}
	respired := share * float64(cast)
	water := float64(held.Water) + waterOfStarch*respired
	for _, m := range in.Malt {
		water -= float64(waterIn(m.Amount))
	}
	for _, s := range in.Beside {
		water -= float64(waterIn(s.Amount))
	}
	l := &ledger.Losses{
		RespiredKg: gram(respired), URespiredKg: gram(doubt * float64(cast)),
		MetabolicKg: gram(waterOfStarch * respired), Standing: ledger.Computed,
	}
	if water > 0 {
		l.EvaporatedKg = gram(water)
	}
	return l, nil
}

func gram(g float64) ledger.Grams { return ledger.Grams(math.Round(g)) }

// waterIn is the water in an amount.
func waterIn(a ledger.Amount) ledger.Grams {
	wb := 0.0
	switch {
	case a.MoistureWB != nil:
		wb = float64(*a.MoistureWB)
	case a.MoistureDB != nil:
		wb = float64(*a.MoistureDB) / (1 + float64(*a.MoistureDB))
	}
	return a.FreshKg - gram(float64(a.FreshKg)*(1-wb))
}

// castDry is the dry matter that a piece was made of.
func (d *desk) castDry(ctx context.Context, piece ledger.Code) (dry ledger.Grams, err error) {
	at := ledger.In(ledger.Piece, piece)
	flows, err := d.Touching(ctx, []ledger.Account{at})
	for _, f := range once(flows) {
		if f.To == at && f.From.Inside() {
			dry += f.Dry
		}
	}
	return dry, err
}

// settle sets a piece that was dressed to nothing; what is left or missing by
// the book is unexplained.
func (d *desk) settle(ctx context.Context, f ledger.Fact, at ledger.Account) error {
	if d.was != nil {
		return nil
	}
	b, err := d.Balance(ctx, at)
	if err != nil || b.Dry == 0 && b.Water == 0 {
		return err
	}
	if _, err := d.append(ctx, followID(f.ID, "settled"), ledger.Settle(b, ledger.Amount{Standing: ledger.Measured}, d.month(), "dressed")); err != nil {
		return err
	}
	return d.alarm(ctx, at)
}

// once leaves each flow once.
func once(flows []ledger.Flow) []ledger.Flow {
	type place struct {
		seq int64
		n   int
	}
	seen := make(map[place]bool, len(flows))
	out := flows[:0:0]
	for _, f := range flows {
		if at := (place{f.Seq, f.N}); !seen[at] {
			seen[at] = true
			out = append(out, f)
		}
	}
	return out
}

// Plan is the plan of a piece, the last if there are several; nil without one.
func (h *House) Plan(ctx context.Context, a Actor, piece ledger.Code) (*Plan, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	return planOf(ctx, h.Store.Read(h.Code), h.Desk, piece)
}

// planOf is the plan that hangs on a piece, the last if there are several.
func planOf(ctx context.Context, r ledger.Reader, desk Desk, piece ledger.Code) (*Plan, error) {
	var plan *Plan
	for f, err := range r.Facts(ctx, ledger.Query{About: ledger.In(ledger.Piece, piece).Ref(), Kind: ledger.Decided}) {
		if err != nil {
			return nil, err
		}
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, err
		}
		if c, ok := body.(*ledger.Decision); ok && c.Decision == planned && c.Document != "" {
			if plan, err = readPlan(ctx, desk, c.Document); err != nil {
				return nil, err
			}
		}
	}
	return plan, nil
}
