package variety

import (
	"errors"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Traits that have nothing to do with each other: each weight is its economic
// weight times its heritability, and the accuracy follows.
func TestSmithHazelOfIndependentTraits(t *testing.T) {
	c := &Covariances{Traits: []string{"a", "b"}, Genetic: mat.NewSymDense(2, []float64{2, 0, 0, 9}), Phenotypic: mat.NewSymDense(2, []float64{4, 0, 0, 10})}
	x, err := c.SmithHazel([]float64{1, -2})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "weight a", x.Weights[0], 0.5, 1e-12)
	near(t, "weight b", x.Weights[1], -1.8, 1e-12)
	near(t, "accuracy", x.Accuracy, math.Sqrt((0.25*4+1.8*1.8*10)/(2+4*9)), 1e-12)
	if _, err := c.SmithHazel([]float64{1}); !errors.Is(err, ErrWeights) {
		t.Error("a weight is missing")
	}
	c.Phenotypic = mat.NewSymDense(2, []float64{4, 4, 4, 4})
	if _, err := c.SmithHazel([]float64{1, 1}); !errors.Is(err, ErrSingular) {
		t.Error("two traits that are one must be refused")
	}
}

// Steptoe by Morex: six traits of 152 lines in the five environments that have
// all. R 4.2.2, with invented weights per genetic standard deviation.
func TestIndicesOfSteptoe(t *testing.T) {
	names := []string{"yield", "malt", "protein", "amylase", "diapow", "height"}
	tr := trials(t, public(t, "steptoe.morex.pheno.txt"), Layout{})
	five := tr
	five.Records = slices.DeleteFunc(slices.Clone(tr.Records), func(r Record) bool {
		return !slices.Contains([]string{"MN92", "ID91", "WA91", "MTi91", "ID92"}, r.Environment)
	})
	c := five.Covariances(names...)
	if len(c.Entries) != 152 || len(c.Environments) != 5 {
		t.Fatalf("%d entries, %d environments", len(c.Entries), len(c.Environments))
	}
	near(t, "genetic variance of yield", c.Genetic.At(0, 0), 0.37153230919, 1e-9)
	near(t, "genetic covariance", c.Genetic.At(1, 4), 7.8250888811, 1e-8)
	near(t, "phenotypic variance", c.Phenotypic.At(1, 1), 1.4300751481, 1e-9)
	near(t, "residual product", c.Residual.At(0, 2), -0.089917123736, 1e-10)
	for _, want := range []struct {
		name                 string
		perSpread, b         []float64
		accuracy, base, best float64
		top                  string
	}{
		{"grower", []float64{1, 0, -0.25, 0, 0, -0.5}, []float64{1.1350589605, 0.046312230284, -0.25366989633, -0.029613473249, 0.00032691444892, -0.075455627662}, 0.92815946026, 0.91853843788, 2.3937429993, "SM40"},
		{"maltster", []float64{0.25, 1, -0.5, 0.5, 0.5, 0}, []float64{0.25337136317, 0.91761258411, -0.2806687732, 0.046846131449, 0.035381873919, -0.010926445944}, 0.91315054311, 0.89758413682, 5.6422747624, "SM127"},
		{"brewer", []float64{0, 1, -0.5, 0.5, 0.25, 0}, []float64{-0.0086322366862, 0.86870680895, -0.29235728754, 0.06153888287, 0.021535309929, -0.0070409418623}, 0.89812406747, 0.88217041921, 5.3607329341, "SM127"},
	} {
		a := make([]float64, len(names))
		for k, w := range want.perSpread {
			a[k] = w / math.Sqrt(c.Genetic.At(k, k))
		}
		x, err := c.SmithHazel(a)
		if err != nil {
			t.Fatal(err)
		}
		for k := range names {
			closeTo(t, want.name+" "+names[k], x.Weights[k], want.b[k], 1e-6)
		}
		near(t, want.name+" accuracy", x.Accuracy, want.accuracy, 1e-9)
		base, err := c.Base(a)
		if err != nil {
			t.Fatal(err)
		}
		near(t, want.name+" accuracy of the base index", base.Accuracy, want.base, 1e-9)
		best, top := math.Inf(-1), ""
		for i, entry := range c.Entries {
			if v := x.Of(c.less(i)); v > best {
				best, top = v, entry
			}
		}
		near(t, want.name+" best", best, want.best, 1e-6)
		if top != want.top {
			t.Errorf("%s: best is %s, want %s", want.name, top, want.top)
		}
	}
	gains, err := c.DesiredGains([]float64{0.60953450205, 1.0738602541, 0, 1.4527967771, 7.8806936794, 0})
	if err != nil {
		t.Fatal(err)
	}
	for k, b := range []float64{2.6175412518, 0.19556642989, -0.1943071105, 0.1915203848, 0.018787277947, 0.10685011839} {
		closeTo(t, "desired gains "+names[k], gains.Weights[k], b, 1e-6)
	}
}

// Any text on selection: a tenth 1.755, a twentieth 2.063.
func TestIntensity(t *testing.T) {
	near(t, "a tenth", Intensity(0.10), 1.755, 5e-4)
	near(t, "a twentieth", Intensity(0.05), 2.063, 5e-4)
	if !math.IsNaN(Intensity(0)) || !math.IsNaN(Intensity(1)) {
		t.Error("no share, no intensity")
	}
}

// The figures of one line of Steptoe by Morex: three wishes wholly or nearly met,
// two half. R 4.2.2 gives 0.84177 for the whole.
func TestDesirability(t *testing.T) {
	wishes, given := []Desirability{}, []float64{0.96796992343, 1, 0.69230769231, 0.49536389083, 0.9319946038}
	for k, weight := range []float64{1, 1, 0.5, 0.5, 0.5} {
		wishes = append(wishes, Desirability{Trait: string(rune('a' + k)), Direction: Higher, Low: 0, High: 1, Weight: weight})
	}
	near(t, "overall", Overall(wishes, given), 0.84177180554, 1e-9)
	given[3] = -2
	near(t, "one that cannot be used", Overall(wishes, given), 0, 0)

	window := Desirability{Direction: Window, Low: 9, Target: 10.5, High: 11.5}
	for y, d := range map[float64]float64{9: 0, 9.75: 0.5, 10.5: 1, 11: 0.5, 11.5: 0, 14: 0} {
		near(t, "window", window.Of(y), d, 1e-12)
	}
	less := Desirability{Direction: Lower, Low: 10, High: 20, Shape: 2}
	for y, d := range map[float64]float64{5: 1, 10: 1, 15: 0.25, 20: 0} {
		near(t, "lower", less.Of(y), d, 1e-12)
	}
	if !math.IsNaN((Desirability{Direction: Higher, Low: 1, High: 1}).Of(1)) || !math.IsNaN(window.Of(math.NaN())) || !math.IsNaN(Overall(nil, nil)) {
		t.Error("what cannot be said is NaN")
	}
}
