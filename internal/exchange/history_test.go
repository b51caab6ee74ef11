package exchange

import (
	"context"
	"path/filepath"
	"testing"

	"awn/internal/sqlstore"
	"awn/ledger"
)

const house = "hallow-sound"

// history is a record with one fact or more of every kind that is told or
// leaves figures, one of them struck. A store keeps it, so that what is
// exported can be held against what the store made of the same facts.
func history(t testing.TB) (Facts, ledger.Reader) {
	t.Helper()
	db, err := sqlstore.Open(context.Background(), filepath.Join(t.TempDir(), "x.awn"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	amount := func(kg ledger.Grams, wb ledger.Fraction) ledger.Amount {
		return ledger.Amount{FreshKg: kg * 1000, Standing: ledger.Weighed, UFreshKg: 20_000, MoistureWB: &wb}
	}
	from := func(a ledger.Account, kg ledger.Grams, wb ledger.Fraction) []ledger.Draw {
		return []ledger.Draw{{Place: a, Amount: amount(kg, wb)}}
	}
	u := 0.0012
	bodies := []ledger.Body{
		&ledger.Receipt{Lot: "L26-0001", To: "silo:N1", Amount: amount(28_460, 0.141), Grower: "Skerry & Daughters", Ticket: "10441", Variety: "=Sandpiper"},
		&ledger.Receipt{Lot: "L26-0002", To: "silo:N1", Amount: amount(99_999, 0.141)},
		&ledger.Sampling{Sample: "B26-0001", Of: "delivery:L26-0001", How: "probe"},
		&ledger.Analysis{Of: "delivery:L26-0001", Sample: "B26-0001", Lab: "Hallow Sound", Results: []ledger.Figure{
			{Quantity: "moisture_wb", Value: 0.142, U: &u}, {Quantity: "don_mg_kg_asis", Value: 0.05, Less: true}}},
		&ledger.Hold{Of: "silo:N1", Reason: "toxin not known"},
		&ledger.Release{Of: "silo:N1", Reason: "toxin below the limit"},
		&ledger.Move{From: "silo:N1", To: "silo:N2", Amount: amount(8_000, 0.141)},
		&ledger.Decision{Of: "silo:N2", Drawn: ledger.DrawnLayers, Decision: "drawn in layers"},
		&ledger.Casting{Piece: "P26-0001", From: from("silo:N1", 20_000, 0.141)},
		&ledger.Watering{Piece: "P26-0001", Water: &ledger.Water{WaterKg: 12_000_000, Standing: ledger.Measured}},
		&ledger.Dressing{Piece: "P26-0001", Malt: []ledger.Malted{{Lot: "M26-0001", To: "malt:A", Amount: amount(16_500, 0.045)}},
			Beside: []ledger.Beside{{What: ledger.Culms, To: "byproduct:CULMS", Amount: amount(600, 0.06)}}},
		&ledger.Blending{Lot: "M26-0002", To: "malt:B", From: from("malt:A", 10_000, 0.045)},
		&ledger.Shipping{Shipment: "S26-0001", Receiver: "Tern Brewery", From: from("malt:B", 9_000, 0.045)},
		&ledger.Return{Shipment: "S26-0001", To: "malt:B", Amount: amount(1_000, 0.045), Reason: "silo full"},
		&ledger.Adjustment{Place: "malt:A", Counted: amount(6_400, 0.045), BookDryKg: 6_207_500, BookWater: 292_500, Against: ledger.AgainstUnexplained, Month: "2026-11", Reason: "counted"},
		&ledger.Strike{Fact: ledger.FactID(idOf(2)), Reason: "weighed twice"},
	}
	err = db.Write(context.Background(), house, func(w ledger.Writer) error {
		for i, b := range bodies {
			kind, schema, text := ledger.NewBody(b)
			at := 1_790_000_000_000 + int64(i)*3_600_000
			if _, err := w.Append(context.Background(), ledger.Draft{ID: idOf(i + 1), Kind: kind, Schema: schema, At: at, OffsetMin: 60, Entered: at + 500, Who: "anna", Body: text}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	r := db.Read(house)
	return r.Facts(context.Background(), ledger.Query{To: int64(len(bodies))}), r
}

func idOf(i int) string { return ledger.ID(1_790_000_000_000, [10]byte{9: byte(i)}) }
