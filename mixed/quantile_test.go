package mixed

import (
	"math"
	"testing"
)

// quantileTolerance is ten times finer than a table of four decimals.
const quantileTolerance = 1e-5

func TestTukey(t *testing.T) {
	c := table(t, "tukey.csv")
	k, freedom, printed := c.numbers(t, "k"), c.numbers(t, "freedom"), c.numbers(t, "chance_at_3.5")
	for i := range k {
		for name, p := range map[string]float64{"q95": 0.95, "q99": 0.99} {
			q := c.numbers(t, name)[i]
			near(t, name+" by its chance", TukeyChance(q, int(k[i]), freedom[i]), c.numbers(t, "exact_at_"+name)[i], 1e-8)
			// With five degrees of freedom the error of the printed quantile shows.
			if freedom[i] > 5 {
				near(t, name, TukeyQuantile(p, int(k[i]), freedom[i]), q, 1e-4)
			}
		}
		near(t, "chance at 3.5", TukeyChance(3.5, int(k[i]), freedom[i]), c.numbers(t, "exact_at_3.5")[i], 1e-8)
		near(t, "chance at 3.5, printed", TukeyChance(3.5, int(k[i]), freedom[i]), printed[i], 1e-6)
		near(t, "there and back", TukeyChance(TukeyQuantile(0.9, int(k[i]), freedom[i]), int(k[i]), freedom[i]), 0.9, 1e-9)
	}
}

func TestDunnett(t *testing.T) {
	c := table(t, "dunnett.csv")
	m, freedom := c.numbers(t, "m"), c.numbers(t, "freedom")
	both, one := c.numbers(t, "two_sided95"), c.numbers(t, "one_sided95")
	for i := range m {
		near(t, "both sides", DunnettQuantile(0.95, int(m[i]), freedom[i], 0.5), both[i], quantileTolerance)
		near(t, "one side", DunnettOneSidedQuantile(0.95, int(m[i]), freedom[i], 0.5), one[i], quantileTolerance)
	}
}

func TestQuantilesOutside(t *testing.T) {
	for i, x := range []float64{
		TukeyQuantile(0.95, 1, 10), TukeyQuantile(1, 3, 10), TukeyQuantile(0.95, 3, 1), TukeyChance(-1, 3, 10),
		TukeyChance(math.NaN(), 3, 10), DunnettQuantile(0.95, 0, 10, 0.5), DunnettQuantile(0.95, 3, 10, 1),
		DunnettQuantile(0, 3, 10, 0.5), DunnettOneSidedQuantile(0.3, 3, 10, 0.5), DunnettChance(-1, 3, 10, 0.5),
		DunnettOneSidedChance(math.NaN(), 3, 10, 0.5), DunnettChance(1, 3, math.NaN(), 0.5),
	} {
		if !math.IsNaN(x) {
			t.Errorf("case %d gives %v, want NaN", i, x)
		}
	}
}

// With the standard deviation known, one comparison is the normal deviate.
func TestKnownDeviation(t *testing.T) {
	near(t, "z 0.975", DunnettQuantile(0.95, 1, math.Inf(1), 0.5), 1.959964, 1e-6)
	near(t, "two means", TukeyQuantile(0.95, 2, math.Inf(1)), math.Sqrt2*1.959964, 2e-6)
}

// Holm 1979; the worked figures are R's p.adjust of 0.01, 0.04, 0.03, 0.005, recalled.
func TestHolm(t *testing.T) {
	got := Holm([]float64{0.01, 0.04, math.NaN(), 0.03, 0.005})
	for i, want := range []float64{0.03, 0.06, math.NaN(), 0.06, 0.02} {
		if math.IsNaN(want) != math.IsNaN(got[i]) || math.Abs(got[i]-want) > 1e-12 {
			t.Errorf("%d: %v, want %v", i, got[i], want)
		}
	}
}
