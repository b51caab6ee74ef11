package sqlstore_test

import (
	"testing"

	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

// TestTurnoverOfAFormerRecord: a record from before days were added up gets
// its table from the migration, and that is what its facts say.
func TestTurnoverOfAFormerRecord(t *testing.T) {
	storetest.EachURL(t, func(t *testing.T, address string) {
		db := storetest.Open(t, address)
		wb := ledger.Fraction(0.12)
		moist := storetest.Receipt("L26-0002", 25_000)
		moist.Amount.MoistureWB = &wb
		bodies := []ledger.Body{
			storetest.Receipt("L26-0001", 25_000), moist, storetest.Receipt("L26-0003", 10),
			&ledger.Move{From: "silo:B7", To: "silo:B8", Amount: storetest.Weighed(9_000)},
			&ledger.Casting{Piece: "P26-0001", From: []ledger.Draw{{Place: "silo:B7", Amount: storetest.Weighed(5_000)}}},
			&ledger.Dressing{Piece: "P26-0001", Malt: []ledger.Malted{{Lot: "M26-0001", To: "malt:M1", Amount: storetest.Weighed(4_000)}}},
			&ledger.Shipping{Shipment: "S26-0001", Receiver: "x", From: []ledger.Draw{{Place: "malt:M1", Amount: storetest.Weighed(100)}}},
			&ledger.Strike{Fact: ledger.FactID(storetest.Draft(3, moist).ID), Reason: "another house's"},
		}
		for i, b := range bodies {
			d := storetest.Draft(int64(i+1), b)
			d.At += int64(i) * 40_000_000 // so that there are several days
			if _, err := storetest.Enter(t.Context(), db, d); err != nil {
				t.Fatal(err)
			}
		}
		for _, q := range []string{`drop table turnover`, `drop index flow_at`, `drop table reader`, `delete from migration where version_id >= 5`} {
			if _, err := db.W.Exec(q); err != nil {
				t.Fatal(err)
			}
		}
		db.Close()
		db, err := sqlstore.Open(t.Context(), address)
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		turnover, err := db.Read("hallow").Turnover(t.Context(), 0, 1<<50)
		if err != nil || len(turnover) < 5 {
			t.Errorf("turnover %v: %v", turnover, err)
		}
		if differed, err := db.Rebuild(t.Context(), "hallow"); err != nil || len(differed) > 0 {
			t.Errorf("%v differ from what the facts say: %v", differed, err)
		}
	})
}
