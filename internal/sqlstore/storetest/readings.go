package storetest

import (
	"fmt"
	"math"
	"testing"

	"awn/internal/sqlstore"
)

// wide seals by rows alone.
var wide = sqlstore.SealRule{Rows: 1000, SpanMS: math.MaxInt64}

func appended(t *testing.T, db *sqlstore.DB, rule sqlstore.SealRule, rows []sqlstore.Reading) sqlstore.Appended {
	t.Helper()
	done, err := db.AppendReadings(t.Context(), house, rule, rows)
	ok(t, err)
	return done
}

func readings(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	rows := append(Rows(1, 2500), Rows(2, 10)...)
	done := appended(t, db, wide, rows)
	same(t, "stored", done.Stored, 2510)
	same(t, "seals", len(done.Seals), 2)
	open, err := db.CloseSeals(ctx, house)
	ok(t, err)
	same(t, "closed by hand", len(open), 2)
	unlogged, err := db.UnloggedSeals(ctx, house)
	ok(t, err)
	same(t, "without a fact", len(unlogged), 4)
	for _, s := range unlogged {
		rolled, err := db.VerifySeal(ctx, house, s)
		ok(t, err)
		same(t, "rolled up", rolled, false)
		ok(t, db.SealLogged(ctx, house, s, "f"))
	}
	unlogged, err = db.UnloggedSeals(ctx, house)
	ok(t, err)
	same(t, "without a fact, after", len(unlogged), 0)
	ok(t, db.Check(ctx))

	points, err := db.Readings(ctx, house, 1, 1000, 9000, 100)
	ok(t, err)
	same(t, "points of nine readings", len(points), 9)
	same(t, "first", points[0], sqlstore.Point{AtMS: 1000, Count: 1, Least: rows[1].Value, Mean: rows[1].Value, Most: rows[1].Value})
	thin, err := db.Readings(ctx, house, 1, 0, 2_499_000, 50)
	ok(t, err)
	if len(thin) > 50 || len(thin) < 45 {
		t.Errorf("%d points, asked for 50", len(thin))
	}
	count, most, want := 0, math.Inf(-1), math.Inf(-1)
	for _, p := range thin {
		count += p.Count
		most = max(most, p.Most)
	}
	for _, r := range rows[:2500] {
		want = max(want, r.Value)
	}
	same(t, "readings under the points", count, 2500)
	same(t, "the peak", most, want)
}

func lateReadings(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	rows := Rows(1, 60)
	minute := appended(t, db, sqlstore.UsualSeal, append(rows[:20:20], rows[30:]...))
	same(t, "seals of 59 s", len(minute.Seals), 0)
	again := appended(t, db, sqlstore.UsualSeal, rows[:20])
	same(t, "stored again", again.Stored, 0)
	same(t, "repeated", again.Repeated, 20)
	more := appended(t, db, sqlstore.UsualSeal, []sqlstore.Reading{{Series: 1, AtMS: 60_000, Value: 1}, {Series: 1, AtMS: 60_000, Value: 2}})
	same(t, "seals of 60 s", len(more.Seals), 1)
	same(t, "the same moment twice", more.Repeated, 1)
	late := appended(t, db, sqlstore.UsualSeal, rows[20:30])
	same(t, "late ones stored", late.Stored, 10)
	_, err := db.VerifySeal(ctx, house, more.Seals[0])
	ok(t, err)
	closed, err := db.CloseSeals(ctx, house)
	ok(t, err)
	same(t, "their seal", closed[0].Number, int64(2))
	same(t, "its rows", closed[0].Count, 10)
	ok(t, db.Check(ctx))
}

func refusedReadings(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	for _, c := range []struct {
		reading sqlstore.Reading
		code    string
	}{
		{sqlstore.Reading{Series: 1, Value: math.NaN()}, "record.reading.number"},
		{sqlstore.Reading{Series: 1, Value: math.Inf(1)}, "record.reading.number"},
		{sqlstore.Reading{Series: 7, Value: 1}, "record.reading.series"},
	} {
		_, err := db.AppendReadings(ctx, house, wide, append(Rows(1, 5), c.reading))
		code(t, err, c.code)
	}
	points, err := db.Readings(ctx, house, 1, 0, 1e6, 10)
	ok(t, err)
	same(t, "left of refused batches", len(points), 0)
	appended(t, db, wide, []sqlstore.Reading{{Series: 1, AtMS: -5, Value: math.Copysign(0, -1)}})
	_, err = db.CloseSeals(ctx, house)
	ok(t, err)
	ok(t, db.Check(ctx))
}

func brokenSeal(t *testing.T, db *sqlstore.DB) {
	Furnish(t, db)
	for _, change := range []string{
		`update reading set value = value + 0.001 where at = 5000`,
		`update reading set at = at + 1 where at = 7000`,
		`delete from reading where at = 9000`,
	} {
		_, err := db.W.ExecContext(t.Context(), `delete from reading`)
		ok(t, err)
		_, err = db.W.ExecContext(t.Context(), `delete from seal`)
		ok(t, err)
		seal := appended(t, db, wide, Rows(1, 1000)).Seals[0]
		_, err = db.VerifySeal(t.Context(), house, seal)
		ok(t, err)
		_, err = db.W.ExecContext(t.Context(), change)
		ok(t, err)
		_, err = db.VerifySeal(t.Context(), house, seal)
		code(t, err, "record.seal.broken")
	}
}

func rolledUp(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	seals := appended(t, db, wide, Rows(1, 2500)).Seals
	before, err := db.Readings(ctx, house, 1, 0, 2_499_000, 1)
	ok(t, err)
	gone, err := db.RollUp(ctx, house, 1, math.MaxInt64, 60_000)
	ok(t, err)
	same(t, "gone before the record has the seals", gone, int64(0))
	for _, s := range seals {
		ok(t, db.SealLogged(ctx, house, s, "f"))
	}
	gone, err = db.RollUp(ctx, house, 1, math.MaxInt64, 60_000)
	ok(t, err)
	same(t, "gone", gone, int64(2000))
	rolled, err := db.VerifySeal(ctx, house, seals[0])
	ok(t, err)
	same(t, "rolled up", rolled, true)
	after, err := db.Readings(ctx, house, 1, 0, 2_499_000, 1)
	ok(t, err)
	same(t, "count", after[0].Count, before[0].Count)
	same(t, "least", after[0].Least, before[0].Least)
	same(t, "most", after[0].Most, before[0].Most)
	// Sums in another order differ by rounding: 2500 terms of 1e-16 each.
	if math.Abs(after[0].Mean-before[0].Mean) > 1e-12*before[0].Mean {
		t.Errorf("mean %v, was %v", after[0].Mean, before[0].Mean)
	}
	ok(t, db.Check(ctx))
}

// seriesTogether begins series from many hands at once: each code has one
// number, and no number has two codes.
func seriesTogether(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	const hands = 8
	done := make(chan error)
	for hand := range hands {
		go func() {
			_, err := db.BeginSeries(ctx, house, []sqlstore.Series{
				{Code: "SHARED", Quantity: "temperature", Unit: "°C"},
				{Code: fmt.Sprint("OWN-", hand), Quantity: "temperature", Unit: "°C"},
				{Code: "AIR-ON", Quantity: "pressure", Unit: "Pa"},
			})
			done <- err
		}()
	}
	for range hands {
		ok(t, <-done)
	}
	all, err := db.SeriesOf(ctx, house)
	ok(t, err)
	same(t, "series", len(all), 2+1+hands)
	for i, s := range all {
		same(t, "number", s.ID, int64(i+1))
	}
	same(t, "one that was there", all[0], sqlstore.Series{ID: 1, Code: "AIR-ON", Quantity: "temperature", Unit: "°C"})
}
