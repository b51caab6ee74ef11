package storetest

import (
	"context"
	"errors"
	"slices"
	"sync"
	"testing"

	"awn/internal/sqlstore"
	"awn/ledger"
)

const maltings = "hallow"

// Draft puts a body into an envelope whose id is made of a number.
func Draft(n int64, b ledger.Body) ledger.Draft {
	var r [10]byte
	for i := range 8 {
		r[2+i] = byte(n >> (8 * i))
	}
	const began = 1_790_000_000_000
	kind, schema, text := ledger.NewBody(b)
	return ledger.Draft{ID: ledger.ID(began+n, r), Kind: kind, Schema: schema, At: began + n, Entered: began + n, Who: "p1", Body: text}
}

// Weighed is a weighed amount at 12 % moisture.
func Weighed(kg int64) ledger.Amount {
	wb := ledger.Fraction(0.12)
	return ledger.Amount{FreshKg: ledger.Grams(kg * 1000), Standing: ledger.Weighed, MoistureWB: &wb}
}

// Receipt is a load into silo B7.
func Receipt(lot string, kg int64) *ledger.Receipt {
	return &ledger.Receipt{Lot: ledger.Code(lot), To: "silo:B7", Amount: Weighed(kg)}
}

// Enter appends drafts in one transaction.
func Enter(ctx context.Context, db *sqlstore.DB, drafts ...ledger.Draft) (facts []ledger.Fact, err error) {
	err = db.Write(ctx, maltings, func(w ledger.Writer) error {
		facts, err = w.Append(ctx, drafts...)
		return err
	})
	return facts, err
}

// Sound holds a record against itself: the chain, and what was worked out.
func Sound(t testing.TB, db *sqlstore.DB) ledger.Head {
	t.Helper()
	head, err := db.VerifyChain(t.Context(), maltings)
	ok(t, err)
	differed, err := db.Rebuild(t.Context(), maltings)
	ok(t, err)
	same(t, "tables that differ", differed, []string(nil))
	balances, err := db.Read(maltings).Balances(t.Context())
	ok(t, err)
	var dry, water ledger.Grams
	for _, b := range balances {
		dry, water = dry+b.Dry, water+b.Water
	}
	same(t, "sum of dry matter and water", []ledger.Grams{dry, water}, []ledger.Grams{0, 0})
	return head
}

func refused(t testing.TB, err error, code string) {
	t.Helper()
	faults, is := errors.AsType[ledger.Faults](err)
	if !is || !slices.ContainsFunc(faults, func(f ledger.Fault) bool { return f.Code == code }) {
		t.Errorf("%v, want %s", err, code)
	}
}

func recordAppends(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	first := Draft(1, Receipt("L26-0001", 28100))
	facts, err := Enter(ctx, db, first, Draft(2, &ledger.Move{From: "silo:B7", To: "silo:B8", Amount: Weighed(30000)}))
	ok(t, err)
	same(t, "places", []int64{facts[0].Seq, facts[1].Seq}, []int64{1, 2})

	later := first
	later.Entered += 1000
	again, err := Enter(ctx, db, later)
	ok(t, err)
	same(t, "the fact sent twice", again[0], facts[0])
	other := first
	other.Body = Draft(1, Receipt("L26-0001", 28101)).Body
	_, err = Enter(ctx, db, other)
	refused(t, err, "record.id.other")
	_, err = Enter(ctx, db, Draft(3, Receipt("L26-0003", 1000)), Draft(4, &ledger.Move{From: "silo:B7", To: "silo:B7", Amount: Weighed(1)}))
	refused(t, err, "record.place.same")

	b, err := db.Read(maltings).Balance(ctx, "silo:B7")
	ok(t, err)
	same(t, "what the bin holds", b, ledger.Balance{Account: "silo:B7", Dry: -1_672_000, Water: -228_000, Seq: 2})
	same(t, "more went out than was there", b.Overdrawn(), true)
	same(t, "the head", Sound(t, db), ledger.Head{Seq: 2, Hash: facts[1].Hash})
}

func recordCounters(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	take := func(fail error) (n int64) {
		err := db.Write(ctx, maltings, func(w ledger.Writer) (err error) {
			if n, err = w.Next(ctx, "P26"); err == nil {
				err = fail
			}
			return err
		})
		if !errors.Is(err, fail) {
			t.Error(err)
		}
		return n
	}
	failed := errors.New("the use failed")
	same(t, "numbers", []int64{take(nil), take(failed), take(nil), take(nil)}, []int64{1, 2, 2, 3})
}

func recordStrikes(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	right, wrong := Draft(1, Receipt("L26-0001", 1000)), Draft(2, Receipt("L26-0002", 2000))
	digest := ledger.Digest("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")
	hold := Draft(3, &ledger.Hold{Of: "silo:B7", Reason: "smell"})
	certificate := Draft(4, &ledger.Certificate{
		Certificate: "C26-0001", Of: []ledger.Ref{"silo:B7"}, Document: digest, Rests: []ledger.FactID{ledger.FactID(wrong.ID)},
	})
	_, err := Enter(ctx, db, right, wrong, hold, certificate)
	ok(t, err)
	strike := Draft(5, &ledger.Strike{Fact: ledger.FactID(wrong.ID), Reason: "another house's load"})
	_, err = Enter(ctx, db, strike, Draft(6, &ledger.Strike{Fact: ledger.FactID(hold.ID), Reason: "it was the next bin"}))
	ok(t, err)
	r := db.Read(maltings)
	b, err := r.Balance(ctx, "silo:B7")
	ok(t, err)
	same(t, "what the bin holds", []ledger.Grams{b.Dry, b.Water}, []ledger.Grams{880_000, 120_000})
	s, _, err := r.Subject(ctx, "silo:B7")
	ok(t, err)
	same(t, "whether the bin may be used", s.Leave, ledger.Leave(""))
	shaken, err := r.Shaken(ctx)
	ok(t, err)
	if len(shaken) != 1 || shaken[0].ID != certificate.ID {
		t.Errorf("%d facts rest on what was struck, want the certificate", len(shaken))
	}
	_, found, err := r.Fact(ctx, wrong.ID)
	ok(t, err)
	same(t, "the struck fact can be read", found, true)
	for code, id := range map[string]string{
		"record.strike.twice": wrong.ID, "record.strike.strike": strike.ID, "record.strike.unknown": Draft(99, Receipt("X", 1)).ID,
	} {
		_, err := Enter(ctx, db, Draft(7, &ledger.Strike{Fact: ledger.FactID(id), Reason: "no"}))
		refused(t, err, code)
	}
	stand := Draft(8, &ledger.Decision{Decision: "it stands", Accepts: ledger.FactID(certificate.ID)})
	_, err = Enter(ctx, db, stand)
	ok(t, err)
	shaken, err = r.Shaken(ctx)
	ok(t, err)
	same(t, "shaken facts once it is stood by", len(shaken), 0)
	Sound(t, db)
}

func recordAsks(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	u := 0.1
	const loads = 501 // more than one page of facts
	var drafts []ledger.Draft
	for n := range int64(loads) {
		drafts = append(drafts, Draft(n+1, Receipt("L26-0001", 1)))
	}
	_, err := Enter(ctx, db, drafts...)
	ok(t, err)
	_, err = Enter(ctx, db, Draft(5000, &ledger.Analysis{Of: "delivery:L26-0001", Results: []ledger.Figure{
		{Quantity: "don_mg_kg_asis", Value: 0.2, U: &u, Method: "strip"}, {Quantity: "protein_dm", Value: 0.11},
	}}))
	ok(t, err)
	r := db.Read(maltings)
	results, err := r.Results(ctx, "delivery:L26-0001")
	ok(t, err)
	same(t, "results", results, []ledger.Result{
		{Of: "delivery:L26-0001", Quantity: "don_mg_kg_asis", Value: 0.2, U: &u, Method: "strip"},
		{Of: "delivery:L26-0001", Quantity: "protein_dm", Value: 0.11},
	})
	count := func(q ledger.Query) (n int) {
		for _, err := range r.Facts(ctx, q) {
			ok(t, err)
			n++
		}
		return n
	}
	same(t, "facts", []int{
		count(ledger.Query{}), count(ledger.Query{From: 3, To: 5}), count(ledger.Query{Kind: ledger.Analysed}),
		count(ledger.Query{About: "delivery:L26-0001", Kind: ledger.Received}), count(ledger.Query{About: "silo:B7"}),
	}, []int{loads + 1, 3, 1, loads, loads})
	flows, err := r.Touching(ctx, []ledger.Account{"silo:B7"})
	ok(t, err)
	same(t, "flows of the bin", len(flows), loads)
}

func recordTampered(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	facts, err := Enter(ctx, db, Draft(1, Receipt("L26-0001", 1000)), Draft(2, Receipt("L26-0002", 2000)), Draft(3, Receipt("L26-0003", 3000)))
	ok(t, err)
	change := func(query string) {
		t.Helper()
		_, err := db.W.ExecContext(ctx, query)
		ok(t, err)
	}
	broken := func(code string, seq int64) {
		t.Helper()
		_, err := db.VerifyChain(ctx, maltings)
		b, is := errors.AsType[*ledger.Broken](err)
		if !is || b.Code != code || b.Seq != seq {
			t.Errorf("%v, want %s at %d", err, code, seq)
		}
	}
	change(`update fact set body = replace(body, '2000', '2001') where seq = 2`)
	broken("record.chain.hash", 2)
	change(`update fact set body = replace(body, '2001', '2000') where seq = 2`)
	_, err = db.VerifyChain(ctx, maltings, ledger.Head{Seq: 2, Hash: facts[1].Hash})
	ok(t, err)
	change(`update balance set dry_g = dry_g + 1 where account = 'silo:B7'`)
	differed, err := db.Rebuild(ctx, maltings)
	ok(t, err)
	same(t, "tables that differed", differed, []string{"balance"})
	Sound(t, db)
	change(`delete from fact where seq = 3`)
	broken("record.chain.head", 3)
	change(`delete from fact where seq = 1`)
	broken("record.chain.gap", 1)
}

// recordTogether: several programs write at once; each fact has its own place
// and none is lost.
func recordTogether(t *testing.T, address string) {
	const programs, each = 4, 25
	var wait sync.WaitGroup
	Open(t, address)
	for p := range programs {
		db := Open(t, address)
		wait.Go(func() {
			for n := range each {
				if _, err := Enter(t.Context(), db, Draft(int64(1+p*each+n), Receipt("L26-0001", 1))); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	same(t, "last place", Sound(t, Open(t, address)).Seq, int64(programs*each))
}
