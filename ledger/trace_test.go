package ledger_test

import (
	"math"
	"testing"

	"awn/ledger"
)

func move(from, to ledger.Account, t float64) *ledger.Move {
	return &ledger.Move{From: from, To: to, Amount: weighed(t, 0)}
}

// A load that was entered after it had gone out again is unknown by the order
// of the record, and known by the times given.
func TestLateEntry(t *testing.T) {
	b := newBook(t)
	b.enter(move("silo:A", "shipment:S1", 5))
	b.enter(&ledger.Receipt{Lot: "L1", To: "silo:A", Amount: weighed(8, 0)})
	for i, f := range b.flows {
		b.flows[i].At = -f.Seq // the load came first
	}
	for order, want := range map[ledger.Order]ledger.Origin{ledger.AsEntered: "unknown:silo:A", ledger.AsHappened: "delivery:L1"} {
		steps, err := ledger.Behind(t.Context(), b, order, "shipment:S1", "silo:A")
		if err != nil {
			t.Fatal(err)
		}
		tr := ledger.NewTrace(b.layered)
		tr.Replay(steps)
		if s := share(t, tr.Into("shipment:S1"), want); s.Least != 5e6 || s.Most != 5e6 {
			t.Errorf("order %d: %+v", order, s)
		}
		if s := share(t, tr.At("silo:A"), "delivery:L1"); s.Mean != 3e6 { // 8 - 5 either way
			t.Errorf("order %d: the silo holds %+v", order, s)
		}
	}
}

// Rework: malt goes back into a piece, and a part of a load comes back; what
// is asked by piece names the piece it last came out of.
func TestReworkReturnAndPieces(t *testing.T) {
	b := newBook(t)
	b.enter(&ledger.Receipt{Lot: "L1", To: "silo:A", Amount: weighed(10, 0)})
	b.enter(&ledger.Casting{Piece: "P1", From: []ledger.Draw{{Place: "silo:A", Amount: weighed(10, 0)}}})
	b.enter(&ledger.Dressing{Piece: "P1", Malt: []ledger.Malted{{Lot: "M1", To: "malt:M1", Amount: weighed(8, 0)}},
		Beside: []ledger.Beside{{What: ledger.Culms, To: "byproduct:F", Amount: weighed(2, 0)}}})
	b.enter(&ledger.Shipping{Shipment: "S1", Receiver: "x", From: []ledger.Draw{{Place: "malt:M1", Amount: weighed(8, 0)}}})
	b.enter(&ledger.Return{Shipment: "S1", To: "malt:M2", Amount: weighed(3, 0), Reason: "damp"})
	b.enter(&ledger.Receipt{Lot: "L2", To: "silo:B", Amount: weighed(9, 0)})
	b.enter(&ledger.Casting{Piece: "P2", From: []ledger.Draw{{Place: "malt:M2", Amount: weighed(3, 0)}, {Place: "silo:B", Amount: weighed(9, 0)}}})
	b.enter(&ledger.Dressing{Piece: "P2", Malt: []ledger.Malted{{Lot: "M3", To: "malt:M3", Amount: weighed(12, 0)}}})
	b.enter(&ledger.Blending{Lot: "M4", To: "malt:M4", From: []ledger.Draw{{Place: "malt:M3", Amount: weighed(12, 0)}}})
	tr := replay(b)
	if s := share(t, tr.At("malt:M4"), "delivery:L1"); math.Abs(s.Mean/s.Of-3.0/12) > 1e-12 || math.Abs(s.Most-3e6) > 1e-2 {
		t.Errorf("%+v", s)
	}
	by := ledger.NewTrace(b.layered).ByPiece()
	by.Replay(ledger.Steps(b.flows))
	if s := by.At("malt:M4"); len(s) != 1 || s[0].Origin != "piece:P2" {
		t.Errorf("%+v", s)
	}
	if s := share(t, by.Into("piece:P2"), "piece:P1"); s.Mean != 3e6 {
		t.Errorf("%+v", s)
	}
}

// A scale with a standard uncertainty of 20 kg on each of two weighings: the
// gap of 40 kg is 1.414 of its own uncertainty, which chance makes in 15.7 %
// of cases (two-sided, any table of the normal distribution).
func TestDifferenceAndItsOdds(t *testing.T) {
	b := newBook(t)
	a := weighed(10, 0)
	a.UFreshKg = 20_000
	b.enter(&ledger.Receipt{Lot: "L1", To: "silo:A", Amount: a})
	counted := weighed(9.96, 0)
	counted.UFreshKg = 20_000
	held := b.held["silo:A"]
	b.enter(ledger.Settle(ledger.Balance{Account: "silo:A", Dry: held.Dry, Water: held.Water}, counted, "2026-11", "count"))
	d := ledger.DryMatter("silo:A", b.flows)
	if d.Gap != -40_000 || d.Through != 10_000_000 || math.Abs(d.Share()-0.004) > 1e-12 || d.Share() > ledger.AlarmShare {
		t.Errorf("%+v, share %v", d, d.Share())
	}
	if math.Abs(d.Chance()-0.1573) > 5e-5 { // four printed digits
		t.Errorf("chance %v, want 0.1573", d.Chance())
	}
	if b.held["silo:A"].Dry != 9_960_000 {
		t.Errorf("the book holds %+v", b.held["silo:A"])
	}
	if none := (ledger.Difference{}); !math.IsNaN(none.Share()) || !math.IsNaN(none.Chance()) {
		t.Error("nothing went through, and there is a share")
	}
}
