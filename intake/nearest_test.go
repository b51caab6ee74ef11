package intake

import (
	"math"
	"testing"
)

// The order is that of a list written by hand: nothing outside could say it.
func TestNearest(t *testing.T) {
	of := func(f Factor, o Outcome, margin, at float64) Verdict {
		return Verdict{Limit: Limit{Column: Column{Key: Of(f)}, At: at}, Outcome: o, Margin: margin}
	}
	got := Nearest([]Verdict{
		of(DON, Unsaid, math.NaN(), 1), of(Moisture, Meets, 2.2, 18), of(Capacity, Meets, 1, 98), of(Protein, Misses, -0.1, 11.5),
		of(Energy, Misses, -5, 95), of(Broken, Meets, 0.5, 0),
	}, []Key{Of(Protein)})
	for i, want := range []Factor{Protein, Energy, Capacity, Moisture, Broken, DON} {
		if got[i].Limit.Factor != want {
			t.Errorf("%d: %s, want %s", i, got[i].Limit.Factor, want)
		}
	}
}
