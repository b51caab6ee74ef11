package malthouse_test

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"awn/internal/malthouse"
	"awn/internal/sqlstore"
	"awn/ledger"
)

func refusedWith(t *testing.T, err error, code string) {
	t.Helper()
	var r *malthouse.Refusal
	if !errors.As(err, &r) || r.Code != code {
		t.Errorf("%v, want %s", err, code)
	}
}

// The last manager stays, whatever is tried; anybody else is forgotten, and what
// they entered keeps their id.
func TestPeopleAreForgotten(t *testing.T) {
	o := opened(t, filepath.Join(t.TempDir(), "house.db"))
	ctx, e := t.Context(), malthouse.Entry{}
	boss, _, err := o.Welcome(ctx, "runa")
	if err != nil {
		t.Fatal(err)
	}
	_, err = o.Dismiss(ctx, boss, e, "runa")
	refusedWith(t, err, "use.person.last")
	_, err = o.Admit(ctx, boss, e, malthouse.Person{ID: "runa", Role: malthouse.Floor})
	refusedWith(t, err, "use.person.last")
	_, err = o.Dismiss(ctx, boss, e, "nobody")
	refusedWith(t, err, "use.person.unknown")
	if _, err := o.Admit(ctx, boss, e, malthouse.Person{ID: "osk", Name: "Osk Varley", Role: malthouse.Manager}); err != nil {
		t.Fatal(err)
	}
	osk := malthouse.Actor{ID: "osk", Role: malthouse.Manager}
	if _, err := o.Receive(ctx, osk, e, &ledger.Receipt{Lot: "L26-0001", To: "silo:B7", Amount: kilos(20_000, 0.12)}); err != nil {
		t.Fatal(err)
	}
	if _, err := o.Dismiss(ctx, boss, e, "osk"); err != nil {
		t.Fatal(err)
	}
	if _, err := o.Desk.Person(ctx, "osk"); sqlstore.Code(err) != "record.person.missing" {
		t.Errorf("somebody removed is there: %v", err)
	}
	if _, _, err := o.Welcome(ctx, "osk"); err == nil {
		t.Error("somebody removed is welcome")
	}
	all, err := o.Deliveries(ctx, boss)
	if err != nil || len(all) != 1 || all[0].Fact.Who != "osk" {
		t.Errorf("what they entered: %+v, %v", all, err)
	}
	// Whoever is known under the same name later has no role from before.
	if _, err := o.Admit(ctx, boss, e, malthouse.Person{ID: "osk"}); err != nil {
		t.Fatal(err)
	}
	if p, err := o.Desk.Person(ctx, "osk"); err != nil || p.Role != "" {
		t.Errorf("%+v, %v", p, err)
	}
}

// A scope never gives more than the person has, and less where it says so.
func TestScopesNarrow(t *testing.T) {
	for _, role := range malthouse.Roles() {
		for use := range matrix {
			whole := malthouse.Actor{Role: role}
			for _, s := range malthouse.Scopes() {
				narrow := malthouse.Actor{Role: role, Scope: s}
				if narrow.May(use) && !whole.May(use) {
					t.Errorf("%s may %s through %q", role, use, s)
				}
				reads := use == malthouse.UseLook
				decides := strings.Contains(" intend release hold blend ship ship-held return strike decide certify withdraw people ", " "+string(use)+" ")
				if narrow.May(use) && (s == malthouse.ScopeRead && !reads || s == malthouse.ScopeEnter && decides) {
					t.Errorf("%q lets a program %s", s, use)
				}
			}
		}
	}
	err := malthouse.Actor{Role: malthouse.Manager, Scope: malthouse.ScopeRead}.Permit(malthouse.UseReceive)
	refusedWith(t, err, "use.scope.narrow")
	if (malthouse.Actor{Role: malthouse.Manager, Scope: "more"}).May(malthouse.UseReceive) {
		t.Error("a scope that nobody knows lets a program enter")
	}
}

// What a house sets, and the documents it goes by, are on record with who.
func TestHouseIsSetUpOnRecord(t *testing.T) {
	o := opened(t, filepath.Join(t.TempDir(), "house.db"))
	ctx, e := t.Context(), malthouse.Entry{}
	boss, _, err := o.Welcome(ctx, "runa")
	if err != nil {
		t.Fatal(err)
	}
	floor := malthouse.Actor{ID: "osk", Role: malthouse.Floor}
	if _, err := o.Settle(ctx, floor, e, malthouse.SettingName, "Mine"); err == nil {
		t.Error("the floor names the house")
	}
	if _, err := o.Keep(ctx, floor, e, "plant", "plant.yaml", []byte("a")); err == nil {
		t.Error("the floor changes the plant")
	}
	_, err = o.Settle(ctx, boss, e, malthouse.SettingZone, "Europe/Nowhere")
	refusedWith(t, err, "use.setting.value")
	if _, err := o.Settle(ctx, boss, e, malthouse.SettingZone, "Europe/London"); err != nil {
		t.Fatal(err)
	}
	if o.Zone.String() != "UTC" {
		t.Error("the zone changes under those who are at work")
	}
	before := o.House
	if err := o.Reread(ctx); err != nil || o.Zone.String() != "Europe/London" || before.Zone.String() != "UTC" {
		t.Errorf("read again: %v, %v", o.Zone, err)
	}
	if _, found, err := o.Kept(ctx, boss, "plant"); found || err != nil {
		t.Errorf("a plant that nobody kept: %v", err)
	}
	for _, text := range []string{"first", "second"} {
		if _, err := o.Keep(ctx, boss, e, "plant", "plant.yaml", []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, found, err := o.Kept(ctx, floor, "plant"); string(got) != text || !found || err != nil {
			t.Errorf("%s, %v, %v", got, found, err)
		}
	}
	facts, err := o.Facts(ctx, boss)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for f, err := range facts {
		if err != nil || f.Kind != ledger.Decided || f.Who != "runa" {
			t.Errorf("%+v, %v", f, err)
		}
		n++
	}
	if n != 3 {
		t.Errorf("%d entries, want 3", n)
	}
}
