package mixed

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func TestImpossibleModels(t *testing.T) {
	level := []int{0, 0, 1, 1}
	good := Term{Name: "variety", Level: level, Levels: 2, Random: true}
	y := []float64{1, 2, 3, 5}
	for _, c := range []struct {
		name string
		m    Model
		want Problem
	}{
		{"nothing", Model{}, Empty},
		{"not a number", Model{Y: []float64{1, math.NaN()}}, NotFinite},
		{"short term", Model{Y: y, Terms: []Term{{Name: "a", Level: level[:2], Levels: 2}}}, Lengths},
		{"level outside", Model{Y: y, Terms: []Term{{Name: "a", Level: level, Levels: 1}}}, Outside},
		{"same name", Model{Y: y, Terms: []Term{good, good}}, Twice},
		{"all equal", Model{Y: []float64{7, 7, 7, 7}, Terms: []Term{good}}, Constant},
		{"nothing left over", Model{Y: y, Terms: []Term{{Name: "plot", Level: []int{0, 1, 2, 3}, Levels: 4}}}, NoFreedom},
		{"plots of their own", Model{Y: y, Terms: []Term{{Name: "plot", Level: []int{0, 1, 2, 3}, Levels: 4, Random: true}}}, Mingled},
		{"one level", Model{Y: y, Terms: []Term{{Name: "site", Level: []int{0, 0, 0, 0}, Levels: 1, Random: true}}}, Mingled},
		{"parted alike", Model{Y: y, Terms: []Term{good, {Name: "site", Level: []int{1, 1, 0, 0}, Levels: 2, Random: true}}}, Mingled},
		{"within the fixed part", Model{Y: append(y, 4), Terms: []Term{
			{Name: "site", Level: []int{0, 0, 1, 1, 1}, Levels: 2, Random: true}, {Name: "environment", Level: []int{0, 0, 1, 1, 2}, Levels: 3},
		}}, Mingled},
		{"weight of nought", Model{Y: y, Weight: []float64{1, 1, 1, 0}}, NotFinite},
		{"short covariate", Model{Y: y, Covariates: []Covariate{{"x", y[:1]}}}, Lengths},
		{"infinite covariate", Model{Y: y, Covariates: []Covariate{{"x", []float64{1, 2, 3, math.Inf(1)}}}}, NotFinite},
	} {
		_, err := c.m.Fit(context.Background(), Options{})
		var wrong *Error
		if !errors.As(err, &wrong) || wrong.Problem != c.want {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
	}
	if _, err := (Model{Y: y, Terms: []Term{good}}).Fit(context.Background(), Options{Hold: map[string]float64{"site": 1}}); err == nil {
		t.Error("a held variance of no term must be refused")
	}
}

// Two sites without a common variety: within a site varieties compare, across
// sites they cannot.
func TestDisconnected(t *testing.T) {
	m := Model{Terms: []Term{{Name: "variety", Levels: 6}, {Name: "site", Levels: 2}, {Name: "rep", Levels: 6, Random: true}}}
	r := rand.New(rand.NewPCG(1, 1))
	for v := range 6 {
		for k := range 3 {
			m.Y = append(m.Y, 5+float64(v)+r.NormFloat64())
			m.Terms[0].Level = append(m.Terms[0].Level, v)
			m.Terms[1].Level = append(m.Terms[1].Level, v/3)
			m.Terms[2].Level = append(m.Terms[2].Level, v/3*3+k)
		}
	}
	f := fit(t, m)
	if f.Rank != 6 {
		t.Errorf("rank %d, want 6: four varieties in two sites", f.Rank)
	}
	means, err := f.Means("variety")
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range []Estimate{means.At(0), means.At(5)} {
		if e.Known() || !math.IsNaN(e.SE) {
			t.Errorf("mean %d over both sites cannot be told: %+v", i, e)
		}
	}
}

// A variety in every place and a slope: the slope that was put in comes out,
// one that is the same as a place does not.
func TestCovariate(t *testing.T) {
	m := drawn(20, 8, 1, 0.1)
	r := rand.New(rand.NewPCG(3, 3))
	x, place := make([]float64, len(m.Y)), make([]float64, len(m.Y))
	for i := range x {
		x[i] = 12 + 3*r.NormFloat64()
		m.Y[i] = 100 + 0.01*m.Y[i] - 2*x[i]
		place[i] = float64(m.Terms[1].Level[i])
	}
	m.Covariates = []Covariate{{"protein", x}, {"place", place}}
	f := fit(t, m)
	slope, err := f.Slope("protein")
	if err != nil {
		t.Fatal(err)
	}
	// The plot error left is 0.004 on about 140 plots with a spread of 3.
	near(t, "slope", slope.Value, -2, 5*slope.SE)
	near(t, "its error", slope.SE, 0.005/3/math.Sqrt(float64(len(x))), 2e-4)
	if slope, err = f.Slope("place"); err != nil || slope.Known() {
		t.Errorf("a slope along places that are fixed cannot be told: %v, %v", slope, err)
	}
	if _, err := f.Slope("variety"); err == nil {
		t.Error("a term has no slope")
	}
}

// A mean of w plots counts as w plots: fitting plots and fitting their means
// with weights gives the same effects.
func TestWeightsAreReplicates(t *testing.T) {
	plots := drawn(15, 6, 2, 0)
	plots.Terms = plots.Terms[:2] // blocks and interaction left out
	sums := map[[2]int][2]float64{}
	for i, y := range plots.Y {
		key := [2]int{plots.Terms[0].Level[i], plots.Terms[1].Level[i]}
		sums[key] = [2]float64{sums[key][0] + y, sums[key][1] + 1}
	}
	means := Model{Terms: []Term{{Name: "variety", Levels: 15, Random: true}, {Name: "environment", Levels: 6}}}
	for v := range 15 {
		for e := range 6 {
			s := sums[[2]int{v, e}]
			means.Y, means.Weight = append(means.Y, s[0]/s[1]), append(means.Weight, s[1])
			means.Terms[0].Level, means.Terms[1].Level = append(means.Terms[0].Level, v), append(means.Terms[1].Level, e)
		}
	}
	whole := fit(t, plots)
	hold := map[string]float64{"variety": whole.Variance("variety"), Residual: whole.Variance(Residual)}
	part, err := means.Fit(context.Background(), Options{Hold: hold})
	if err != nil {
		t.Fatal(err)
	}
	a, err := whole.Effects("variety")
	if err != nil {
		t.Fatal(err)
	}
	b, err := part.Effects("variety")
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Value {
		near(t, "effect", b.Value[i], a.Value[i], 1e-9)
		near(t, "its error", b.At(i).SE, a.At(i).SE, 1e-9)
	}
}

// With a mean alone the profile is a closed form: f (ln(v/s²) + s²/v - 1) is
// chi-squared at the ends.
func TestIntervalOfResidual(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	f := fit(t, Model{Y: draws(r, 12, 3)})
	low, high, err := f.Interval(context.Background(), Residual, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	s2 := f.Variance(Residual)
	for _, v := range []float64{low, high} {
		near(t, "chi-squared", 11*(math.Log(v/s2)+s2/v-1), 2.7055, 0.01)
	}
	if !(low < s2 && s2 < high) {
		t.Errorf("%v is not between %v and %v", s2, low, high)
	}
}

func TestIntervalReachesZero(t *testing.T) {
	c := table(t, "immer.csv")
	f := fit(t, Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", true, "variety"), c.term("environment", true, "site", "year"), c.term("variety year", true, "variety", "year"),
	}})
	low, high, err := f.Interval(context.Background(), "variety year", 0.95)
	if err != nil || low != 0 || !(high > f.Variance("variety year")) {
		t.Errorf("variety by year %v: %v to %v, %v", f.Variance("variety year"), low, high, err)
	}
	low, high, err = f.Interval(context.Background(), "environment", 0.95)
	if v := f.Variance("environment"); err != nil || !(low > 20 && low < v && high > v && high < 400) {
		t.Errorf("environment %v: %v to %v, %v", v, low, high, err)
	}
	if _, _, err := f.Interval(context.Background(), "site", 0.95); err == nil {
		t.Error("a term that is not there has no interval")
	}
}

func TestStopsWhenTold(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	m := drawn(20, 8, 2, 0)
	_, err := m.Fit(ctx, Options{Progress: func(int, float64) { stop() }})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v, want canceled", err)
	}
}

// Chance trials of all shapes: whatever comes out is finite or said to be
// unknown, and no likelihood is above the one found.
func TestNothingBreaks(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range 300 {
		m := drawn(1+r.IntN(8), 1+r.IntN(5), 1+r.IntN(3), 0.4*r.Float64())
		for k := range m.Terms {
			m.Terms[k].Random = r.IntN(2) == 0
		}
		f, err := m.Fit(context.Background(), Options{})
		var wrong *Error
		if errors.As(err, &wrong) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if !f.Converged || !finite(f.LogLik) {
			t.Errorf("%+v of %d observations: converged %v at %v", f.Components, f.N, f.Converged, f.LogLik)
		}
		for _, c := range f.Components {
			if !(c.Variance >= 0) {
				t.Errorf("variance %+v", c)
			}
		}
	}
}

// A variance that is held stays, however poor it is.
func TestHeldStays(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range 50 {
		m := drawn(2+r.IntN(6), 2+r.IntN(3), 2, 0.3)
		hold := math.Exp(4 * r.NormFloat64())
		f, err := m.Fit(context.Background(), Options{Hold: map[string]float64{"variety": hold}})
		var wrong *Error
		if errors.As(err, &wrong) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "held", f.Variance("variety"), hold, 1e-9)
		for _, c := range f.Components {
			if c.Held != (c.Name == "variety") {
				t.Errorf("%+v", c)
			}
		}
	}
}
