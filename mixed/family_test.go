package mixed

import (
	"fmt"
	"math"
	"testing"
)

// familyTolerance is what the doc comment of Family says.
const familyTolerance = 1e-6

// The printed quantiles, and the chances that quadrature gives one by one.
func TestFamilyDunnett(t *testing.T) {
	c := table(t, "dunnett.csv")
	m, freedom := c.numbers(t, "m"), c.numbers(t, "freedom")
	both, one := c.numbers(t, "two_sided95"), c.numbers(t, "one_sided95")
	for i := range m {
		apart, above := AgainstCheck(int(m[i]), 0.5), AboveCheck(int(m[i]), 0.5)
		near(t, "both sides", apart.Quantile(0.95, freedom[i]), both[i], quantileTolerance)
		near(t, "one side", above.Quantile(0.95, freedom[i]), one[i], quantileTolerance)
	}
}

func TestFamilyTukey(t *testing.T) {
	c := table(t, "tukey.csv")
	k, freedom := c.numbers(t, "k"), c.numbers(t, "freedom")
	for i := range k {
		all := AllPairs(int(k[i]))
		near(t, "chance at 3.5", all.Chance(3.5, freedom[i]), c.numbers(t, "exact_at_3.5")[i], familyTolerance)
		if freedom[i] > 5 {
			near(t, "q95", all.Quantile(0.95, freedom[i]), c.numbers(t, "q95")[i], 1e-4)
		}
	}
}

func TestFamilyAgainstOneByOne(t *testing.T) {
	for _, m := range []int{1, 2, 30, 239, 5000} {
		for _, correlation := range []float64{0, 0.5, 0.7} {
			apart, above := AgainstCheck(m, correlation), AboveCheck(m, correlation)
			for _, freedom := range []float64{2, 9.5, 40, 2000, math.Inf(1)} {
				for _, x := range []float64{0, 0.03, 1.7, 3.1, 4.4, 6} {
					at := fmt.Sprint(m, correlation, freedom, x)
					near(t, "both "+at, apart.Chance(x, freedom), DunnettChance(x, m, freedom, correlation), familyTolerance)
					near(t, "above "+at, above.Chance(x, freedom), DunnettOneSidedChance(x, m, freedom, correlation), familyTolerance)
					near(t, "below "+at, above.Chance(-x, freedom), DunnettOneSidedChance(-x, m, freedom, correlation), familyTolerance)
				}
			}
		}
	}
}

func TestFamilyOutside(t *testing.T) {
	for i, x := range []float64{
		AllPairs(1).Chance(3, 10), AgainstCheck(0, 0.5).Chance(3, 10), AboveCheck(3, 1).Quantile(0.9, 10), AllPairs(4).Chance(-1, 10),
		AllPairs(4).Chance(math.NaN(), 10), AllPairs(4).Chance(3, 1), AllPairs(4).Quantile(1, 10), AboveCheck(3, 0.5).Quantile(0.2, 10),
		AllPairs(4).Quantile(0.9, math.NaN()),
	} {
		if !math.IsNaN(x) {
			t.Errorf("case %d gives %v, want NaN", i, x)
		}
	}
}

// A hundred comparisons, each with its own degrees of freedom.
func BenchmarkFamily(b *testing.B) {
	for b.Loop() {
		f := AgainstCheck(239, 0.5)
		for i := range 100 {
			f.Chance(2.5, 300+float64(i))
		}
	}
}
