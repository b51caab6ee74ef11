package malthouse

import (
	"context"

	"awn/ledger"
)

// moisten gives an amount without a moisture that of the place it is taken
// from, as the book has it, and says that it was only worked out.
func (d *desk) moisten(ctx context.Context, a, before *ledger.Amount, place ledger.Account) error {
	if a.MoistureWB != nil || a.MoistureDB != nil || a.FreshKg == 0 {
		return nil
	}
	if before != nil && before.MoistureStanding == ledger.Computed {
		a.MoistureWB, a.MoistureStanding = before.MoistureWB, before.MoistureStanding
		return nil
	}
	b, err := d.Balance(ctx, place)
	if err != nil {
		return err
	}
	if b.Dry <= 0 || b.Water < 0 {
		return refuse("use.moisture.unknown", string(place))
	}
	wb := ledger.Fraction(float64(b.Water) / float64(b.Dry+b.Water))
	a.MoistureWB, a.MoistureStanding = &wb, ledger.Computed
	return nil
}

// moistenDraws is moisten for each place that something is taken from.
func (d *desk) moistenDraws(ctx context.Context, from, before []ledger.Draw) error {
	for i := range from {
		var was *ledger.Amount
		if i < len(before) && before[i].Place == from[i].Place {
			was = &before[i].Amount
		}
		if err := d.moisten(ctx, &from[i].Amount, was, from[i].Place); err != nil {
			return err
		}
	}
	return nil
}

// overdrawn notes each place that by the book holds less than nothing.
func (d *desk) overdrawn(ctx context.Context, places ...ledger.Account) error {
	seen := map[ledger.Account]bool{}
	for _, p := range places {
		if seen[p] {
			continue
		}
		seen[p] = true
		b, err := d.Balance(ctx, p)
		if err != nil {
			return err
		}
		if b.Overdrawn() {
			d.note(say("overdrawn", "place", string(p)).with("less_kg", kg(-b.Dry-b.Water)))
		}
	}
	return nil
}

func places(from []ledger.Draw) []ledger.Account {
	out := make([]ledger.Account, len(from))
	for i, d := range from {
		out[i] = d.Place
	}
	return out
}

func total(from []ledger.Draw) (g ledger.Grams) {
	for _, d := range from {
		g += d.Amount.FreshKg
	}
	return g
}
