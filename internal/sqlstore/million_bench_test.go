package sqlstore_test

import (
	"fmt"
	"testing"
	"time"

	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

// What a record of many years holds.
const (
	millionFacts    = 1_000_000
	millionReadings = 5_000_000
	somePieces      = 9000 // with some hundred analyses each
)

// grown fills a record up: 2 000 lots and their loads, analyses of pieces until
// there are a million facts, and five million readings. It returns a load from
// the middle and how long filling took.
func grown(b *testing.B, db *sqlstore.DB) (load ledger.Account, facts, readings time.Duration) {
	began := time.Now()
	load = lots(b, db)
	head, err := db.Read("hallow").Head(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	const batch = 1000
	drafts := make([]ledger.Draft, 0, batch)
	for n := head.Seq + 1; n <= millionFacts; n++ {
		piece := ledger.Code(fmt.Sprintf("P26-%04d", n%somePieces))
		drafts = append(drafts, storetest.Draft(n, &ledger.Analysis{
			Of:      ledger.In(ledger.Piece, piece).Ref(),
			Results: []ledger.Figure{{Quantity: "moisture_wb", Value: 0.04 + float64(n%100)/1e4, Method: "EBC 4.2"}},
		}))
		if len(drafts) == batch || n == millionFacts {
			if _, err := storetest.Enter(b.Context(), db, drafts...); err != nil {
				b.Fatal(err)
			}
			drafts = drafts[:0]
		}
	}
	facts = time.Since(began)
	began = time.Now()
	storetest.Furnish(b, db)
	rows := storetest.Rows(1, millionReadings)
	for i := 0; i < len(rows); i += batch {
		if _, err := db.AppendReadings(b.Context(), "hallow", sqlstore.UsualSeal, rows[i:i+batch]); err != nil {
			b.Fatal(err)
		}
	}
	return load, facts, time.Since(began)
}

// BenchmarkMillion asks a file with a million facts and five million readings
// what is asked every day. It takes minutes to fill and runs in the second
// tier alone.
func BenchmarkMillion(b *testing.B) {
	url := storetest.SQLiteURL(b)
	db := storetest.Open(b, url)
	load, facts, readings := grown(b, db)
	b.Logf("filled: facts in %.0f s, %.0f a second; readings in %.0f s, %.0f a second", facts.Seconds(), millionFacts/facts.Seconds(),
		readings.Seconds(), millionReadings/readings.Seconds())
	record := db.Read("hallow")
	o, err := office.Open(b.Context(), url, false)
	if err != nil {
		b.Fatal(err)
	}
	defer o.DB.Close()
	anna := malthouse.Actor{ID: "anna", Role: malthouse.Manager}
	day := time.UnixMilli(storetest.Draft(1, storetest.Receipt("L26-9999", 1)).At)
	entered := int64(0)
	for name, ask := range map[string]func() error{
		"trace of a load both ways": func() error {
			all, err := ledger.Behind(b.Context(), record, ledger.AsEntered, load)
			if err != nil {
				return err
			}
			t := ledger.NewTrace(func(ledger.Account) bool { return false })
			t.Replay(all)
			if len(t.Into(load)) == 0 {
				return fmt.Errorf("%s is made of nothing", load)
			}
			_, err = ledger.Ahead(b.Context(), record, ledger.AsEntered, "L26-1999")
			return err
		},
		"what is held": func() error { _, err := record.Balances(b.Context()); return err },
		"one piece":    func() error { _, err := o.Piece(b.Context(), anna, "P26-0007"); return err },
		"its readings, an hour at a second": func() error {
			first := storetest.Rows(1, 1)[0].AtMS
			_, err := db.Readings(b.Context(), "hallow", 1, first, first+60*60*1000, 1000)
			return err
		},
		"a load traced by its use": func() error { _, err := o.Trace(b.Context(), anna, load.Ref(), ledger.AsEntered); return err },
		"balance of a month": func() error {
			_, err := o.Balance(b.Context(), anna, day.AddDate(0, -1, 0), day.AddDate(0, 1, 0))
			return err
		},
		"stock":          func() error { _, err := o.Stock(b.Context(), anna); return err },
		"what comes due": func() error { _, err := o.Due(b.Context(), anna, 0); return err },
		"one fact entered": func() error {
			entered++
			_, err := storetest.Enter(b.Context(), db, storetest.Draft(millionFacts+entered, storetest.Receipt(fmt.Sprintf("L27-%06d", entered), 1)))
			return err
		},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := ask(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	began := time.Now()
	if _, err := db.VerifyChain(b.Context(), "hallow"); err != nil {
		b.Fatal(err)
	}
	b.Logf("the chain gone through in %.0f s", time.Since(began).Seconds())
	began = time.Now()
	if differed, err := db.Rebuild(b.Context(), "hallow"); err != nil || len(differed) > 0 {
		b.Fatalf("rebuilt, %v differ: %v", differed, err)
	}
	b.Logf("all that follows from the facts made again in %.0f s", time.Since(began).Seconds())
}
