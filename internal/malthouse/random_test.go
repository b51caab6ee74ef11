package malthouse_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

// chaos takes random uses, some of them nonsense.
type chaos struct {
	*rand.Rand
	house *malthouse.House
	ids   []string
	n     int64
}

func (c *chaos) silo() ledger.Account { return ledger.Account(fmt.Sprintf("silo:B%d", c.IntN(3))) }
func (c *chaos) store() ledger.Account {
	return ledger.Account(fmt.Sprintf("malt:M%d", c.IntN(3)))
}
func (c *chaos) piece() ledger.Code { return ledger.Code(fmt.Sprintf("P26-%04d", 1+c.IntN(6))) }

// amount is a mass with a moisture or without, now and then nothing at all.
func (c *chaos) amount() ledger.Amount {
	a := kilos(int64(c.IntN(30_000)), ledger.Fraction(c.IntN(300))/1000)
	a.FreshKg += ledger.Grams(c.IntN(1000))
	if c.IntN(3) == 0 {
		a.MoistureWB = nil
	}
	return a
}

func (c *chaos) draws(from func() ledger.Account) (out []ledger.Draw) {
	for range 1 + c.IntN(2) {
		out = append(out, ledger.Draw{Place: from(), Amount: c.amount()})
	}
	return out
}

// entry has an id of its own, or one that was used before.
func (c *chaos) entry() malthouse.Entry {
	if len(c.ids) > 0 && c.IntN(12) == 0 {
		return malthouse.Entry{ID: c.ids[c.IntN(len(c.ids))]}
	}
	c.n++
	var r [10]byte
	r[8], r[9] = byte(c.n>>8), byte(c.n)
	id := ledger.ID(1_790_000_000_000+c.n, r)
	c.ids = append(c.ids, id)
	return malthouse.Entry{ID: id}
}

// use takes one.
func (c *chaos) use(ctx context.Context) error {
	boss := malthouse.Actor{ID: "boss", Role: malthouse.Manager}
	h, e := c.house, c.entry()
	var err error
	switch c.IntN(12) {
	case 0, 1, 2:
		_, err = h.Receive(ctx, boss, e, &ledger.Receipt{To: c.silo(), Amount: c.amount()})
	case 3:
		_, err = h.Move(ctx, boss, e, &ledger.Move{From: c.silo(), To: c.silo(), Amount: c.amount()})
	case 4:
		_, err = h.Count(ctx, boss, e, malthouse.Count{Place: c.silo(), Counted: c.amount(), Reason: "count"})
	case 5:
		_, err = h.Start(ctx, boss, e, &ledger.Casting{From: c.draws(c.silo)}, nil)
	case 6:
		acts := malthouse.Acts()
		w := &ledger.Water{WaterKg: ledger.Grams(c.IntN(1e7)), Standing: ledger.Measured}
		_, err = h.Act(ctx, boss, e, malthouse.Deed{Piece: c.piece(), Act: acts[c.IntN(len(acts))], Water: w})
	case 7:
		_, _, err = h.Book(ctx, boss, e, &ledger.Dressing{
			Piece: c.piece(), Malt: []ledger.Malted{{To: c.store(), Amount: c.amount()}},
			Beside: []ledger.Beside{{What: ledger.Culms, To: "byproduct:FEED", Amount: c.amount()}},
		})
	case 8:
		_, err = h.Blend(ctx, boss, e, &ledger.Blending{To: c.store(), From: c.draws(c.store)})
	case 9:
		_, err = h.Ship(ctx, boss, e, &ledger.Shipping{Receiver: "brewer", From: c.draws(c.store)}, "")
	case 10:
		_, err = h.Hold(ctx, boss, e, &ledger.Hold{Of: ledger.To(ledger.LotKind, ledger.Code(fmt.Sprintf("M26-%04d", 1+c.IntN(5)))), Reason: "so"})
	default:
		_, err = h.Strike(ctx, boss, e, &ledger.Strike{Fact: ledger.FactID(c.ids[c.IntN(len(c.ids))]), Reason: "wrong"})
	}
	return err
}

// TestRandomUsesKeepEveryGram takes random uses on both databases: the grams of
// all accounts always add up to nothing, what is refused changes nothing, and
// in the end the chain holds and what was worked out is what the facts say.
func TestRandomUsesKeepEveryGram(t *testing.T) {
	const steps = 150
	storetest.EachURL(t, func(t *testing.T, address string) {
		ctx := t.Context()
		o := opened(t, address)
		c := &chaos{Rand: rand.New(rand.NewPCG(4, 2)), house: o.House}
		refused := 0
		for range steps {
			before := stands(t, o)
			err := c.use(ctx)
			after := stands(t, o)
			switch {
			case err != nil && !malthouse.IsRefused(err):
				t.Fatal(err)
			case err != nil:
				refused++
				if after != before {
					t.Fatalf("%v has changed the record", err)
				}
			}
		}
		if refused == 0 || refused > steps*3/4 {
			t.Errorf("%d of %d uses were refused: too few or too many to tell anything", refused, steps)
		}
		t.Logf("%d of %d uses refused", refused, steps)
		if _, err := o.DB.VerifyChain(ctx, o.Code); err != nil {
			t.Error(err)
		}
		if differed, err := o.DB.Rebuild(ctx, o.Code); err != nil || differed != nil {
			t.Errorf("%v differ, %v", differed, err)
		}
	})
}

// state is what a refused use must leave as it was.
type state struct {
	head     ledger.Head
	balances string
}

// stands is the state of a record, whose grams add up to nothing.
func stands(t *testing.T, o *office.Office) state {
	t.Helper()
	r := o.Store.Read(o.Code)
	head, err := r.Head(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	all, err := r.Balances(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	var dry, water ledger.Grams
	for _, b := range all {
		dry, water = dry+b.Dry, water+b.Water
	}
	if dry != 0 || water != 0 {
		t.Fatalf("all accounts hold %d g of dry matter and %d g of water", dry, water)
	}
	return state{head, fmt.Sprint(all)}
}

// TestTheSameEntryTwiceChangesNothing sends entries again whose bodies the house
// completes: codes, moistures and losses must not be worked out anew.
func TestTheSameEntryTwiceChangesNothing(t *testing.T) {
	storetest.EachURL(t, twice)
}

func twice(t *testing.T, address string) {
	ctx := t.Context()
	o := opened(t, address)
	boss := malthouse.Actor{ID: "boss", Role: malthouse.Manager}
	dry := func(kg int64) ledger.Amount { a := kilos(kg, 0); a.MoistureWB = nil; return a }
	c := &chaos{Rand: rand.New(rand.NewPCG(1, 1))}
	for _, use := range []func(malthouse.Entry) (malthouse.Done, error){
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Receive(ctx, boss, e, &ledger.Receipt{To: "silo:B7", Amount: kilos(60_001, 0.1234)}, ledger.Figure{Quantity: "protein_dm", Value: 0.1})
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Start(ctx, boss, e, &ledger.Casting{From: []ledger.Draw{{Place: "silo:B7", Amount: dry(50_000)}}}, &malthouse.Plan{CastKg: 50_000, MaltKg: 41_000})
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			done, _, err := o.Book(ctx, boss, e, &ledger.Dressing{Piece: "P26-0001", Malt: []ledger.Malted{{To: "malt:M1", Amount: kilos(41_000, 0.045)}}})
			return done, err
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Count(ctx, boss, e, malthouse.Count{Place: "silo:B7", Counted: dry(9_900), Reason: "count"})
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Move(ctx, boss, e, &ledger.Move{From: "malt:M1", To: "malt:M2", Amount: dry(1000)})
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Ship(ctx, boss, e, &ledger.Shipping{Receiver: "brewer", From: []ledger.Draw{{Place: "malt:M1", Amount: dry(26_000)}}}, "")
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Analyse(ctx, boss, e, &ledger.Analysis{
				Of: "lot:M26-0001", Results: []ledger.Figure{{Quantity: "moisture_wb", Value: 0.045, Method: "EBC 4.2"}},
			})
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Release(ctx, boss, e, &ledger.Release{Of: "lot:M26-0001", Reason: "good"})
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			done, c, err := o.Certify(ctx, boss, e, malthouse.Issue{Shipment: "S26-0001", Product: "Malt"})
			if err == nil && (c.Number != "C26-0001" || c.Certificate.Lots[0].Code != "M26-0001") {
				t.Errorf("certificate %s of %v", c.Number, c.Certificate.Lots)
			}
			return done, err
		},
		func(e malthouse.Entry) (malthouse.Done, error) {
			return o.Return(ctx, boss, e, &ledger.Return{Shipment: "S26-0001", To: "malt:M9", Amount: dry(500), Reason: "left over"})
		},
	} {
		c.ids = nil
		e := c.entry()
		first, err := use(e)
		if err != nil || first.Again {
			t.Fatalf("%s: %v", first.Fact.Kind, err)
		}
		before := stands(t, o)
		again, err := use(e)
		if err != nil || !again.Again || again.Fact.Seq != first.Fact.Seq {
			t.Errorf("%s again: %v, entry %d", first.Fact.Kind, err, again.Fact.Seq)
		}
		if stands(t, o) != before {
			t.Errorf("%s again has changed the record", first.Fact.Kind)
		}
	}
}
