package slip_test

import (
	"context"
	"errors"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"github.com/alecthomas/kong"

	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/slip"
)

// slips are all there are, empty.
func slips() []slip.Slip {
	return []slip.Slip{
		&slip.Receive{}, &slip.Move{}, &slip.Count{}, &slip.Start{}, &slip.Act{}, &slip.Book{}, &slip.Read{}, &slip.Analyse{},
		&slip.Blend{}, &slip.Ship{}, &slip.Return{}, &slip.Release{}, &slip.Hold{}, &slip.Decide{}, &slip.Strike{}, &slip.Person{},
	}
}

// A form has the fields that the command line has, as kong reads them from the
// same struct.
func TestFormsHaveTheFieldsOfTheCommandLine(t *testing.T) {
	for _, s := range slips() {
		k, err := kong.New(s)
		if err != nil {
			t.Fatal(err)
		}
		var want, got []string
		for _, f := range k.Model.Flags {
			if f.Name != "help" {
				want = append(want, "--"+f.Name)
			}
			for _, mine := range slip.Fields(s) {
				if mine.Name == f.Name && (mine.Must != f.Required || mine.Usual != f.Default || mine.Many != f.IsSlice() || mine.Tick != f.IsBool()) {
					t.Errorf("%T: %+v is not what the command line has", s, mine)
				}
			}
		}
		for _, p := range k.Model.Positional {
			want = append(want, p.Name)
		}
		for _, f := range slip.Fields(s) {
			if f.Arg {
				got = append(got, f.Name)
			} else {
				got = append(got, "--"+f.Name)
			}
		}
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%T: the form has %v, the command line %v", s, got, want)
		}
	}
}

func TestWhatWasSentStandsInTheSlip(t *testing.T) {
	var s slip.Receive
	err := slip.Fill(&s, map[string][]string{"net": {" 28.1 t "}, "silo": {"b7"}, "crop": {"2026"}, "measured": {"on"}, "id": {"of the page"}})
	if err != nil || s.Net != "28.1 t" || s.Silo != "b7" || s.Crop != 2026 || !s.Measured {
		t.Errorf("%+v, %v", s, err)
	}
	var book slip.Book
	if err := slip.Fill(&book, map[string][]string{"piece": {"P26-0001"}, "malt": {"M1 20 t", "", "M2 5 t"}}); err != nil || len(book.Malt) != 2 {
		t.Errorf("%+v, %v", book, err)
	}
}

// faultsOf are the fields that are at fault.
func faultsOf(t *testing.T, err error) (fields []string) {
	t.Helper()
	var faults slip.Faults
	if !errors.As(err, &faults) {
		t.Fatalf("%v is no list of faults", err)
	}
	for _, f := range faults {
		if f.Says == "" {
			t.Errorf("%s: nothing is said", f.Field)
		}
		fields = append(fields, f.Field)
	}
	return fields
}

func TestAllFaultsAreToldAtOnce(t *testing.T) {
	sent := map[string][]string{"against": {"nobody"}, "mass": {"1 t", "2 t"}}
	if got := faultsOf(t, slip.Fill(&slip.Count{}, sent)); !slices.Equal(got, []string{"place", "mass", "reason", "against"}) {
		t.Errorf("%v", got)
	}
	for _, c := range []struct {
		slip slip.Slip
		want []string
	}{
		{&slip.Receive{Silo: "B7"}, []string{"net"}},
		{&slip.Receive{Silo: "B7", Gross: "40 t"}, []string{"gross"}},
		{&slip.Receive{Silo: "B7", Gross: "40 t", Tare: "50 t"}, []string{"tare"}},
		{&slip.Receive{Silo: "B7", Net: "40 hL", Weighing: slip.Weighing{Moisture: "12 kg", Doubt: "a lot"}}, []string{"net", "doubt", "moisture"}},
		{&slip.Ship{From: []string{"M1", "M1 5 t", "M2 5 furlongs"}}, []string{"from", "from"}},
		{&slip.Act{Act: "immerse", Water: "4", Temp: "warm"}, []string{"water", "temp"}},
		{&slip.Book{Malt: []string{"M1"}, Culms: "FEED"}, []string{"malt", "culms"}},
		{&slip.Read{Results: []string{"moisture 42 %", "mositure 42 % wb", "chit 93 %"}}, []string{"results", "results"}},
		{&slip.Decide{Thing: "B7"}, []string{"decision"}},
	} {
		_, err := c.slip.Enter(context.Background(), nil, malthouse.Actor{}, malthouse.Entry{})
		if got := faultsOf(t, err); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%+v: faults at %v, want %v", c.slip, got, c.want)
		}
	}
}

// FuzzSlips types anything anywhere: nothing panics, and somebody without the
// right enters nothing.
func FuzzSlips(f *testing.F) {
	ctx := context.Background()
	o, err := office.Open(ctx, filepath.Join(f.TempDir(), "house.db"), true)
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() {
		if err := o.DB.Close(); err != nil {
			f.Error(err)
		}
	})
	f.Add(0, "28.1 t", "B7")
	f.Add(5, "M1 49 t 4 % wb", "moisture < 4 % wb")
	f.Fuzz(func(t *testing.T, which int, one, two string) {
		all := slips()
		s := all[((which%len(all))+len(all))%len(all)]
		sent := map[string][]string{}
		for i, field := range slip.Fields(s) {
			sent[field.Name] = []string{[]string{one, two}[i%2]}
		}
		err := slip.Fill(s, sent)
		if err == nil {
			_, err = s.Enter(ctx, o.House, malthouse.Actor{ID: "anna", Role: malthouse.Auditor}, malthouse.Entry{})
		}
		if err == nil {
			t.Errorf("%+v was entered", s)
		}
	})
}
