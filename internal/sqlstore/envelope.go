package sqlstore

import (
	"context"
	"database/sql"
	"errors"
	"math"
	"slices"
	"sort"
	"sync"
)

// Envelopes gives a series as the least, the mean and the most of equal
// stretches of time. Of a long series it remembers stretches that hold a few
// readings each, so that a view of the whole costs no more than one of a part.
// What it remembers is only ever worked out from the rows, and worked out anew
// where later rows fall.
type Envelopes struct {
	db    *DB
	house string

	mutex sync.Mutex
	kept  map[int64]*swath
	used  []int64 // series kept, the one used last at the end
}

// NewEnvelopes remembers nothing yet.
func NewEnvelopes(db *DB, house string) *Envelopes {
	return &Envelopes{db: db, house: house, kept: map[int64]*swath{}}
}

// swath is a series in stretches of everyMS, up to a state of its seals.
type swath struct {
	everyMS int64
	state   sealState
	points  []Point // AtMS is where the stretch begins
}

// sealState moves with every reading that a series takes.
type sealState struct {
	number int64
	count  int64
}

// stretches are how long a remembered stretch may be, each a whole number of
// the one before. Stretches that are asked for are made of these where they
// can be.
var stretches = []int64{100, 1000, 10_000, 60_000, 600_000, 3_600_000, 21_600_000, 86_400_000}

// fewest is how many readings a remembered stretch holds at least, on average;
// mostKept how many stretches are remembered altogether.
const (
	fewest   = 4
	mostKept = 2_000_000
)

// Extent is from when to when a series was read, and how often.
type Extent struct {
	FirstMS, LastMS int64
	Count           int
	Last            float64 // the reading at LastMS
}

// Extent looks a series over; found is false of one without readings.
func (db *DB) Extent(ctx context.Context, house string, series int64) (x Extent, found bool, err error) {
	err = db.look(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `select coalesce(sum(count), 0) from seal where house = $1 and series = $2`, house, series).Scan(&x.Count)
		if err != nil || x.Count == 0 {
			return err
		}
		found = true
		err = tx.QueryRowContext(ctx, `
			select (select min(at) from (`+firsts+`) as a), (select max(at) from (`+lasts+`) as b)`, house, series).Scan(&x.FirstMS, &x.LastMS)
		if err != nil {
			return err
		}
		return tx.QueryRowContext(ctx, `
			select total / count from (`+both+`) as b order by at desc limit 1`, house, series, x.LastMS, x.LastMS).Scan(&x.Last)
	})
	return x, found, err
}

// firsts and lasts are when a series was first and last read, raw and rolled up.
const (
	firsts = `
	select min(at) as at from reading where house = $1 and series = $2
	union all select min(at) from rolled where house = $1 and series = $2`
	lasts = `
	select max(at) as at from reading where house = $1 and series = $2
	union all select max(at) from rolled where house = $1 and series = $2`
)

// Envelope returns the stretches of everyMS, counted from 1970, that begin from
// fromMS on and before toMS and hold a reading.
func (e *Envelopes) Envelope(ctx context.Context, series, fromMS, toMS, everyMS int64) ([]Point, error) {
	if everyMS < 1 || toMS <= fromMS {
		return nil, nil
	}
	fromMS, toMS = floorTo(fromMS+everyMS-1, everyMS), floorTo(toMS+everyMS-1, everyMS)
	var out []Point
	err := e.db.look(ctx, func(tx *sql.Tx) error {
		known, err := e.remembered(ctx, tx, series, everyMS, func(s *swath) { out = s.sum(fromMS, toMS, everyMS) })
		if err == nil && !known {
			out, err = e.rows(ctx, tx, series, fromMS, toMS, everyMS)
		}
		return err
	})
	return out, err
}

// remembered has a look at what is remembered of a series; known is false where
// stretches of everyMS are not made of that.
func (e *Envelopes) remembered(ctx context.Context, tx *sql.Tx, series, everyMS int64, look func(*swath)) (known bool, err error) {
	e.mutex.Lock()
	defer e.mutex.Unlock()
	s, err := e.fresh(ctx, tx, series, everyMS)
	if s == nil || err != nil {
		return false, err
	}
	look(s)
	return true, nil
}

func floorTo(at, every int64) int64 {
	rest := at % every
	if rest < 0 {
		rest += every
	}
	return at - rest
}

// fresh is what is remembered of a series, by the rows that are there now; nil
// where stretches of everyMS are not made of it.
func (e *Envelopes) fresh(ctx context.Context, tx *sql.Tx, series, everyMS int64) (*swath, error) {
	var now sealState
	err := tx.QueryRowContext(ctx, `select number, count from seal where house = $1 and series = $2 order by number desc limit 1`, e.house, series).
		Scan(&now.number, &now.count)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	s := e.kept[series]
	if s == nil {
		if s, err = e.begin(ctx, tx, series); err != nil {
			return nil, err
		}
		e.kept[series], e.used = s, append(e.used, series)
	}
	if everyMS < s.everyMS || everyMS%s.everyMS != 0 {
		return nil, nil
	}
	e.drop(series)
	e.kept[series], e.used = s, append(e.used, series)
	if s.state != now {
		if err := e.renew(ctx, tx, series, s); err != nil {
			e.drop(series)
			return nil, err
		}
		s.state = now
		e.forget()
	}
	return s, nil
}

// begin finds out how long the remembered stretches of a series are.
func (e *Envelopes) begin(ctx context.Context, tx *sql.Tx, series int64) (*swath, error) {
	var count, from, to int64
	err := tx.QueryRowContext(ctx, `select sum(count), min(from_at), max(to_at) from seal where house = $1 and series = $2`, e.house, series).Scan(&count, &from, &to)
	if err != nil {
		return nil, err
	}
	s := &swath{everyMS: stretches[len(stretches)-1]}
	for _, every := range stretches {
		if float64(every)*float64(count) >= fewest*float64(to-from) {
			s.everyMS = every
			break
		}
	}
	return s, nil
}

// renew works out anew the stretches that rows have fallen into since.
func (e *Envelopes) renew(ctx context.Context, tx *sql.Tx, series int64, s *swath) error {
	seals, err := e.db.seals(ctx, tx, `where house = $1 and series = $2 and number >= $3 order by from_at`, e.house, series, s.state.number)
	if err != nil {
		return err
	}
	var rolled int64 // what was rolled up stands at the beginning of its stretch
	if err := tx.QueryRowContext(ctx, `select coalesce(max(every_ms), 1) from rolled where house = $1 and series = $2`, e.house, series).Scan(&rolled); err != nil {
		return err
	}
	for i := 0; i < len(seals); {
		from, to := floorTo(floorTo(seals[i].FromMS, rolled), s.everyMS), seals[i].ToMS
		for i++; i < len(seals) && seals[i].FromMS <= to+s.everyMS+rolled; i++ {
			to = max(to, seals[i].ToMS)
		}
		to = floorTo(to, s.everyMS) + s.everyMS
		points, err := e.rows(ctx, tx, series, from, to, s.everyMS)
		if err != nil {
			return err
		}
		s.points = slices.Replace(s.points, s.from(from), s.from(to), points...)
	}
	return nil
}

// forget lets go of the series used longest ago, once too much is remembered.
func (e *Envelopes) forget() {
	sum := 0
	for _, s := range e.kept {
		sum += len(s.points)
	}
	for sum > mostKept && len(e.used) > 1 {
		sum -= len(e.kept[e.used[0]].points)
		e.drop(e.used[0])
	}
}

// drop forgets a series.
func (e *Envelopes) drop(series int64) {
	delete(e.kept, series)
	e.used = slices.DeleteFunc(e.used, func(x int64) bool { return x == series })
}

// from is the first stretch that begins at a moment or after it.
func (s *swath) from(atMS int64) int {
	return sort.Search(len(s.points), func(i int) bool { return s.points[i].AtMS >= atMS })
}

// sum puts remembered stretches together to longer ones.
func (s *swath) sum(fromMS, toMS, everyMS int64) []Point {
	var out []Point
	var total float64
	for _, p := range s.points[s.from(fromMS):s.from(toMS)] {
		at := floorTo(p.AtMS, everyMS)
		if n := len(out); n == 0 || out[n-1].AtMS != at {
			out, total = append(out, Point{AtMS: at, Least: math.Inf(1), Most: math.Inf(-1)}), 0
		}
		total += p.Mean * float64(p.Count)
		out[len(out)-1].take(p.Count, p.Least, p.Most, total)
	}
	return out
}

// rows goes through the rows themselves. Few series have been rolled up, and the
// others are read twice as fast.
func (e *Envelopes) rows(ctx context.Context, tx *sql.Tx, series, fromMS, toMS, everyMS int64) ([]Point, error) {
	var rolled bool
	err := tx.QueryRowContext(ctx, `
		select exists (select 1 from rolled where house = $1 and series = $2 and at between $3 and $4)`, e.house, series, fromMS, toMS-1).Scan(&rolled)
	if err != nil {
		return nil, err
	}
	query := `select at, value from reading where house = $1 and series = $2 and at between $3 and $4 order by at`
	if rolled {
		query = both + ` order by 1`
	}
	rows, err := tx.QueryContext(ctx, query, e.house, series, fromMS, toMS-1)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var (
		out                []Point
		at                 int64
		count              = int64(1)
		least, most, total float64
		sum                float64
	)
	places := []any{&at, &total}
	if rolled {
		places = []any{&at, &count, &least, &most, &total}
	}
	for rows.Next() {
		if err := rows.Scan(places...); err != nil {
			return nil, err
		}
		if !rolled {
			least, most = total, total
		}
		if at = floorTo(at, everyMS); len(out) == 0 || out[len(out)-1].AtMS != at {
			out, sum = append(out, Point{AtMS: at, Least: math.Inf(1), Most: math.Inf(-1)}), 0
		}
		sum += total
		out[len(out)-1].take(int(count), least, most, sum)
	}
	return out, rows.Err()
}

// take adds readings to a stretch; total is what all of them add up to.
func (p *Point) take(count int, least, most, total float64) {
	p.Count += count
	p.Least, p.Most = min(p.Least, least), max(p.Most, most)
	p.Mean = total / float64(p.Count)
}
