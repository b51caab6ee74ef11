package storetest

import (
	"math"
	"math/rand/v2"
	"testing"

	"awn/internal/sqlstore"
)

// envelopes holds stretches against a plain loop over the same rows, while rows
// come in, in order and late, thick and thin.
func envelopes(t *testing.T, db *sqlstore.DB) {
	ctx, r := t.Context(), rand.New(rand.NewPCG(1, 2))
	Furnish(t, db)
	e := sqlstore.NewEnvelopes(db, house)
	there := map[int64]float64{}
	everies := []int64{7, 100, 1000, 5000, 10_000, 30_000, 60_000, 600_000, 3_600_000}
	for round := range 12 {
		var batch []sqlstore.Reading
		at, step := r.Int64N(40_000_000), []int64{90, 1000, 61_000}[round%3]
		for range 50 + r.IntN(900) {
			at += 1 + r.Int64N(2*step)
			x := sqlstore.Reading{Series: 1, AtMS: at, Value: r.NormFloat64() * 40}
			if _, twice := there[at]; !twice {
				there[at] = x.Value
			}
			batch = append(batch, x)
		}
		appended(t, db, sqlstore.UsualSeal, batch)
		for range 6 {
			every := everies[r.IntN(len(everies))]
			from := r.Int64N(60_000_000) - 4_000_000
			to := from + every*r.Int64N(1500)
			got, err := e.Envelope(ctx, 1, from, to, every)
			ok(t, err)
			alike(t, got, plainly(there, from, to, every), from, to, every)
		}
	}
	x, found, err := db.Extent(ctx, house, 1)
	ok(t, err)
	first, last := int64(math.MaxInt64), int64(math.MinInt64)
	for at := range there {
		first, last = min(first, at), max(last, at)
	}
	same(t, "extent", x, sqlstore.Extent{FirstMS: first, LastMS: last, Count: len(there), Last: there[last]})
	same(t, "found", found, true)
	_, found, err = db.Extent(ctx, house, 2)
	ok(t, err)
	same(t, "found nothing", found, false)
	rolledEnvelopes(t, db, e, there, first, last)
}

// rolledEnvelopes holds stretches that were rolled up against the rows that
// went, by what was remembered before and by what is worked out anew.
func rolledEnvelopes(t *testing.T, db *sqlstore.DB, e *sqlstore.Envelopes, there map[int64]float64, first, last int64) {
	ctx := t.Context()
	_, err := db.CloseSeals(ctx, house)
	ok(t, err)
	seals, err := db.UnloggedSeals(ctx, house)
	ok(t, err)
	for _, s := range seals {
		ok(t, db.SealLogged(ctx, house, s, "f"))
	}
	_, err = db.RollUp(ctx, house, 1, math.MaxInt64, 600_000)
	ok(t, err)
	for _, one := range []*sqlstore.Envelopes{e, sqlstore.NewEnvelopes(db, house)} {
		for _, every := range []int64{600_000, 3_600_000} {
			got, err := one.Envelope(ctx, 1, first-every, last+every, every)
			ok(t, err)
			alike(t, got, plainly(there, first-every, last+every, every), first, last, every)
		}
	}
}

// plainly is what an envelope is, without any wit.
func plainly(there map[int64]float64, from, to, every int64) map[int64]sqlstore.Point {
	begins := func(at int64) int64 { return int64(math.Floor(float64(at)/float64(every))) * every }
	out := map[int64]sqlstore.Point{}
	for at, x := range there {
		b := begins(at)
		if b < from || b >= to {
			continue
		}
		p, known := out[b]
		if !known {
			p = sqlstore.Point{AtMS: b, Least: x, Most: x}
		}
		p.Count, p.Least, p.Most, p.Mean = p.Count+1, min(p.Least, x), max(p.Most, x), p.Mean+x
		out[b] = p
	}
	return out
}

func alike(t *testing.T, got []sqlstore.Point, want map[int64]sqlstore.Point, from, to, every int64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d stretches of %d ms from %d to %d, not %d", len(got), every, from, to, len(want))
	}
	before := int64(math.MinInt64)
	for _, p := range got {
		w := want[p.AtMS]
		if p.AtMS <= before || p.Count != w.Count || p.Least != w.Least || p.Most != w.Most || math.Abs(p.Mean-w.Mean/float64(w.Count)) > 1e-9 {
			t.Fatalf("%d ms from %d: %+v, not %+v", every, from, p, w)
		}
		before = p.AtMS
	}
}
