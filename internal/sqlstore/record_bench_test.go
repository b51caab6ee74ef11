package sqlstore_test

import (
	"fmt"
	"testing"

	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

// BenchmarkAppend is one fact a transaction, beside one bare row a transaction
// on the same database.
func BenchmarkAppend(b *testing.B) {
	for name, address := range map[string]func(testing.TB) string{"sqlite": storetest.SQLiteURL, "postgres": storetest.PostgresURL} {
		db := storetest.Open(b, address(b))
		n := int64(0)
		b.Run(name+"/fact", func(b *testing.B) {
			for b.Loop() {
				n++
				if _, err := storetest.Enter(b.Context(), db, storetest.Draft(n, storetest.Receipt("L26-0001", 1))); err != nil {
					b.Fatal(err)
				}
			}
		})
		if _, err := db.W.Exec(`create table bare (id bigint primary key, body text not null)`); err != nil {
			b.Fatal(err)
		}
		_, _, body := ledger.NewBody(storetest.Receipt("L26-0001", 1))
		b.Run(name+"/bare", func(b *testing.B) {
			for b.Loop() {
				n++
				if _, err := db.W.Exec(`insert into bare (id, body) values ($1, $2)`, n, string(body)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// lots fills a record with 2 000 deliveries, 20 to a bin, each bin cast into
// two pieces, five pieces to a malt store that is never empty, and loads out of
// it. It returns the last load.
func lots(tb testing.TB, db *sqlstore.DB) ledger.Account {
	n := int64(0)
	var drafts []ledger.Draft
	add := func(body ledger.Body) {
		n++
		drafts = append(drafts, storetest.Draft(n, body))
	}
	code := func(letter string, i int) ledger.Code { return ledger.Code(fmt.Sprintf("%s26-%04d", letter, i)) }
	var last ledger.Account
	for bin := range 100 {
		place := ledger.In(ledger.Silo, code("B", bin%10))
		for i := range 20 {
			add(&ledger.Receipt{Lot: code("L", bin*20+i), To: place, Amount: storetest.Weighed(25_000)})
		}
		for half := range 2 {
			piece := code("P", bin*2+half)
			add(&ledger.Casting{Piece: piece, From: []ledger.Draw{{Place: place, Amount: storetest.Weighed(250_000)}}})
			store := ledger.In(ledger.MaltStore, code("M", bin%4))
			add(&ledger.Dressing{Piece: piece, Malt: []ledger.Malted{{Lot: piece, To: store, Amount: storetest.Weighed(250_000)}}})
			for load := range 9 {
				shipment := code("S", (bin*2+half)*9+load)
				last = ledger.In(ledger.Shipment, shipment)
				add(&ledger.Shipping{Shipment: shipment, Receiver: "x", From: []ledger.Draw{{Place: store, Amount: storetest.Weighed(27_000)}}})
			}
		}
	}
	if _, err := storetest.Enter(tb.Context(), db, drafts...); err != nil {
		tb.Fatal(err)
	}
	return last
}

// BenchmarkTrace asks what a load is made of, and who has some of the first
// delivery, among 2 000 deliveries, 200 pieces and 1 800 loads.
func BenchmarkTrace(b *testing.B) {
	mixed := func(ledger.Account) bool { return false }
	for name, address := range map[string]func(testing.TB) string{"sqlite": storetest.SQLiteURL, "postgres": storetest.PostgresURL} {
		db := storetest.Open(b, address(b))
		load := lots(b, db)
		b.Run(name+"/behind", func(b *testing.B) {
			var found, steps int
			for b.Loop() {
				all, err := ledger.Behind(b.Context(), db.Read("hallow"), ledger.AsEntered, load)
				if err != nil {
					b.Fatal(err)
				}
				t := ledger.NewTrace(mixed)
				t.Replay(all)
				found, steps = len(t.Into(load)), len(all)
			}
			b.ReportMetric(float64(found), "origins")
			b.ReportMetric(float64(steps), "flows")
		})
		b.Run(name+"/ahead", func(b *testing.B) {
			var found int
			for b.Loop() {
				all, err := ledger.Ahead(b.Context(), db.Read("hallow"), ledger.AsEntered, "L26-0000")
				if err != nil {
					b.Fatal(err)
				}
				t := ledger.NewTrace(mixed)
				t.Replay(all)
				found = len(t.Holders("delivery:L26-0000"))
			}
			b.ReportMetric(float64(found), "holders")
		})
	}
}
