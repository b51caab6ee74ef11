package sqlstore

import (
	"context"
	"database/sql"
	"errors"

	"awn/ledger"
)

// apply writes what follows from a fact. It is the only way into the tables
// that are worked out from facts, when a fact comes in and when they are made
// again.
func (w *writer) apply(ctx context.Context, f ledger.Fact) error {
	e, err := ledger.Of(f)
	if err != nil {
		return err
	}
	if e.Strikes != "" {
		if err := w.strike(ctx, f, string(e.Strikes), &e); err != nil {
			return err
		}
	}
	if err := w.flow(ctx, e.Flows); err != nil {
		return err
	}
	if err := w.turn(ctx, 1, e.Flows); err != nil {
		return err
	}
	for _, p := range ledger.Postings(e.Flows) {
		if err := w.post(ctx, f.Seq, p); err != nil {
			return err
		}
	}
	for _, t := range e.Touches {
		if err := w.touch(ctx, f.Seq, t); err != nil {
			return err
		}
	}
	if err := w.results(ctx, f.Seq, e.Results); err != nil {
		return err
	}
	return w.rests(ctx, f.Seq, e)
}

func (w *writer) flow(ctx context.Context, flows []ledger.Flow) error {
	for _, f := range flows {
		_, err := w.q.ExecContext(ctx, `
			insert into flow (house, seq, n, at, source, target, lot, dry_g, water_g, u_dry_g, u_water_g, standing, alike, undo, struck)
			values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)`,
			w.house, f.Seq, f.N, f.At, string(f.From), string(f.To), string(f.Lot), int64(f.Dry), int64(f.Water),
			int64(f.UDry), int64(f.UWater), string(f.Standing), bit(f.Alike), bit(f.Undo), bit(f.Undo))
		if err != nil {
			return err
		}
	}
	return nil
}

func (w *writer) post(ctx context.Context, seq int64, p ledger.Posting) error {
	_, err := w.q.ExecContext(ctx, `
		insert into balance (house, account, dry_g, water_g, seq) values ($1, $2, $3, $4, $5)
		on conflict (house, account) do update set
			dry_g = balance.dry_g + excluded.dry_g, water_g = balance.water_g + excluded.water_g, seq = excluded.seq`,
		w.house, string(p.Account), int64(p.Dry), int64(p.Water), seq)
	return err
}

func (w *writer) touch(ctx context.Context, seq int64, t ledger.Touch) error {
	_, err := w.q.ExecContext(ctx, `
		insert into touch (house, thing, seq, state, leave, drawn, struck) values ($1, $2, $3, $4, $5, $6, 0)`,
		w.house, string(t.Ref), seq, string(t.State), string(t.Leave), string(t.Drawn))
	if err != nil {
		return err
	}
	_, err = w.q.ExecContext(ctx, `
		insert into subject (house, thing, kind, state, leave, drawn, opened, seq) values ($1, $2, $3, $4, $5, $6, $7, $7)
		on conflict (house, thing) do update set
			state = case when excluded.state = '' then subject.state else excluded.state end,
			leave = case when excluded.leave = '' then subject.leave else excluded.leave end,
			drawn = case when excluded.drawn = '' then subject.drawn else excluded.drawn end,
			seq = excluded.seq`,
		w.house, string(t.Ref), ledger.Account(t.Ref).Kind(), string(t.State), string(t.Leave), string(t.Drawn), seq)
	return err
}

func (w *writer) results(ctx context.Context, seq int64, results []ledger.Result) error {
	for n, r := range results {
		u := sql.NullFloat64{}
		if r.U != nil {
			u = sql.NullFloat64{Float64: *r.U, Valid: true}
		}
		_, err := w.q.ExecContext(ctx, `
			insert into result (house, seq, n, thing, sample, quantity, value, u, less, method, lab, struck)
			values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, 0)`,
			w.house, seq, n, string(r.Of), string(r.Sample), string(r.Quantity), r.Value, u, bit(r.Less), r.Method, r.Lab)
		if err != nil {
			return err
		}
	}
	return nil
}

func (w *writer) rests(ctx context.Context, seq int64, e ledger.Effect) error {
	for _, id := range e.Rests {
		if _, err := w.q.ExecContext(ctx, `insert into rest (house, seq, id) values ($1, $2, $3) on conflict do nothing`,
			w.house, seq, string(id)); err != nil {
			return err
		}
	}
	if e.Accepts == "" {
		return nil
	}
	_, err := w.q.ExecContext(ctx, `insert into accepted (house, id, seq) values ($1, $2, $3)`, w.house, string(e.Accepts), seq)
	return err
}

// strike marks what followed from a fact, and adds to the effect of the strike
// the flows turned round.
func (w *writer) strike(ctx context.Context, f ledger.Fact, id string, e *ledger.Effect) error {
	struck, found, err := w.Fact(ctx, id)
	switch {
	case err != nil:
		return err
	case !found || struck.Seq >= f.Seq:
		return ledger.Refused("record.strike.unknown", "fact", id)
	case struck.Kind == ledger.Struck:
		return ledger.Refused("record.strike.strike", "fact", id)
	}
	var by int64
	err = w.q.QueryRowContext(ctx, `select seq from strike where house = $1 and id = $2`, w.house, id).Scan(&by)
	if err == nil {
		return ledger.Refused("record.strike.twice", "fact", id)
	}
	if !errors.Is(err, sql.ErrNoRows) {
		return err
	}
	was, err := ledger.Of(struck)
	if err != nil {
		return err
	}
	if err := w.turn(ctx, -1, was.Flows); err != nil {
		return err
	}
	e.Flows = ledger.Undone(was.Flows, f)
	for _, q := range []string{
		`update flow set struck = 1 where house = $1 and seq = $2`,
		`update touch set struck = 1 where house = $1 and seq = $2`,
		`update result set struck = 1 where house = $1 and seq = $2`,
	} {
		if _, err := w.q.ExecContext(ctx, q, w.house, struck.Seq); err != nil {
			return err
		}
	}
	if _, err := w.q.ExecContext(ctx, `insert into strike (house, id, seq) values ($1, $2, $3)`, w.house, id, f.Seq); err != nil {
		return err
	}
	for _, t := range was.Touches {
		if err := w.revert(ctx, t.Ref); err != nil {
			return err
		}
		e.Touches = append(e.Touches, ledger.Touch{Ref: t.Ref})
	}
	return nil
}

// revert sets a thing to what the facts in force make of it.
func (w *writer) revert(ctx context.Context, thing ledger.Ref) error {
	rows, err := w.q.QueryContext(ctx, `
		select state, leave, drawn from touch where house = $1 and thing = $2 and struck = 0 order by seq`, w.house, string(thing))
	if err != nil {
		return err
	}
	all, err := collect(w.db, rows, func(t *ledger.Touch) []any { return []any{&t.State, &t.Leave, &t.Drawn} })
	if err != nil {
		return err
	}
	var now ledger.Touch
	for _, t := range all {
		if t.State != "" {
			now.State = t.State
		}
		if t.Leave != "" {
			now.Leave = t.Leave
		}
		if t.Drawn != "" {
			now.Drawn = t.Drawn
		}
	}
	_, err = w.q.ExecContext(ctx, `update subject set state = $1, leave = $2, drawn = $3 where house = $4 and thing = $5`,
		string(now.State), string(now.Leave), string(now.Drawn), w.house, string(thing))
	return err
}

// bit is how both databases keep yes and no.
func bit(b bool) int64 {
	if b {
		return 1
	}
	return 0
}
