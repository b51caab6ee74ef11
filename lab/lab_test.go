package lab

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"awn/odds"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g ± %.2g", what, got, want, tolerance)
	}
}

// threeDays is 60, 32 and 5 kernels of 100 on the first three days.
var threeDays = Sums([]Count{{24, 60, 100}, {48, 32, 100}, {72, 5, 100}})

func ExampleIndex() {
	counts := Sums([]Count{{24, 60, 100}, {48, 32, 100}, {72, 5, 100}})
	v := IndexValue(counts)
	fmt.Printf("%.2f (%.2f to %.2f)\n", Index(counts), v.Low, v.High)
	// Output: 6.98 (6.52 to 7.51)
}

func ExampleWaterSensitivity() {
	ws := WaterSensitivity(odds.Proportion{Hits: 99, Of: 100}, odds.Proportion{Hits: 91, Of: 100})
	fmt.Printf("%.0f points (%.0f to %.0f)\n", 100*ws.Mid, 100*ws.Low, 100*ws.High)
	// Output: 8 points (3 to 14)
}

// Worked example of the index, mean time and energy: 59.0, 38.9 and 0.1 per
// cent at 24, 48 and 72 h; here of 1000 kernels.
func TestWorkedGermination(t *testing.T) {
	counts := Sums([]Count{{24, 590, 1000}, {48, 389, 1000}, {72, 1, 1000}})
	energy, ok := Energy(counts)
	if !ok {
		t.Fatal("no energy")
	}
	near(t, "energy", energy.Fraction(), 0.980, 1e-12)
	near(t, "index", Index(counts), 7.15, 0.005)
	near(t, "mean time", MeanTimeH(counts), 33.6, 0.05)
	near(t, "index of 60, 32, 5", Index(threeDays), 6.98, 0.005)
}

func TestAllOnTheFirstDay(t *testing.T) {
	counts := []Count{{24, 100, 100}, {48, 100, 100}, {72, 100, 100}}
	near(t, "index", Index(counts), 10, 0)
	v := IndexValue(counts)
	if v.High != 10 || !(v.Low > 9.5 && v.Low < 10) {
		t.Errorf("100 kernels on the first day do not make 10 certain: %+v", v)
	}
	if !math.IsNaN(Homogeneity(counts)) {
		t.Error("one look cannot tell the homogeneity")
	}
	near(t, "T50", T50H(counts), 12, 1e-12)
}

// Hand arithmetic on whole numbers: 50 at 24 h and 50 at 48 h have mean 36 h
// and variance 144 h².
func TestMomentsByHand(t *testing.T) {
	counts := []Count{{24, 50, 100}, {48, 100, 100}}
	near(t, "mean", MeanTimeH(counts), 36, 1e-12)
	near(t, "homogeneity", Homogeneity(counts), 100./144, 1e-12)
	near(t, "T50", T50H(counts), 24, 1e-12)
	// 20 of the 80 that germinate by 24 h, 60 by 48 h: half (40) at 36 h.
	near(t, "T50 of part", T50H([]Count{{24, 20, 100}, {48, 60, 100}, {72, 80, 100}}), 36, 1e-12)
}

// The limits against repeated tests drawn with the same shares: nine tests in
// ten should lie within limits of the same width around the truth.
func TestLimitsAgainstDrawnTests(t *testing.T) {
	shares := []float64{0.60, 0.92, 0.97} // running shares of the first three days
	const laid, tests = 100, 4000
	r := rand.New(rand.NewPCG(7, 7))
	truth := []Count{{24, 6000, 10000}, {48, 9200, 10000}, {72, 9700, 10000}}
	measures := map[string]struct {
		value func([]Count) odds.Value
		true  float64
	}{
		"index":       {IndexValue, Index(truth)},
		"mean time":   {MeanTimeValue, MeanTimeH(truth)},
		"homogeneity": {HomogeneityValue, Homogeneity(truth)},
		"T50":         {T50Value, T50H(truth)},
	}
	covered := map[string]int{}
	for range tests {
		counts := []Count{{24, 0, laid}, {48, 0, laid}, {72, 0, laid}}
		for range laid {
			u := r.Float64()
			for i, s := range shares {
				if u < s {
					counts[i].Germinated++
				}
			}
		}
		for name, m := range measures {
			if v := m.value(counts); v.Low <= m.true && m.true <= v.High {
				covered[name]++
			}
		}
	}
	// Promised 0.90; 4000 tests place that within 0.01. The limits of the mean
	// keep it. Those of T50 are wider, as ranks are whole kernels on straight
	// lines; those of homogeneity are narrower, as its variance hangs on the few
	// late kernels. Both are stated in their comments.
	for name, want := range map[string]struct{ least, most float64 }{
		"index": {0.89, 0.92}, "mean time": {0.89, 0.92}, "homogeneity": {0.82, 0.92}, "T50": {0.89, 0.98},
	} {
		if share := float64(covered[name]) / tests; share < want.least || share > want.most {
			t.Errorf("limits of %s hold the truth in %.3f of tests", name, share)
		}
	}
}

func TestDormantAndDeadStayApart(t *testing.T) {
	energy, capacity := odds.Proportion{Hits: 80, Of: 100}, odds.Proportion{Hits: 97, Of: 100}
	dormant, ok := DormantOfSame(capacity, energy)
	if !ok || dormant.Hits != 17 {
		t.Errorf("dormant %v %v, want 17", dormant, ok)
	}
	if dead := Dead(capacity); dead.Hits != 3 {
		t.Errorf("dead %v, want 3", dead)
	}
	apart, same := Dormant(capacity, energy), dormant.Value(odds.Measured)
	near(t, "same middle", apart.Mid, same.Mid, 1e-12)
	if !(apart.High-apart.Low > same.High-same.Low) {
		t.Error("separate samples must give the wider limits")
	}
	if _, ok := DormantOfSame(energy, capacity); ok {
		t.Error("the same kernels cannot lose life")
	}
	near(t, "sampling can turn it", Dormant(energy, capacity).Mid, -0.17, 1e-12)
}

func TestRefusedCounts(t *testing.T) {
	for want, counts := range map[Problem][]Count{
		NoCounts:    nil,
		NothingSown: {{24, 0, 0}},
		OfChanges:   {{24, 1, 100}, {48, 2, 99}},
		HoursFall:   {{48, 1, 100}, {24, 2, 100}},
		TotalFalls:  {{24, 60, 100}, {48, 32, 100}},
		TooMany:     {{24, 101, 100}},
	} {
		var e *CountError
		if err := CheckCounts(counts); !errors.As(err, &e) || e.Problem != want {
			t.Errorf("%v: %v, want %s", counts, err, want)
		}
		if !math.IsNaN(Index(counts)) || !math.IsNaN(MeanTimeH(counts)) || !math.IsNaN(T50H(counts)) || !math.IsNaN(Homogeneity(counts)) {
			t.Errorf("%v: figures from counts that cannot be", counts)
		}
		if IndexValue(counts).Known() || MeanTimeValue(counts).Known() || T50Value(counts).Known() || HomogeneityValue(counts).Known() {
			t.Errorf("%v: bands from counts that cannot be", counts)
		}
		if _, ok := Energy(counts); ok {
			t.Errorf("%v: energy from counts that cannot be", counts)
		}
	}
	if CheckCounts([]Count{{math.NaN(), 1, 100}}) == nil || CheckCounts([]Count{{math.Inf(1), 1, 100}}) == nil {
		t.Error("hours that are no number must be refused")
	}
}

func TestNothingGerminates(t *testing.T) {
	counts := []Count{{24, 0, 100}, {48, 0, 100}, {72, 0, 100}}
	energy, ok := Energy(counts)
	if !ok || energy.Hits != 0 {
		t.Errorf("energy %v %v, want 0 of 100", energy, ok)
	}
	for i, x := range []float64{Index(counts), MeanTimeH(counts), Homogeneity(counts), T50H(counts)} {
		if !math.IsNaN(x) {
			t.Errorf("figure %d of a dead lot is %v", i, x)
		}
	}
}

func TestIndexNeedsItsDays(t *testing.T) {
	if !math.IsNaN(Index([]Count{{48, 90, 100}, {72, 95, 100}})) {
		t.Error("no index without the first day")
	}
	more := []Count{{16, 5, 100}, {24, 60, 100}, {40, 80, 100}, {48, 92, 100}, {72, 97, 100}, {120, 99, 100}}
	near(t, "other looks passed over", Index(more), Index(threeDays), 1e-12)
}
