package ledger_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"awn/ledger"
)

// book is a record in memory for tests: facts, and the flows in force.
type book struct {
	t     testing.TB
	head  ledger.Head
	facts []ledger.Fact
	flows []ledger.Flow
	drawn map[ledger.Account]ledger.Drawn
	held  map[ledger.Account]ledger.Mass
	n     int64
}

func newBook(t testing.TB) *book {
	return &book{t: t, drawn: map[ledger.Account]ledger.Drawn{}, held: map[ledger.Account]ledger.Mass{}}
}

// id makes a UUIDv7 that is different for each number.
func id(n int64) string {
	var r [10]byte
	for i := range 8 {
		r[2+i] = byte(n >> (8 * i))
	}
	return ledger.ID(1_790_000_000_000+n, r)
}

// draft puts a body into an envelope.
func draft(n int64, b ledger.Body) ledger.Draft {
	kind, schema, text := ledger.NewBody(b)
	return ledger.Draft{
		ID: id(n), Kind: kind, Schema: schema, At: 1_790_000_000_000 + n, OffsetMin: 120,
		Entered: 1_790_000_000_500 + n, Who: "p1", Body: text,
	}
}

// enter adds a fact.
func (b *book) enter(body ledger.Body) {
	b.t.Helper()
	b.n++
	d := draft(b.n, body)
	if err := d.Check(); err != nil {
		b.t.Fatalf("%s %s: %v", d.Kind, d.Body, err)
	}
	f := d.Fact("hallow", b.head)
	e, err := ledger.Of(f)
	if err != nil {
		b.t.Fatal(err)
	}
	b.head = ledger.Head{Seq: f.Seq, Hash: f.Hash}
	b.facts = append(b.facts, f)
	b.flows = append(b.flows, e.Flows...)
	for _, touch := range e.Touches {
		if touch.Drawn != "" {
			b.drawn[ledger.Account(touch.Ref)] = touch.Drawn
		}
	}
	for _, p := range ledger.Postings(e.Flows) {
		m := b.held[p.Account]
		m.Dry += p.Dry
		m.Water += p.Water
		b.held[p.Account] = m
	}
}

func (b *book) layered(a ledger.Account) bool { return b.drawn[a] == ledger.DrawnLayers }

// Touching gives the flows of accounts.
func (b *book) Touching(_ context.Context, accounts []ledger.Account) (out []ledger.Flow, err error) {
	for _, f := range b.flows {
		if slices.Contains(accounts, f.From) || slices.Contains(accounts, f.To) {
			out = append(out, f)
		}
	}
	return out, nil
}

// Bringing gives the flows that brought a lot in.
func (b *book) Bringing(_ context.Context, lot ledger.Code) (out []ledger.Flow, err error) {
	for _, f := range b.flows {
		if f.Lot == lot {
			out = append(out, f)
		}
	}
	return out, nil
}

func (b *book) fresh(a ledger.Account) ledger.Grams { return b.held[a].Dry + b.held[a].Water }

func tonnes(t float64) ledger.Grams { return ledger.Grams(math.Round(t * 1e6)) }

// weighed is an amount at a moisture, in tonnes.
func weighed(t, wb float64) ledger.Amount {
	w := ledger.Fraction(wb)
	return ledger.Amount{FreshKg: tonnes(t), Standing: ledger.Weighed, MoistureWB: &w}
}

// share finds an origin among shares.
func share(t testing.TB, shares []ledger.Share, o ledger.Origin) ledger.Share {
	t.Helper()
	for _, s := range shares {
		if s.Origin == o {
			return s
		}
	}
	t.Fatalf("%s is not among %v", o, shares)
	return ledger.Share{}
}
