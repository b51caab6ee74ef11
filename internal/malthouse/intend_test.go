package malthouse_test

import (
	"path/filepath"
	"slices"
	"testing"

	"awn/internal/malthouse"
	"awn/ledger"
)

func aPlan() malthouse.Plan {
	return malthouse.Plan{CastKg: 60000, MaltKg: 49000, RestD: 21, Model: 2, Stages: []malthouse.PlanStage{
		{Stage: "steep", ToH: 40, Vessel: "S1"}, {Stage: "germinate", FromH: 40, ToH: 156, Vessel: "G1"}, {Stage: "kiln", FromH: 156, ToH: 176, Vessel: "K1"},
	}}
}

// An intention stands until it is struck, replaced or carried out; what has gone
// cannot be carried out again.
func TestIntentionsComeAndGo(t *testing.T) {
	o := opened(t, filepath.Join(t.TempDir(), "house.db"))
	ctx, e := t.Context(), malthouse.Entry{}
	boss, _, err := o.Welcome(ctx, "runa")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := o.Receive(ctx, boss, e, &ledger.Receipt{Lot: "L26-0001", To: "silo:B7", Amount: kilos(200_000, 0.12)}); err != nil {
		t.Fatal(err)
	}
	stand := func(want ...string) {
		t.Helper()
		all, err := o.Intentions(ctx, boss)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, i := range all {
			got = append(got, i.Body.Order)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q stand, want %q", got, want)
		}
	}
	intend := func(in ledger.Intention) ledger.FactID {
		t.Helper()
		done, err := o.Intend(ctx, boss, e, &in, nil)
		if err != nil {
			t.Fatal(err)
		}
		return ledger.FactID(done.Fact.ID)
	}
	_, err = o.Intend(ctx, boss, e, &ledger.Intention{Begin: 1, Name: "pale"}, nil)
	refusedWith(t, err, "use.plan.unknown")
	_, err = o.Intend(ctx, boss, e, &ledger.Intention{Begin: 1}, nil)
	refusedWith(t, err, "use.plan.missing")
	_, err = o.KeepPlan(ctx, boss, e, "two\nlines", aPlan())
	refusedWith(t, err, "use.plan.name")
	for _, name := range []string{"pale", "amber", "pale"} {
		if _, err := o.KeepPlan(ctx, boss, e, name, aPlan()); err != nil {
			t.Fatal(err)
		}
	}
	if plans, err := o.Plans(ctx, boss); err != nil || len(plans) != 2 || plans[0].Name != "amber" {
		t.Errorf("%+v, %v", plans, err)
	}
	b := intend(ledger.Intention{Begin: 2000, Name: "pale", Order: "B", Vessel: "S2"})
	a := intend(ledger.Intention{Begin: 1000, Name: "pale", Order: "A"})
	stand("A", "B")
	if in, err := o.Intention(ctx, boss, a); err != nil || in.Vessel != "S1" || in.Box != "G1" || in.Kiln != "K1" {
		t.Errorf("the vessels of the plan: %+v, %v", in, err)
	}
	later := intend(ledger.Intention{Begin: 3000, Order: "A, later", Replaces: a})
	stand("B", "A, later")
	_, err = o.Intend(ctx, boss, e, &ledger.Intention{Begin: 1, Name: "pale", Replaces: a}, nil)
	refusedWith(t, err, "use.intention.unknown")
	cast := func(does ledger.FactID) error {
		_, err := o.Start(ctx, boss, e, &ledger.Casting{Does: does, From: []ledger.Draw{{Place: "silo:B7", Amount: kilos(60_000, 0.12)}}}, nil)
		return err
	}
	if err := cast(b); err != nil {
		t.Fatal(err)
	}
	stand("A, later")
	refusedWith(t, cast(b), "use.intention.unknown")
	if _, err := o.Strike(ctx, boss, e, &ledger.Strike{Fact: later, Reason: "order taken back"}); err != nil {
		t.Fatal(err)
	}
	stand("A") // what it replaced stands again
}

// The same intention twice changes nothing.
func TestAnIntentionTwice(t *testing.T) {
	o := opened(t, filepath.Join(t.TempDir(), "house.db"))
	ctx := t.Context()
	boss, _, err := o.Welcome(ctx, "runa")
	if err != nil {
		t.Fatal(err)
	}
	plan, e := aPlan(), malthouse.Entry{ID: "01931b5e-5b00-7000-8000-000000000001"}
	for i := range 2 {
		done, err := o.Intend(ctx, boss, e, &ledger.Intention{Begin: 1000, Order: "A"}, &plan)
		if err != nil || done.Again != (i == 1) {
			t.Errorf("%d: %+v, %v", i, done, err)
		}
	}
}
