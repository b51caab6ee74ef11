package lab

import (
	"math"

	"awn/odds"
)

// The hours at which the germination index is counted.
var indexH = [3]float64{24, 48, 72}

// Index is the germination index: 10 if all that germinate do so on the first
// day, lower the longer they take. Counts at other hours are passed over.
//
//	GI = 10 (x + y + z) / (x + 2y + 3z)        (x, y, z newly germinated at 24, 48, 72 h)
//
// Recalled: Riis and Bang-Olsen 1991.
// Valid: counts at 24, 48 and 72 h and at least one germinated; NaN otherwise.
// Check: 60, 32, 5 of 100 give 6.98.
func Index(counts []Count) float64 {
	return 10 / mean(daily(counts))
}

// IndexValue is the germination index with its sampling limits. They come from
// the limits of the mean day, half a kernel added to each day so that a
// unanimous count does not pass for certainty.
func IndexValue(counts []Count) odds.Value {
	days := daily(counts)
	v := meanValue(days).Map(func(day float64) float64 { return 10 / day })
	v.Low, v.High = math.Max(v.Low, 10/float64(len(indexH))), math.Min(v.High, 10)
	return v
}

// MeanTimeH is the mean germination time in hours, each kernel counted at the
// look that found it: late by about half the time between looks.
//
//	MGT = Σ n t / Σ n        (n newly germinated at the look at t)
//
// Recalled: Riis and Bang-Olsen 1991.
// Valid: possible counts with at least one germinated; NaN otherwise.
// Check: 59.0, 38.9 and 0.1 per cent at 24, 48 and 72 h give 33.6 h.
func MeanTimeH(counts []Count) float64 { return mean(looks(counts)) }

// MeanTimeValue is the mean germination time with its sampling limits.
func MeanTimeValue(counts []Count) odds.Value { return meanValue(looks(counts)) }

// Homogeneity is the germination homogeneity, higher the closer together the
// kernels germinate, in 1/h² times 100.
//
//	GH = 100 Σ n / Σ n (t - MGT)²        (t in h)
//
// Recalled: Riis and Bang-Olsen 1991.
// Valid: germination seen at two looks or more; NaN otherwise, as one look cannot tell.
// Note: with t in days the figure is 576 times larger.
func Homogeneity(counts []Count) float64 {
	if _, spread := moments(looks(counts)); spread > 0 {
		return 100 / spread
	}
	return math.NaN()
}

// HomogeneityValue is the homogeneity with its sampling limits, from the
// standard error of a variance by its fourth moment. On 100 kernels counted
// three times they hold the truth in about 85 tests of 100, not 90.
func HomogeneityValue(counts []Count) odds.Value {
	mid := Homogeneity(counts)
	seen := smoothed(looks(counts))
	centre, variance := moments(seen)
	fourth := 0.0
	for _, g := range seen {
		fourth += g.n * math.Pow(g.at-centre, 4)
	}
	n := total(seen)
	deviation := math.Sqrt(math.Max(0, fourth/n/(variance*variance)-1) / n)
	return odds.WithDeviation(math.Log(mid), deviation, odds.Measured).Map(math.Exp)
}

// T50H is the hour by which half of the kernels that germinate have done so,
// on straight lines between the looks.
//
//	T50 = ti + (Nf/2 - ci) (tj - ti) / (cj - ci)        (c running totals, Nf the last)
//
// Recalled: Coolbear 1984.
// Valid: possible counts with at least one germinated; NaN otherwise.
func T50H(counts []Count) float64 { return hourOfShare(counts, 0.5) }

// T50Value is T50 with its sampling limits: the hours of the ranks between
// which the median of that many kernels lies, somewhat wider than they need be.
func T50Value(counts []Count) odds.Value {
	n := total(looks(counts))
	half := odds.NormalQuantile(0.95) / (2 * math.Sqrt(n))
	return odds.Value{
		Mid: T50H(counts), Standing: odds.Measured,
		Low:  hourOfShare(counts, math.Max(0, 0.5-half)),
		High: hourOfShare(counts, math.Min(1, 0.5+half)),
	}
}

// hourOfShare is the hour by which the given share of those that germinate at
// all have germinated.
func hourOfShare(counts []Count, share float64) float64 {
	if total(looks(counts)) == 0 {
		return math.NaN()
	}
	want := share * float64(counts[len(counts)-1].Germinated)
	before := Count{}
	for _, c := range counts {
		if c.Germinated > before.Germinated && float64(c.Germinated) >= want {
			fraction := (want - float64(before.Germinated)) / float64(c.Germinated-before.Germinated)
			return before.AtH + fraction*(c.AtH-before.AtH)
		}
		before = c
	}
	return math.NaN()
}
