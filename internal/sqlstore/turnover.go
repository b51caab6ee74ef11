package sqlstore

import (
	"context"

	"awn/ledger"
)

// dayMS is a day of UTC, as the table of turnover counts them.
const dayMS = 24 * 60 * 60 * 1000

// turn adds flows to what moved on their days or, with sign -1, takes back
// what was struck. A flow that undoes another is no movement.
func (w *writer) turn(ctx context.Context, sign ledger.Grams, flows []ledger.Flow) error {
	for _, f := range flows {
		if f.Undo {
			continue
		}
		_, err := w.q.ExecContext(ctx, `
			insert into turnover (house, day, source, target, dry_g, water_g) values ($1, $2, $3, $4, $5, $6)
			on conflict (house, day, source, target) do update set
				dry_g = turnover.dry_g + excluded.dry_g, water_g = turnover.water_g + excluded.water_g`,
			w.house, f.At/dayMS, f.From.Kind(), f.To.Kind(), int64(sign*f.Dry), int64(sign*f.Water))
		if err != nil {
			return err
		}
	}
	return nil
}

// Turnover adds up a stretch of time: whole days from their table, and the hours
// at both ends from the flows themselves.
func (r reader) Turnover(ctx context.Context, from, to int64) ([]ledger.Turnover, error) {
	from = max(from, 0) // the record knows no earlier time
	first, last := (from+dayMS-1)/dayMS, to/dayMS
	if first >= last {
		return r.turnedHours(ctx, from, to)
	}
	all, err := r.turnedDays(ctx, first, last)
	if err != nil {
		return nil, err
	}
	for _, hours := range [][2]int64{{from, first * dayMS}, {last * dayMS, to}} {
		some, err := r.turnedHours(ctx, hours[0], hours[1])
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	return all, nil
}

func (r reader) turnedDays(ctx context.Context, first, last int64) ([]ledger.Turnover, error) {
	rows, err := r.q.QueryContext(ctx, `
		select source, target, cast(sum(dry_g) as bigint), cast(sum(water_g) as bigint) from turnover
		where house = $1 and day >= $2 and day < $3 group by source, target`, r.house, first, last)
	if err != nil {
		return nil, r.db.explain(err)
	}
	return collect(r.db, rows, func(m *ledger.Turnover) []any { return []any{&m.From, &m.To, &m.Dry, &m.Water} })
}

func (r reader) turnedHours(ctx context.Context, from, to int64) ([]ledger.Turnover, error) {
	if from >= to {
		return nil, nil
	}
	flows, err := r.flows(ctx, `select `+flowColumns+` from flow where house = $1 and at >= $2 and at < $3 and struck = 0`, r.house, from, to)
	out := make([]ledger.Turnover, len(flows))
	for i, f := range flows {
		out[i] = ledger.Turnover{From: f.From.Kind(), To: f.To.Kind(), Dry: f.Dry, Water: f.Water}
	}
	return out, err
}
