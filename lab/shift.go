package lab

import (
	"math"

	"awn/odds"
)

// leastSide is how many readings must lie before a change, and after it.
const leastSide = 3

// Shift is the change of level that explains the readings of a chart best: a step
// from one day to the next, or a drift that began on a day and goes on.
type Shift struct {
	Gradual         bool
	At              int     // the first reading after it
	First, Last     int     // the change may as well have come anywhere from First to Last
	Size, Low, High float64 // by how much the newest reading lies off, 95 of 100
	PerDay          float64 // of a drift
	Gain            float64 // twice the log-likelihood that it is worth
}

// FindShift looks for a change in readings of which the standard deviation is
// known with some degrees of freedom (endless if it is given). It looks at every
// day and at both kinds; the interval holds the sizes that any of them allows, so
// that the looking is paid for. It reports false where there are too few readings.
//
// For each day and kind g the readings are fitted as a + b g; twice the
// log-likelihood of b is (b/se)², and what lies within the square of Student's
// quantile below the best is as likely.
func FindShift(day, x []float64, sigma, freedom float64) (Shift, bool) {
	var at, value []float64
	var place []int
	for i, v := range x {
		if !math.IsNaN(v) && !math.IsNaN(day[i]) {
			at, value, place = append(at, day[i]), append(value, v), append(place, i)
		}
	}
	n := len(value)
	if n < 2*leastSide || !(sigma > 0) {
		return Shift{}, false
	}
	var all []shiftFit
	for from := leastSide; from <= n-leastSide; from++ {
		for _, gradual := range [2]bool{false, true} {
			if f, ok := fitShift(at, value, from, gradual, sigma); ok {
				all = append(all, f)
			}
		}
	}
	if len(all) == 0 {
		return Shift{}, false
	}
	return bestShift(all, place, n, freedom), true
}

// shiftFit is one way to explain the readings.
type shiftFit struct {
	from       int
	gradual    bool
	size, se   float64 // of the newest reading
	perDay     float64
	likelihood float64
}

func fitShift(day, x []float64, from int, gradual bool, sigma float64) (shiftFit, bool) {
	n := len(x)
	g := make([]float64, n)
	for i := from; i < n; i++ {
		g[i] = 1
		if gradual {
			g[i] = day[i] - day[from-1]
		}
	}
	meanG, meanX := plainMean(g), plainMean(x)
	gg, gx := 0.0, 0.0
	for i := range x {
		gg += (g[i] - meanG) * (g[i] - meanG)
		gx += (g[i] - meanG) * (x[i] - meanX)
	}
	if !(gg > 0) {
		return shiftFit{}, false
	}
	slope, se := gx/gg, sigma/math.Sqrt(gg)
	f := shiftFit{from: from, gradual: gradual, size: slope * g[n-1], se: se * g[n-1], likelihood: slope * slope / (se * se), perDay: math.NaN()}
	if gradual {
		f.perDay = slope
	}
	return f, true
}

func bestShift(all []shiftFit, place []int, n int, freedom float64) Shift {
	best := all[0]
	for _, f := range all {
		if f.likelihood > best.likelihood {
			best = f
		}
	}
	t := odds.NormalQuantile(0.975)
	if !math.IsInf(freedom, 1) {
		t = odds.StudentQuantile(0.975, max(freedom, 1))
	}
	s := Shift{Gradual: best.gradual, At: place[best.from], First: place[n-1], Last: place[0], Size: best.size, PerDay: best.perDay,
		Gain: best.likelihood, Low: math.Inf(1), High: math.Inf(-1)}
	for _, f := range all {
		left := t*t - (best.likelihood - f.likelihood)
		if left < 0 {
			continue
		}
		half := math.Sqrt(left) * f.se
		s.Low, s.High = min(s.Low, f.size-half), max(s.High, f.size+half)
		s.First, s.Last = min(s.First, place[f.from]), max(s.Last, place[f.from])
	}
	return s
}

// plainMean is NaN of nothing.
func plainMean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}
