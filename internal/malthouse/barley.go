package malthouse

import (
	"context"

	"awn/ledger"
)

// Receive takes a load of barley in. What was found of it at the gate may come
// with it and is recorded as its analysis.
func (h *House) Receive(ctx context.Context, a Actor, e Entry, in *ledger.Receipt, found ...ledger.Figure) (Done, error) {
	return h.enter(ctx, a, UseReceive, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			var was ledger.Code
			if b, ok := before[*ledger.Receipt](d); ok {
				was = b.Lot
			}
			if err := d.number(ctx, &in.Lot, was, letterDelivery, ledger.DeliveryKind); err != nil {
				return err
			}
			return d.fresh(ctx, in.Lot, was, ledger.DeliveryKind)
		},
		after: func(ctx context.Context, d *desk, f ledger.Fact) error {
			if len(found) == 0 {
				return nil
			}
			_, err := d.append(ctx, followID(f.ID, "gate"), &ledger.Analysis{
				Of: ledger.To(ledger.DeliveryKind, in.Lot), Lab: "gate", Results: found,
			})
			return err
		},
		said: func() Said {
			return say("received", "lot", string(in.Lot), "grower", in.Grower, "place", string(in.To)).with("net_kg", kg(in.Amount.FreshKg))
		},
	})
}

// Move takes grain or malt from one place to another.
func (h *House) Move(ctx context.Context, a Actor, e Entry, in *ledger.Move) (Done, error) {
	return h.enter(ctx, a, UseMove, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			var was *ledger.Amount
			if b, ok := before[*ledger.Move](d); ok {
				was = &b.Amount
			}
			return d.moisten(ctx, &in.Amount, was, in.From)
		},
		after: func(ctx context.Context, d *desk, _ ledger.Fact) error { return d.overdrawn(ctx, in.From) },
		said: func() Said {
			return say("moved", "from", string(in.From), "to", string(in.To)).with("net_kg", kg(in.Amount.FreshKg))
		},
	})
}

// Count is what was counted in a place, and against what.
type Count struct {
	Place   ledger.Account
	Counted ledger.Amount
	Against ledger.Against
	Lot     ledger.Code // what an opening stock is called
	Reason  string
}

// Count sets the book of a place to what was counted. The difference is
// unexplained unless its cause is known.
func (h *House) Count(ctx context.Context, a Actor, e Entry, in Count) (Done, error) {
	body := &ledger.Adjustment{Place: in.Place, Counted: in.Counted, Against: in.Against, Lot: in.Lot, Reason: in.Reason}
	if body.Against == "" {
		body.Against = ledger.AgainstUnexplained
	}
	return h.enter(ctx, a, UseCount, e, body, steps{
		complete: func(ctx context.Context, d *desk) error {
			body.Month = d.month()
			if was, ok := before[*ledger.Adjustment](d); ok {
				body.BookDryKg, body.BookWater = was.BookDryKg, was.BookWater
				return d.moisten(ctx, &body.Counted, &was.Counted, in.Place)
			}
			if err := d.moisten(ctx, &body.Counted, nil, in.Place); err != nil {
				return err
			}
			b, err := d.Balance(ctx, in.Place)
			body.BookDryKg, body.BookWater = ledger.Signed(b.Dry), ledger.Signed(b.Water)
			return err
		},
		after: func(ctx context.Context, d *desk, _ ledger.Fact) error { return d.alarm(ctx, in.Place) },
		said: func() Said {
			gap := body.Counted.FreshKg - ledger.Grams(body.BookDryKg) - ledger.Grams(body.BookWater)
			what := "counted"
			if body.Against != ledger.AgainstUnexplained {
				what = "set"
			}
			return say(what, "place", string(in.Place), "against", string(body.Against)).with("net_kg", kg(body.Counted.FreshKg)).with("gap_kg", kg(gap))
		},
	})
}

// alarm notes what is unexplained of a place in the month, with its odds.
func (d *desk) alarm(ctx context.Context, place ledger.Account) error {
	x, err := d.house.unexplained(ctx, d, place, d.month())
	if err != nil || x.Gap == 0 {
		return err
	}
	d.note(x.Said())
	return nil
}
