package malt

import (
	"fmt"
	"math"
	"testing"
)

// Two malts in halves: the ratio is mixed first and divided then.
func ExampleBlendedKolbach() {
	half := []float64{1, 1}
	k := BlendedKolbach(half, []float64{0.72, 0.66}, []float64{1.60, 1.84})
	fmt.Printf("S/T %.1f %%, friability %.1f %%\n", 100*k, 100*Blended(half, []float64{0.90, 0.81}))
	// Output: S/T 40.1 %, friability 85.5 %
}

// The most of a malt with 4.0 % wholly unmodified grains in one with 0.5 %,
// where 2.0 % are the most: 1.5/3.5, by hand.
func ExampleSharesOfSecond() {
	least, most := SharesOfSecond([]float64{2.0 - 0.5}, []float64{2.0 - 4.0})
	fmt.Printf("%.0f to %.1f %%\n", 100*least, 100*most)
	// Output: 0 to 42.9 %
}

func TestSharesOfSecond(t *testing.T) {
	for _, c := range []struct {
		name          string
		first, second []float64
		least, most   float64
	}{
		{"no limit", nil, nil, 0, 1},
		{"both keep it", []float64{1}, []float64{2}, 0, 1},
		{"the first misses it", []float64{-1}, []float64{3}, 0.25, 1},
		{"one each way", []float64{-1, 1}, []float64{3, -1}, 0.25, 0.5},
		{"at the limit itself", []float64{0}, []float64{-1}, 0, 0},
		{"neither keeps it", []float64{-1}, []float64{-2}, math.NaN(), math.NaN()},
		{"one rules out the other", []float64{-3, 1}, []float64{1, -3}, math.NaN(), math.NaN()},
		{"one is not known", []float64{math.NaN()}, []float64{1}, math.NaN(), math.NaN()},
	} {
		least, most := SharesOfSecond(c.first, c.second)
		if !same(least, c.least) || !same(most, c.most) {
			t.Errorf("%s: %g to %g, want %g to %g", c.name, least, most, c.least, c.most)
		}
	}
}

func same(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

func TestNoBlendOfNothing(t *testing.T) {
	for _, x := range []float64{
		Blended(nil, nil), Blended([]float64{0, 0}, []float64{1, 2}), Blended([]float64{1, -1}, []float64{1, 2}),
		Blended([]float64{1, 1}, []float64{1}), BlendedKolbach([]float64{1}, []float64{0.7}, []float64{0}),
	} {
		if !math.IsNaN(x) {
			t.Errorf("a blend that cannot be comes to %g", x)
		}
	}
}
