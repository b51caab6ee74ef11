package malthouse

import (
	"context"

	"awn/ledger"
)

// Blend makes one lot of several.
func (h *House) Blend(ctx context.Context, a Actor, e Entry, in *ledger.Blending) (Done, error) {
	return h.enter(ctx, a, UseBlend, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			var was ledger.Blending
			if b, ok := before[*ledger.Blending](d); ok {
				was = *b
			}
			if err := d.number(ctx, &in.Lot, was.Lot, letterLot, ledger.LotKind); err != nil {
				return err
			}
			if err := d.fresh(ctx, in.Lot, was.Lot, ledger.LotKind); err != nil {
				return err
			}
			return d.moistenDraws(ctx, in.From, was.From)
		},
		after: func(ctx context.Context, d *desk, _ ledger.Fact) error { return d.overdrawn(ctx, places(in.From)...) },
		said: func() Said {
			return say("blended", "lot", string(in.Lot), "place", string(in.To)).with("net_kg", kg(total(in.From))).with("parts_n", float64(len(in.From)))
		},
	})
}

// Ship sends a load out. Malt on hold stays in, unless a manager says why it
// goes all the same; malt that nobody has released goes, and that is said.
func (h *House) Ship(ctx context.Context, a Actor, e Entry, in *ledger.Shipping, against string) (Done, error) {
	if against != "" {
		if err := a.Permit(UseAgainst); err != nil {
			return Done{}, err
		}
	}
	return h.enter(ctx, a, UseShip, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			var was ledger.Shipping
			if b, ok := before[*ledger.Shipping](d); ok {
				was = *b
			}
			if err := d.number(ctx, &in.Shipment, was.Shipment, letterShipment, ledger.Shipment); err != nil {
				return err
			}
			if err := d.moistenDraws(ctx, in.From, was.From); err != nil || d.was != nil {
				return err
			}
			return d.mayGo(ctx, in.From, against)
		},
		after: func(ctx context.Context, d *desk, f ledger.Fact) error {
			if against != "" {
				if _, err := d.append(ctx, followID(f.ID, "against"), &ledger.Decision{
					Of: ledger.In(ledger.Shipment, in.Shipment).Ref(), Decision: "shipped although on hold", Reason: against,
				}); err != nil {
					return err
				}
			}
			return d.overdrawn(ctx, places(in.From)...)
		},
		said: func() Said {
			return say("shipped", "shipment", string(in.Shipment), "receiver", in.Receiver).with("net_kg", kg(total(in.From)))
		},
	})
}

// mayGo refuses what is on hold, and notes what nobody has released.
func (d *desk) mayGo(ctx context.Context, from []ledger.Draw, against string) error {
	for _, draw := range from {
		things := []ledger.Ref{draw.Place.Ref()}
		if draw.Place.Kind() == ledger.MaltStore {
			lots, err := lotsAt(ctx, d, draw.Place)
			if err != nil {
				return err
			}
			for _, l := range lots {
				things = append(things, ledger.To(ledger.LotKind, l.Lot))
			}
		}
		for i, thing := range things {
			s, found, err := d.Subject(ctx, thing)
			switch {
			case err != nil:
				return err
			case s.Leave == ledger.OnHold && against == "":
				return refuse("use.malt.held", string(thing))
			case s.Leave == ledger.OnHold:
				d.note(say("went-held", "thing", string(thing), "why", against))
			case i > 0 && found && s.Leave == "":
				d.note(say("unreleased", "thing", string(thing)))
			}
		}
	}
	return nil
}

// Return takes a load, or part of it, back.
func (h *House) Return(ctx context.Context, a Actor, e Entry, in *ledger.Return) (Done, error) {
	return h.enter(ctx, a, UseReturn, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			from := ledger.In(ledger.Shipment, in.Shipment)
			if err := d.about(ctx, from.Ref()); err != nil {
				return err
			}
			var was *ledger.Amount
			if b, ok := before[*ledger.Return](d); ok {
				was = &b.Amount
			}
			return d.moisten(ctx, &in.Amount, was, from)
		},
		said: func() Said {
			return say("returned", "shipment", string(in.Shipment), "place", string(in.To), "why", in.Reason).with("net_kg", kg(in.Amount.FreshKg))
		},
	})
}
