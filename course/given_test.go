package course_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"awn/course"
	"awn/programme"
)

// looks are when somebody looks at a piece, and at what.
var looks = []course.Found{
	{TimeH: 20, Of: programme.Moisture, U: 0.006}, {TimeH: 46, Of: programme.Moisture, U: 0.006},
	{TimeH: 80, Of: programme.Acrospire, U: 0.05}, {TimeH: 110, Of: programme.Moisture, U: 0.006}, {TimeH: 130, Of: programme.Acrospire, U: 0.05},
}

func TestNothingFoundChangesNothing(t *testing.T) {
	e := drawn(t, course.Sampling{Draws: 40, Seed: 5}, coarse(t, "piece.yaml"))[0]
	given, n := e.Given(nil)
	if math.Abs(n-40) > 1e-9 || fmt.Sprint(given.Bands) != fmt.Sprint(e.Bands) {
		t.Errorf("%g draws count, and the bands differ", n)
	}
	given, n = e.Given([]course.Found{{TimeH: 1e4, Of: programme.Moisture, Value: 0.4}, {TimeH: 20, Of: programme.FanPower, Value: 3}, {TimeH: 20, Of: programme.Moisture, Value: math.NaN()}})
	if math.Abs(n-40) > 1e-9 || len(given.Bands) != len(e.Bands) {
		t.Errorf("readings that tell nothing leave %g draws", n)
	}
}

// The weights against the rule for two normal laws (Gelman et al. 2013, §2.5):
// what was believed and what was found, each by the inverse of its variance.
func TestGivenAgainstTheNormalRule(t *testing.T) {
	e := drawn(t, course.Sampling{Draws: 600, Seed: 11, Workers: 2}, coarse(t, "piece.yaml"))[0]
	const h, u = 20.0, 0.01
	believed, doubt := spread(e, h)
	found := believed + 0.5*doubt
	given, n := e.Given([]course.Found{{TimeH: h, Of: programme.Moisture, Value: found, U: u}})
	after, left := spread(given, h)
	precision := 1/(doubt*doubt) + 1/(u*u)
	mean := (believed/(doubt*doubt) + found/(u*u)) / precision
	sd := 1 / math.Sqrt(precision)
	// The draws are nearly normal and 600: four standard errors of a mean and a deviation of n draws.
	if math.Abs(after-mean) > 4*sd/math.Sqrt(n)+0.1*sd || math.Abs(left/sd-1) > 4/math.Sqrt(2*n)+0.1 {
		t.Errorf("mean %.5f, deviation %.5f, want %.5f and %.5f; rests on %.0f draws", after, left, mean, sd, n)
	}
}

// spread is the mean and the standard deviation of the moisture at an hour.
func spread(e *course.Ensemble, h float64) (mean, deviation float64) {
	values := make([]float64, e.Done)
	for k := range values {
		values[k] = e.Drawn(k, h, programme.Moisture)
	}
	return stat.MeanStdDev(values, nil)
}

// Pieces whose course is known, looked at with the doubt that looks have: of
// bands for 8 in 10, about 8 in 10 hold (Talts et al. 2018: what is drawn from
// the prior lies evenly in what is given of it).
func TestBandsGivenReadingsHoldAsOftenAsTheySay(t *testing.T) {
	const draws, truths = 400, 60
	e := drawn(t, course.Sampling{Draws: draws, Seed: 7, Workers: 2}, coarse(t, "piece.yaml"))[0]
	rng := rand.New(rand.NewPCG(1, 2))
	const later = 150.0 // h, on the kiln's eve
	held, of := 0, 0
	widths, before := 0.0, 0.0
	for k := range truths {
		found := append([]course.Found{}, looks...)
		for i := range found {
			found[i].Value = e.Drawn(k, found[i].TimeH, found[i].Of) + found[i].U*rng.NormFloat64()
		}
		given, n := e.Without(k).Given(found)
		if n < 25 {
			continue // what was found lies at the rim of what was drawn, and is said to
		}
		low, high := around(given, later)
		wasLow, wasHigh := around(e, later)
		if x := e.Drawn(k, later, programme.Acrospire); low <= x && x <= high {
			held++
		}
		widths, before = widths+high-low, before+wasHigh-wasLow
		of++
	}
	t.Logf("%d of %d hold, %.2f as wide as before", held, of, widths/before)
	if of < truths/2 || widths > 0.75*before {
		t.Errorf("%d of %d truths could be told, by bands %.2f as wide as before", of, truths, widths/before)
	}
	if share, sd := float64(held)/float64(of), math.Sqrt(0.8*0.2/float64(of)); math.Abs(share-0.8) > 3*sd {
		t.Errorf("bands for 80 in 100 hold %.0f in 100", 100*share)
	}
}

// around is the 10th and 90th percentile of growth at an hour.
func around(e *course.Ensemble, h float64) (low, high float64) {
	for i, at := range e.Curve.TimeH {
		if at >= h {
			return e.Curve.P10[i][programme.Acrospire], e.Curve.P90[i][programme.Acrospire]
		}
	}
	return math.NaN(), math.NaN()
}
