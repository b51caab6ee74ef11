package sqlstore

import (
	"context"
	"database/sql"
	"iter"
	"math"
)

// Point is what a stretch of a series comes to.
type Point struct {
	AtMS              int64 // its first reading
	Count             int
	Least, Mean, Most float64
}

// Readings returns a span of a series, both ends included, in at most n
// points. Where there are more readings than that, each point stands for an
// equal stretch of time and keeps its least and most, so that no peak is lost.
// What was rolled up takes part with the stretches it was rolled into.
func (db *DB) Readings(ctx context.Context, house string, series, fromMS, toMS int64, n int) (points []Point, err error) {
	if n < 1 || toMS < fromMS {
		return nil, nil
	}
	err = db.look(ctx, func(tx *sql.Tx) error {
		var count int
		err := tx.QueryRowContext(ctx, `select count(*) from (`+both+`) as b`, house, series, fromMS, toMS).Scan(&count)
		if err != nil {
			return err
		}
		width := int64(1)
		if count > n {
			width = (toMS-fromMS)/int64(n) + 1
		}
		rows, err := tx.QueryContext(ctx, `
			select min(at), sum(count), min(least), sum(total) / sum(count), max(most) from (`+both+`) as b
			group by (at - $5) / $6 order by 1`, house, series, fromMS, toMS, fromMS, width)
		if err != nil {
			return err
		}
		points, err = collect(db, rows, func(p *Point) []any { return []any{&p.AtMS, &p.Count, &p.Least, &p.Mean, &p.Most} })
		return err
	})
	return points, err
}

// both is a span of a series, raw and rolled up, in rows of one form.
const both = `
	select at, 1 as count, value as least, value as most, value as total from reading
	where house = $1 and series = $2 and at between $3 and $4
	union all
	select at, count, least, most, total from rolled
	where house = $1 and series = $2 and at between $3 and $4`

// RollUp replaces the readings of a series under seals that end before a
// moment by least, most and mean of stretches of everyMS, and returns how many
// readings went. Only seals that are on record go, and whole; the seals stay.
func (db *DB) RollUp(ctx context.Context, house string, series, beforeMS, everyMS int64) (gone int64, err error) {
	if everyMS < 1 {
		return 0, nil
	}
	err = db.write(ctx, func(tx *sql.Tx) error {
		gone = 0
		if err := db.checkSeries(ctx, tx, house, series); err != nil {
			return err
		}
		seals, err := db.seals(ctx, tx, `
			where house = $1 and series = $2 and closed = 1 and rolled = 0 and fact <> '' and to_at < $3 order by number`,
			house, series, beforeMS)
		for _, s := range seals {
			n, err := rollSeal(ctx, tx, house, s, everyMS)
			if err != nil {
				return err
			}
			gone += n
		}
		return err
	})
	return gone, err
}

func rollSeal(ctx context.Context, tx *sql.Tx, house string, s Seal, everyMS int64) (gone int64, err error) {
	_, err = tx.ExecContext(ctx, `
		insert into rolled (house, series, at, every_ms, count, least, most, total)
		select house, series, at - at % $1, $1, count(*), min(value), max(value), sum(value) from reading
		where house = $2 and series = $3 and at between $4 and $5 and seal = $6
		group by house, series, at - at % $1
		on conflict (house, series, at, every_ms) do update set
			count = rolled.count + excluded.count, total = rolled.total + excluded.total,
			least = case when excluded.least < rolled.least then excluded.least else rolled.least end,
			most = case when excluded.most > rolled.most then excluded.most else rolled.most end`,
		everyMS, house, s.Series, s.FromMS, s.ToMS, s.Number)
	if err != nil {
		return 0, err
	}
	result, err := tx.ExecContext(ctx, `
		delete from reading where house = $1 and series = $2 and at between $3 and $4 and seal = $5`,
		house, s.Series, s.FromMS, s.ToMS, s.Number)
	if err != nil {
		return 0, err
	}
	if gone, err = result.RowsAffected(); err != nil {
		return 0, err
	}
	_, err = tx.ExecContext(ctx, `
		update seal set rolled = 1 where house = $1 and series = $2 and number = $3`, house, s.Series, s.Number)
	return gone, err
}

// EveryReading goes through a series as it was read, from the first. What was
// rolled up is not in it.
func (db *DB) EveryReading(ctx context.Context, house string, series int64) iter.Seq2[Reading, error] {
	const atOnce = 10_000
	return func(yield func(Reading, error) bool) {
		for after := int64(math.MinInt64); ; {
			rows, err := db.R.QueryContext(ctx, `
				select at, value from reading where house = $1 and series = $2 and at > $3 order by at limit $4`, house, series, after, atOnce)
			if err != nil {
				yield(Reading{}, db.explain(err))
				return
			}
			some, err := collect(db, rows, func(r *Reading) []any { r.Series = series; return []any{&r.AtMS, &r.Value} })
			if err != nil {
				yield(Reading{}, err)
				return
			}
			for _, r := range some {
				if !yield(r, nil) {
					return
				}
			}
			if len(some) < atOnce {
				return
			}
			after = some[len(some)-1].AtMS
		}
	}
}
