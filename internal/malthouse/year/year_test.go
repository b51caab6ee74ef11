package year_test

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"path/filepath"
	"testing"
	"time"

	"awn/internal/malthouse"
	"awn/internal/malthouse/year"
	"awn/internal/office"
	"awn/ledger"
)

var (
	start   = time.Date(2025, 8, 1, 0, 0, 0, 0, time.UTC)
	manager = malthouse.Actor{ID: "runa", Role: malthouse.Manager}
)

// made is a year in a new file, signed with a key that is always the same.
func made(t testing.TB, seed uint64) *office.Office {
	t.Helper()
	o, err := office.Open(t.Context(), filepath.Join(t.TempDir(), "year.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { o.DB.Close() })
	if err := o.Set(t.Context(), malthouse.SettingZone, "UTC"); err != nil {
		t.Fatal(err)
	}
	o.Key = func() (ed25519.PrivateKey, error) { return ed25519.NewKeyFromSeed(bytes.Repeat([]byte{7}, 32)), nil }
	if err := year.Make(t.Context(), o.House, seed, start); err != nil {
		t.Fatal(err)
	}
	return o
}

func head(t testing.TB, o *office.Office) ledger.Head {
	t.Helper()
	h, err := o.DB.VerifyChain(t.Context(), o.Code)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// TestYearObeysEveryRule holds the year against what it says of itself, and
// against the record: the chain, what was worked out, and the grams.
func TestYearObeysEveryRule(t *testing.T) {
	ctx := t.Context()
	o := made(t, 1)
	if first, again := head(t, o), head(t, made(t, 1)); first != again {
		t.Errorf("the same seed ends at entry %d and at entry %d", first.Seq, again.Seq)
	}
	if differed, err := o.DB.Rebuild(ctx, o.Code); err != nil || differed != nil {
		t.Errorf("rebuilt: %v differ, %v", differed, err)
	}
	if err := o.DB.Check(ctx); err != nil {
		t.Error(err)
	}
	r := o.Store.Read(o.Code)
	var dry, water ledger.Grams
	underway := 0
	balances, err := r.Balances(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range balances {
		dry, water = dry+b.Dry, water+b.Water
		if b.Overdrawn() {
			t.Errorf("%s holds %d and %d g", b.Account, b.Dry, b.Water)
		}
		if b.Account.Kind() == ledger.Piece && (b.Dry != 0 || b.Water != 0) {
			underway++
		}
	}
	if dry != 0 || water != 0 {
		t.Errorf("all accounts hold %d g of dry matter and %d g of water", dry, water)
	}
	if underway != year.Underway {
		t.Errorf("%d pieces hold something, want %d", underway, year.Underway)
	}
	counted(t, r)
	b, err := o.Balance(ctx, manager, start, start.AddDate(1, 1, 0))
	if err != nil || b.OffG != 0 {
		t.Errorf("the balance of the year is off by %d g, %v", b.OffG, err)
	}
	recalled(t, o)
}

// counted counts what the year promises.
func counted(t *testing.T, r ledger.Reader) {
	t.Helper()
	kinds := map[ledger.Kind]int{}
	growers, buyers := map[string]bool{}, map[string]bool{}
	for f, err := range r.Facts(context.Background(), ledger.Query{}) {
		if err != nil {
			t.Fatal(err)
		}
		kinds[f.Kind]++
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			t.Fatal(err)
		}
		switch b := body.(type) {
		case *ledger.Receipt:
			growers[b.Grower+b.Grown] = true
		case *ledger.Shipping:
			buyers[b.Receiver] = true
		}
	}
	for kind, want := range map[ledger.Kind]int{
		ledger.Received: year.Deliveries, ledger.Cast: year.Pieces + 1 + year.Underway, ledger.Blended: 2, ledger.Returned: 1, ledger.Struck: 1, ledger.Held: 2,
	} {
		if kinds[kind] != want {
			t.Errorf("%d facts are %s, want %d", kinds[kind], kind, want)
		}
	}
	if len(growers) != year.Fields || len(buyers) != year.Brewers {
		t.Errorf("%d fields, %d brewers", len(growers), len(buyers))
	}
	if kinds[ledger.Certified] <= kinds[ledger.Shipped] {
		t.Errorf("%d certificates for %d loads and one given anew", kinds[ledger.Certified], kinds[ledger.Shipped])
	}
	t.Logf("%v", kinds)
}

// recalled looks whether the load worth a recall went anywhere.
func recalled(t *testing.T, o *office.Office) {
	t.Helper()
	r := o.Store.Read(o.Code)
	var bad ledger.Ref
	for f, err := range r.Facts(t.Context(), ledger.Query{Kind: ledger.Held}) {
		if err != nil {
			t.Fatal(err)
		}
		body, _ := ledger.Decode(f.Kind, f.Schema, f.Body)
		if h := body.(*ledger.Hold); ledger.Account(h.Of).Kind() == ledger.DeliveryKind {
			bad = h.Of
		}
	}
	x, err := o.Trace(t.Context(), manager, bad, ledger.AsEntered)
	if err != nil {
		t.Fatal(err)
	}
	var sum float64
	loads := 0
	for _, h := range x.Holders {
		sum += h.DryKg
		if h.Place.Kind() == ledger.Shipment && h.Contact != "" {
			loads++
		}
	}
	if loads == 0 {
		t.Errorf("nobody holds any of %s", bad)
	}
	if d := sum/x.InKg - 1; d > 1e-9 || d < -1e-9 { // rounding of sums of float64
		t.Errorf("%.3f kg found of %.3f kg", sum, x.InKg)
	}
	t.Logf("%s: %d loads", bad, loads)
}
