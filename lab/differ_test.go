package lab

import (
	"math"
	"testing"

	"awn/odds"
)

// By the definition of the limit; and by the deviates 1.9600 and 2.5758 of any
// table of the normal distribution, recalled.
func TestDifferenceChance(t *testing.T) {
	near(t, "at the limit", DifferenceChance(-1.3, 1.3), 0.05, 1e-12)
	near(t, "one in a hundred", DifferenceChance(2.5758/1.9600, 1), 0.01, 5e-6) // deviates of five figures
	near(t, "none", DifferenceChance(0, 1), 1, 0)
	if x := DifferenceChance(1, 0); !math.IsNaN(x) {
		t.Errorf("%g without a limit", x)
	}
}

// Two results of one limit: each has a deviation of R95/2.77, their mean 1/√2 of
// that. Worked by hand: 1.3/2.7718/1.41421 = 0.33164.
func TestBetween(t *testing.T) {
	v := Between(4.2, 5.1, 1.3)
	near(t, "mean", v.Mid, 4.65, 1e-12)
	near(t, "band", (v.High-v.Mid)/odds.NormalQuantile(0.95), 0.33164, 1e-5)
}

func TestWhatDifferencesComeTo(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		code string
	}{{4.2, 5.1, "lab.results.agree"}, {4.2, 5.6, "lab.results.differ"}} {
		if got := Compare(c.a, c.b, 1.3); len(got) != 1 || got[0].Code != c.code {
			t.Errorf("%g and %g: %v", c.a, c.b, got)
		}
	}
	if got := CompareReplicates(0.08, 0.0781); len(got) != 1 || got[0].Code != "lab.replicates.differ" {
		t.Errorf("%v", got)
	}
	if got := CompareReplicates(0.07, 0.0781); len(got) != 1 || got[0].Code != "lab.replicates.agree" {
		t.Errorf("%v", got)
	}
	if Compare(1, 2, math.NaN()) != nil || CompareReplicates(math.NaN(), 0.1) != nil {
		t.Error("something is said of what is not known")
	}
}
