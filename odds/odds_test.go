package odds

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// 95 of 100 kernels germinated.
func ExampleProportion_ClopperPearson() {
	low, high := Proportion{Hits: 95, Of: 100}.ClopperPearson(0.95)
	fmt.Printf("%.1f to %.1f %%\n", 100*low, 100*high)
	// Output: 88.7 to 98.4 %
}

// A lot of which 93 % germinate, under the rule "at least 95 of 100".
func ExamplePlan_AcceptChance() {
	fmt.Printf("%.0f %%\n", 100*Plan{N: 100, C: 5}.AcceptChance(0.07))
	// Output: 29 %
}

func TestIntervalsAgainstExactArithmetic(t *testing.T) {
	const half = 0.005 + 1e-9 // half of the last printed digit
	for _, row := range table(t, "binomial_ci.csv") {
		p := Proportion{Hits: int(row["germinated"]), Of: int(row["n"])}
		low, high := p.Wilson(0.95)
		near(t, fmt.Sprint(p, " Wilson low"), 100*low, row["wilson_lo"], half)
		near(t, fmt.Sprint(p, " Wilson high"), 100*high, row["wilson_hi"], half)
		low, high = p.ClopperPearson(0.95)
		near(t, fmt.Sprint(p, " exact low"), 100*low, row["clopper_lo"], half)
		near(t, fmt.Sprint(p, " exact high"), 100*high, row["clopper_hi"], half)
	}
}

// Newcombe 1998, table I, four decimals; recalled.
func TestIntervalsOfNewcombe(t *testing.T) {
	for _, c := range []struct {
		Proportion
		wilsonLow, wilsonHigh, exactLow, exactHigh float64
	}{
		{Proportion{81, 263}, 0.2553, 0.3662, 0.2527, 0.3676},
		{Proportion{15, 148}, 0.0624, 0.1605, 0.0578, 0.1617},
		{Proportion{0, 20}, 0, 0.1611, 0, 0.1684},
		{Proportion{1, 29}, 0.0061, 0.1718, 0.0009, 0.1776},
	} {
		low, high := c.Wilson(0.95)
		near(t, "Wilson low", low, c.wilsonLow, 5.1e-5)
		near(t, "Wilson high", high, c.wilsonHigh, 5.1e-5)
		low, high = c.ClopperPearson(0.95)
		near(t, "exact low", low, c.exactLow, 5.1e-5)
		near(t, "exact high", high, c.exactHigh, 5.1e-5)
	}
}

// Newcombe 1998, second paper, table II, method 10, four decimals; recalled.
func TestDifferenceOfNewcombe(t *testing.T) {
	for _, c := range []struct {
		a, b      Proportion
		low, high float64
	}{
		{Proportion{56, 70}, Proportion{48, 80}, 0.0524, 0.3339},
		{Proportion{9, 10}, Proportion{3, 10}, 0.1705, 0.8090},
		{Proportion{10, 10}, Proportion{0, 20}, 0.6791, 1},
	} {
		low, high := DifferenceLimits(c.a, c.b, 0.95)
		near(t, fmt.Sprint(c.a, c.b, " low"), low, c.low, 5.1e-5)
		near(t, fmt.Sprint(c.a, c.b, " high"), high, c.high, 5.1e-5)
	}
	d := Difference(Proportion{50, 100}, Proportion{50, 100}, Measured)
	near(t, "equal shares differ by", d.Mid, 0, 0)
	near(t, "and symmetrically", d.Low+d.High, 0, 1e-12)
}

func TestOperatingCurves(t *testing.T) {
	plans := map[string]Plan{
		"P_accept_ge95_n100": {100, 5}, "P_accept_ge95_n200": {200, 10}, "P_accept_ge95_n400": {400, 20},
		"P_accept_ge98_n100": {100, 2}, "P_accept_ge98_n400": {400, 8},
	}
	for _, row := range table(t, "germ_oc.csv") {
		for name, plan := range plans {
			near(t, fmt.Sprint(name, " at ", row["true_germ_pct"]), plan.AcceptChance(1-row["true_germ_pct"]/100), row[name], 5.1e-5)
		}
	}
}

// The sum of its own definition, term by term in exact integers.
func TestAcceptChanceSummed(t *testing.T) {
	for _, plan := range []Plan{{1, 0}, {10, 0}, {37, 4}, {150, 149}, {500, 10}} {
		for _, bad := range []float64{0.001, 0.02, 0.3, 0.97} {
			sum := 0.0
			for k := 0; k <= plan.C; k++ {
				ways, _ := new(big.Float).SetInt(new(big.Int).Binomial(int64(plan.N), int64(k))).Float64()
				sum += math.Exp(math.Log(ways) + float64(k)*math.Log(bad) + float64(plan.N-k)*math.Log1p(-bad))
			}
			near(t, fmt.Sprint(plan, bad), plan.AcceptChance(bad), sum, 1e-10)
		}
	}
}

func TestBadAtInvertsTheCurve(t *testing.T) {
	for _, plan := range []Plan{{100, 5}, {400, 8}, {20, 0}} {
		for _, chance := range []float64{0.05, 0.5, 0.95} {
			near(t, fmt.Sprint(plan, chance), plan.AcceptChance(plan.BadAt(chance)), chance, 1e-9)
		}
	}
	// With C = 0 the curve is (1-bad)^N.
	near(t, "closed form", Plan{20, 0}.BadAt(0.5), 1-math.Pow(0.5, 1.0/20), 1e-12)
}

// Deviates of any printed table; recalled.
func TestQuantilesOfPrintedTables(t *testing.T) {
	near(t, "z 0.95", NormalQuantile(0.95), 1.6449, 5e-5)
	near(t, "z 0.975", NormalQuantile(0.975), 1.9600, 5e-5)
	near(t, "z 0.995", NormalQuantile(0.995), 2.5758, 5e-5)
	near(t, "t 0.975, 1", StudentQuantile(0.975, 1), 12.706, 5e-4)
	near(t, "t 0.975, 9", StudentQuantile(0.975, 9), 2.262, 5e-4)
	near(t, "t 0.95, 30", StudentQuantile(0.95, 30), 1.697, 5e-4)
	near(t, "q 0.95, 2", SpanQuantile(0.95, 2), 2.772, 5e-4)
	near(t, "q 0.95, 3", SpanQuantile(0.95, 3), 3.314, 5e-4)
	near(t, "q 0.95, 4", SpanQuantile(0.95, 4), 3.633, 5e-4)
	near(t, "q 0.99, 10", SpanQuantile(0.99, 10), 5.157, 5e-4)
	near(t, "two draws in closed form", SpanQuantile(0.975, 2), math.Sqrt2*NormalQuantile(0.9875), 1e-8)
}

func TestQuantileType7(t *testing.T) {
	// 1..10 at 0.1 is 1.9 under type 7: h = 0.9.
	x := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	near(t, "0.1 of 1..10", Quantile(x, 0.1), 1.9, 1e-12)
	near(t, "0.25 of 1..10", Quantile(x, 0.25), 3.25, 1e-12)
	near(t, "lowest", Quantile(x, 0), 1, 0)
	near(t, "highest", Quantile(x, 1), 10, 0)
	near(t, "of one", Quantile(x[:1], 0.7), 1, 0)
}

// Clopper and Pearson promise at least their confidence at any true share.
func TestExactIntervalCovers(t *testing.T) {
	const n, confidence = 50, 0.9
	for _, share := range []float64{0.02, 0.31, 0.5, 0.9, 0.985} {
		covered := 0.0
		for k := range n + 1 {
			low, high := Proportion{k, n}.ClopperPearson(confidence)
			if low <= share && share <= high {
				covered += Plan{n, k}.AcceptChance(share)
				if k > 0 {
					covered -= Plan{n, k - 1}.AcceptChance(share)
				}
			}
		}
		if covered < confidence {
			t.Errorf("at %v covered %.3f, promised %.2f", share, covered, confidence)
		}
	}
}

func TestCombineAddsSquares(t *testing.T) {
	a, b := WithDeviation(10, 3, Measured), WithDeviation(20, 4, Practice)
	sum := Combine(func(x []float64) float64 { return x[0] + x[1] }, a, b)
	want := WithDeviation(30, 5, Practice)
	near(t, "low", sum.Low, want.Low, 1e-12)
	near(t, "high", sum.High, want.High, 1e-12)
	if sum.Standing != Practice {
		t.Errorf("standing %s, want the worse of the two", sum.Standing)
	}
	if Combine(func(x []float64) float64 { return x[0] }, Alone(1, Measured)).Banded() {
		t.Error("a figure without a band must leave the result without")
	}
}

// The shortcut of Combine against draws, on a ratio.
func TestCombineAgainstDraws(t *testing.T) {
	a, b := WithDeviation(0.64, 0.03, Measured), WithDeviation(1.66, 0.04, Measured)
	r := rand.New(rand.NewPCG(1, 2))
	draws := make([]float64, 200_000)
	for i := range draws {
		draws[i] = (0.64 + 0.03*r.NormFloat64()) / (1.66 + 0.04*r.NormFloat64())
	}
	got, want := Combine(func(x []float64) float64 { return x[0] / x[1] }, a, b), FromDraws(draws, Measured)
	// First-order propagation leaves out the curvature: under 0.001 here.
	near(t, "low", got.Low, want.Low, 0.001)
	near(t, "high", got.High, want.High, 0.001)
}

func TestValueBands(t *testing.T) {
	v := WithDeviation(5, 2, Measured)
	near(t, "below its low", v.ChanceBelow(v.Low), 0.05, 1e-12)
	near(t, "below its high", v.ChanceBelow(v.High), 0.95, 1e-12)
	near(t, "below one deviation up", v.ChanceBelow(7), 0.8413, 5e-5)
	if f := v.Map(func(x float64) float64 { return -x }); f.Low != -v.High || f.High != -v.Low || f.Mid != -5 {
		t.Errorf("a falling map must swap the ends: %+v", f)
	}
	near(t, "exact, below", Exact(1, Measured).ChanceBelow(2), 1, 0)
	near(t, "exact, above", Exact(1, Measured).ChanceBelow(0), 0, 0)
	if d := Default(Parameter{Default: 2, Low: 1, High: 4, Mark: Weak}); d != (Value{2, 1, 4, Weak}) {
		t.Errorf("%+v", d)
	}
}

func TestImpossibleGivesNaN(t *testing.T) {
	low, high := Proportion{5, 4}.ClopperPearson(0.95)
	wl, wh := Proportion{-1, 4}.Wilson(0.95)
	for i, x := range []float64{
		low, high, wl, wh, Proportion{0, 0}.Fraction(), Plan{10, 11}.AcceptChance(0.1), Plan{10, 1}.AcceptChance(1.1),
		Plan{10, 10}.BadAt(0.5), NormalQuantile(0), NormalQuantile(1), StudentQuantile(0.5, 0), SpanQuantile(0.5, 1),
		Quantile(nil, 0.5), Quantile([]float64{1}, math.NaN()), Alone(1, Measured).ChanceBelow(1),
	} {
		if !math.IsNaN(x) {
			t.Errorf("case %d gives %v, want NaN", i, x)
		}
	}
}

func TestWorse(t *testing.T) {
	for i, a := range ranks {
		for j, b := range ranks {
			if got, want := Worse(a, b), ranks[max(i, j)]; got != want {
				t.Errorf("worse of %s and %s is %s", a, b, got)
			}
		}
	}
	if Worse(Measured, "unheard") != "unheard" || Worse("unheard", Weak) != "unheard" {
		t.Error("an unknown standing is worst")
	}
}

// The density of the prior of Jeffreys and the count, summed over small steps;
// and between the exact tails, which give all of the next kernel to one side.
func TestChanceAtLeast(t *testing.T) {
	for _, p := range []Proportion{{97, 100}, {48, 50}, {3, 20}, {199, 200}} {
		for _, limit := range []float64{0.1, 0.5, 0.9, 0.98} {
			const steps = 400000
			above, all := 0.0, 0.0
			for i := range steps {
				x := (float64(i) + 0.5) / steps
				d := math.Exp((float64(p.Hits)-0.5)*math.Log(x) + (float64(p.Rest().Hits)-0.5)*math.Log1p(-x))
				all += d
				if x >= limit {
					above += d
				}
			}
			got := p.ChanceAtLeast(limit)
			near(t, fmt.Sprint(p, " at ", limit), got, above/all, 1e-5) // the steps
			bad := Plan{p.Of, p.Of - p.Hits}.AcceptChance(1 - limit)
			worse := Plan{p.Of, p.Of - p.Hits - 1}.AcceptChance(1 - limit)
			if p.Hits < p.Of && !(got <= 1-worse+1e-12 && got >= 1-bad-1e-12) {
				t.Errorf("%v at %g: %g is not within %g to %g", p, limit, got, 1-bad, 1-worse)
			}
		}
	}
	near(t, "half of half", Proportion{50, 100}.ChanceAtLeast(0.5), 0.5, 1e-12)
	for _, x := range []float64{Proportion{5, 4}.ChanceAtLeast(0.5), Proportion{1, 2}.ChanceAtLeast(1.1)} {
		if !math.IsNaN(x) {
			t.Errorf("%g of what cannot be", x)
		}
	}
}

func TestAgainstLimit(t *testing.T) {
	for chance, want := range map[float64]string{0.99: "odds.limit.met", 0.5: "odds.limit.near", 0.02: "odds.limit.missed"} {
		if got := AgainstLimit(chance); len(got) != 1 || got[0].Code != want {
			t.Errorf("%g: %v, want %s", chance, got, want)
		}
	}
	if got := AgainstLimit(math.NaN()); got != nil {
		t.Errorf("of an unknown chance: %v", got)
	}
}
