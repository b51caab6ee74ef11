package reckon

import (
	"math"
	"slices"
	"testing"
)

// Every unit is read under its exchange codes as it is under its own.
func TestExchangeCodesAreRead(t *testing.T) {
	rows := table(t, "codes.csv")
	for _, row := range rows {
		want := number(t, row[2])
		if got := value(t, row[0], row[1]); !(math.Abs(got-want) <= 1e-6*want) {
			t.Errorf("%s: %s is %g, want %g", row[0], row[1], got, want)
		}
	}
}

// Every spelling is that of a unit that some entry reads, and no two units of
// one quantity share a name.
func TestSpellingsAreOfUnits(t *testing.T) {
	all := Readables()
	for _, s := range Spellings {
		if !slices.ContainsFunc(all, func(r Readable) bool { return r.Symbol == s.Symbol }) {
			t.Errorf("%s (%s, %s) is a unit of no entry", s.Symbol, s.UCUM, s.Rec20)
		}
	}
	owner := map[string]string{}
	for _, r := range all {
		for _, name := range r.Names() {
			key := r.Quantity + ": " + name
			if other, ok := owner[key]; ok && other != r.Symbol {
				t.Errorf("%s names both %s and %s", key, other, r.Symbol)
			}
			owner[key] = r.Symbol
		}
	}
}
