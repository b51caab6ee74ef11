package sqlstore

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
)

// Series is one quantity at one place, read again and again.
type Series struct {
	ID       int64
	Code     string // as in KILN1-AIR-ON
	Quantity string // as in temperature
	Unit     string // the unit that its values are stored in
}

// Reading is one value of a series.
type Reading struct {
	Series int64
	AtMS   int64 // since 1970, UTC
	Value  float64
}

// Appended is what came of a batch of readings.
type Appended struct {
	Stored   int
	Repeated int    // had a value at that moment already; the first one stands
	Seals    []Seal // closed by this batch
}

// PutSeries names a series, or changes what it is called. Its unit stays: to
// read in another unit is to begin another series.
func (db *DB) PutSeries(ctx context.Context, house string, s Series) error {
	return db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `
			insert into series (house, id, code, quantity, unit) values ($1, $2, $3, $4, $5)
			on conflict (house, id) do update set code = excluded.code, quantity = excluded.quantity`,
			house, s.ID, s.Code, s.Quantity, s.Unit)
		return err
	})
}

// BeginSeries gives every series that is wanted, by its code: the one that is
// there, or a new one under the next number. Two programs that begin series at
// once get numbers of their own.
func (db *DB) BeginSeries(ctx context.Context, house string, want []Series) (map[string]Series, error) {
	named := map[string]Series{}
	err := db.write(ctx, func(tx *sql.Tx) error {
		clear(named)
		// Takes hold of the house, so that nobody else gives the same number.
		if _, err := tx.ExecContext(ctx, `update house set name = name where code = $1`, house); err != nil {
			return err
		}
		rows, err := tx.QueryContext(ctx, `select id, code, quantity, unit from series where house = $1 order by id`, house)
		if err != nil {
			return err
		}
		there, err := collect(db, rows, seriesPlaces)
		if err != nil {
			return err
		}
		last := int64(0)
		for _, s := range there {
			named[s.Code], last = s, max(last, s.ID)
		}
		for _, s := range want {
			if _, known := named[s.Code]; known {
				continue
			}
			last++
			s.ID = last
			if _, err := tx.ExecContext(ctx, `insert into series (house, id, code, quantity, unit) values ($1, $2, $3, $4, $5)`,
				house, s.ID, s.Code, s.Quantity, s.Unit); err != nil {
				return err
			}
			named[s.Code] = s
		}
		return nil
	})
	return named, err
}

func seriesPlaces(s *Series) []any { return []any{&s.ID, &s.Code, &s.Quantity, &s.Unit} }

// SeriesOf lists the series of a house by number.
func (db *DB) SeriesOf(ctx context.Context, house string) ([]Series, error) {
	rows, err := db.R.QueryContext(ctx, `select id, code, quantity, unit from series where house = $1 order by id`, house)
	if err != nil {
		return nil, db.explain(err)
	}
	return collect(db, rows, seriesPlaces)
}

// AppendReadings keeps a batch, all of it or none, and closes the seals that
// it fills. A batch sent twice changes nothing. Readings may come late and in
// any order: a seal knows its rows by number, so one that comes late falls
// under the next seal and leaves the closed ones as they are.
func (db *DB) AppendReadings(ctx context.Context, house string, rule SealRule, batch []Reading) (Appended, error) {
	bySeries := map[int64][]Reading{}
	for _, r := range batch {
		if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
			return Appended{}, &Fault{Code: "record.reading.number", Place: db.Place, Detail: fmt.Sprint(r.Series)}
		}
		r.Value += 0 // minus zero becomes zero: SQLite keeps no sign on it
		bySeries[r.Series] = append(bySeries[r.Series], r)
	}
	done := Appended{}
	err := db.transact(ctx, db.W, nil, func(conn *sql.Conn, tx *sql.Tx) error {
		load, err := db.loader(ctx, conn, tx, house)
		if err != nil {
			return err
		}
		for _, id := range slices.Sorted(maps.Keys(bySeries)) { // always in this order, so that two batches cannot lock each other out
			if err := db.checkSeries(ctx, tx, house, id); err != nil {
				return err
			}
			rows := slices.SortedStableFunc(slices.Values(bySeries[id]), func(a, b Reading) int { return cmp.Compare(a.AtMS, b.AtMS) })
			for part := range slices.Chunk(rows, max(1, rule.Rows)) {
				if err := appendPart(ctx, tx, house, rule, load, part, &done); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err != nil {
		return Appended{}, err
	}
	done.Repeated = len(batch) - done.Stored
	return done, nil
}

// checkSeries refuses a series nobody has named, and holds the one that is
// there until the transaction ends.
func (db *DB) checkSeries(ctx context.Context, tx *sql.Tx, house string, id int64) error {
	var n int64
	err := tx.QueryRowContext(ctx, `update series set id = id where house = $1 and id = $2 returning id`, house, id).Scan(&n)
	if errors.Is(err, sql.ErrNoRows) {
		return &Fault{Code: "record.reading.series", Place: db.Place, Detail: fmt.Sprint(id)}
	}
	return err
}

// appendPart loads rows of one series under its open seal, no more than a seal
// holds, and closes that seal when it is full.
func appendPart(ctx context.Context, tx *sql.Tx, house string, rule SealRule, load loader, rows []Reading, done *Appended) error {
	open, err := openSeal(ctx, tx, house, rows[0].Series)
	if err != nil {
		return err
	}
	added, err := load(ctx, open.Number, rows)
	if err != nil || added.count == 0 {
		return err
	}
	done.Stored += added.count
	open.take(added)
	if rule.full(open) {
		if open, err = closeSeal(ctx, tx, house, open); err != nil {
			return err
		}
		done.Seals = append(done.Seals, open)
	}
	return saveSeal(ctx, tx, house, open)
}
