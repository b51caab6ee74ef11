package malthouse_test

import (
	"context"
	"crypto/ed25519"
	"errors"
	"maps"
	"os"
	"slices"
	"testing"
	"time"

	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/paper"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

func TestMain(m *testing.M) { os.Exit(storetest.Main(m)) }

// opened is a house on an empty record, its clock standing.
func opened(t testing.TB, address string) *office.Office {
	t.Helper()
	o, err := office.Open(t.Context(), address, true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { o.DB.Close() })
	if err := o.Set(t.Context(), malthouse.SettingZone, "UTC"); err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 11, 2, 8, 0, 0, 0, time.UTC)
	o.Key = func() (ed25519.PrivateKey, error) { return ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize)), nil }
	o.Clock = func() time.Time { return now }
	return o
}

// kilos is a weighed amount at a moisture.
func kilos(kg int64, wb ledger.Fraction) ledger.Amount {
	return ledger.Amount{FreshKg: ledger.Grams(kg * 1000), Standing: ledger.Weighed, MoistureWB: &wb}
}

// matrix says who may do what, once more by hand: a letter for each of floor,
// laboratory, intake, planning, sales, auditor; a manager may do everything.
var matrix = map[malthouse.Use]string{
	"receive": "..i...", "move": "f.ip..", "count": "f.ip..", "intend": "...p..", "start": "f..p..", "act": "f.....", "read": "fli...", "book": "f.....",
	"sample": "fli.s.", "analyse": ".li...", "release": ".l....", "hold": "flips.", "blend": "f..p..", "ship": "f...s.", "ship-held": "......",
	"return": "..i.s.", "strike": ".lip..", "decide": ".l.p..", "certify": ".l..s.", "withdraw": ".l....", "import": ".li...", "log": "fli...", "close": "...p..", "key": "......", "people": "......", "look": "flipsa",
}

// uses takes each use once, with what it needs in its place or not: the right
// is asked for first.
func uses(h *malthouse.House) map[malthouse.Use]func(context.Context, malthouse.Actor) error {
	e := malthouse.Entry{}
	lot, b7 := ledger.To(ledger.LotKind, "M26-0001"), ledger.Account("silo:B7")
	first := func(_ any, err error) error { return err }
	return map[malthouse.Use]func(context.Context, malthouse.Actor) error{
		"receive": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Receive(ctx, a, e, &ledger.Receipt{To: b7, Amount: kilos(20_000, 0.12)}))
		},
		"move": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Move(ctx, a, e, &ledger.Move{From: b7, To: "silo:B8", Amount: kilos(1000, 0.12)}))
		},
		"count": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Count(ctx, a, e, malthouse.Count{Place: b7, Counted: kilos(1000, 0.12), Reason: "count"}))
		},
		"intend": func(ctx context.Context, a malthouse.Actor) error {
			plan := aPlan()
			return first(h.Intend(ctx, a, e, &ledger.Intention{Begin: 1}, &plan))
		},
		"start": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Start(ctx, a, e, &ledger.Casting{From: []ledger.Draw{{Place: b7, Amount: kilos(1000, 0.12)}}}, nil))
		},
		"act": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Act(ctx, a, e, malthouse.Deed{Piece: "P26-0001", Act: malthouse.Turn}))
		},
		"read": func(ctx context.Context, a malthouse.Actor) error { return first(h.Read(ctx, a, e, results(b7.Ref()))) },
		"analyse": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Analyse(ctx, a, e, results(b7.Ref())))
		},
		"book": func(ctx context.Context, a malthouse.Actor) error {
			_, _, err := h.Book(ctx, a, e, &ledger.Dressing{Piece: "P26-0001", Malt: []ledger.Malted{{To: "malt:M1", Amount: kilos(800, 0.05)}}})
			return err
		},
		"sample": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Sample(ctx, a, e, &ledger.Sampling{Sample: "K1", Of: b7.Ref()}))
		},
		"release": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Release(ctx, a, e, &ledger.Release{Of: lot, Reason: "good"}))
		},
		"hold": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Hold(ctx, a, e, &ledger.Hold{Of: lot, Reason: "bad"}))
		},
		"blend": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Blend(ctx, a, e, &ledger.Blending{To: "malt:M2", From: []ledger.Draw{{Place: "malt:M1", Amount: kilos(10, 0.05)}}}))
		},
		"ship": func(ctx context.Context, a malthouse.Actor) error { return first(h.Ship(ctx, a, e, load(), "")) },
		"ship-held": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Ship(ctx, a, e, load(), "it has gone"))
		},
		"return": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Return(ctx, a, e, &ledger.Return{Shipment: "S26-0001", To: "malt:M9", Amount: kilos(5, 0.05), Reason: "wet"}))
		},
		"strike": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Strike(ctx, a, e, &ledger.Strike{Fact: "01931b5e-5b00-7000-8000-000000000001", Reason: "wrong"}))
		},
		"decide": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Decide(ctx, a, e, &ledger.Decision{Of: b7.Ref(), Decision: "drawn", Drawn: ledger.DrawnLayers}))
		},
		"certify": func(ctx context.Context, a malthouse.Actor) error {
			_, _, err := h.Certify(ctx, a, e, malthouse.Issue{Shipment: "S26-0001"})
			return err
		},
		"withdraw": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Withdraw(ctx, a, e, &ledger.Withdrawal{Certificate: "C26-0001", Reason: "wrong"}))
		},
		"log": func(ctx context.Context, a malthouse.Actor) error { return first(h.Log(ctx, a, nil, true)) },
		"close": func(ctx context.Context, a malthouse.Actor) error {
			_, _, err := h.Rest(ctx, a)
			return err
		},
		"import": func(ctx context.Context, a malthouse.Actor) error {
			_, err := h.Bring(ctx, a, exchange.File{}, paper.ImportMap{Rows: "tickets"}, true)
			if a.Role == malthouse.Laboratory {
				_, err = h.Bring(ctx, a, exchange.File{}, paper.ImportMap{Rows: "results"}, true)
			}
			return err
		},
		"key": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.TakeKey(ctx, a, make(ed25519.PublicKey, ed25519.PublicKeySize), "sold"))
		},
		"people": func(ctx context.Context, a malthouse.Actor) error {
			return first(h.Admit(ctx, a, e, malthouse.Person{ID: "x"}))
		},
		"look": func(ctx context.Context, a malthouse.Actor) error { return first(h.Stock(ctx, a)) },
	}
}

func results(of ledger.Ref) *ledger.Analysis {
	return &ledger.Analysis{Of: of, Results: []ledger.Figure{{Quantity: "moisture_wb", Value: 0.12, Method: "oven"}}}
}

func load() *ledger.Shipping {
	return &ledger.Shipping{Receiver: "brewer", From: []ledger.Draw{{Place: "malt:M1", Amount: kilos(10, 0.05)}}}
}

func lacks(err error) bool {
	r, ok := errors.AsType[*malthouse.Refusal](err)
	return ok && r.Code == "use.right.missing"
}

// TestRights takes every use in every role, and looks that who may not has
// changed nothing.
func TestRights(t *testing.T) {
	ctx := t.Context()
	o := opened(t, storetest.SQLiteURL(t))
	order := []malthouse.Role{malthouse.Floor, malthouse.Laboratory, malthouse.Intake, malthouse.Planning, malthouse.Sales, malthouse.Auditor}
	all := uses(o.House)
	if got, want := slices.Sorted(maps.Keys(all)), slices.Sorted(maps.Keys(matrix)); !slices.Equal(got, want) {
		t.Fatalf("uses %v, matrix %v", got, want)
	}
	for _, use := range slices.Sorted(maps.Keys(all)) {
		for i, role := range order {
			a := malthouse.Actor{ID: string(role), Role: role}
			before, err := o.Store.Read(o.Code).Head(ctx)
			if err != nil {
				t.Fatal(err)
			}
			may := matrix[use][i] != '.'
			if err := all[use](ctx, a); lacks(err) == may {
				t.Errorf("%s as %s: %v", use, role, err)
			}
			if after, _ := o.Store.Read(o.Code).Head(ctx); !may && after != before {
				t.Errorf("%s as %s has changed the record", use, role)
			}
		}
		if err := all[use](ctx, malthouse.Actor{ID: "m", Role: malthouse.Manager}); lacks(err) {
			t.Errorf("%s as manager: %v", use, err)
		}
		if err := all[use](ctx, malthouse.Actor{ID: "n", Role: ""}); !lacks(err) {
			t.Errorf("%s without a role: %v", use, err)
		}
	}
}
