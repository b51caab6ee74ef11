package odds

import (
	"math"
	"slices"
)

// Value is a figure with its 5th and 95th percentile and how well it is
// known. Low and High are NaN where no band is known.
type Value struct {
	Mid, Low, High float64
	Standing       Standing
}

// bandConfidence is the chance that lies between Low and High of a Value.
const bandConfidence = 0.90

// bandDeviates is how many standard deviations of a normal distribution lie
// between its middle and its 5th or 95th percentile.
var bandDeviates = NormalQuantile((1 + bandConfidence) / 2)

// Exact is a figure without spread.
func Exact(x float64, standing Standing) Value { return Value{x, x, x, standing} }

// Alone is a figure whose spread is not known.
func Alone(x float64, standing Standing) Value {
	return Value{x, math.NaN(), math.NaN(), standing}
}

// Default is a parameter at its default, with its band.
func Default(p Parameter) Value { return Value{p.Default, p.Low, p.High, p.Mark} }

// WithDeviation is a figure with a normal error of standard deviation sd.
func WithDeviation(x, sd float64, standing Standing) Value {
	return Value{x, x - bandDeviates*sd, x + bandDeviates*sd, standing}
}

// FromDraws is the median of the draws with their 5th and 95th percentile.
// It sorts the draws in place; without draws the figure is unknown.
func FromDraws(draws []float64, standing Standing) Value {
	slices.Sort(draws)
	edge := (1 - bandConfidence) / 2
	return Value{Quantile(draws, 0.5), Quantile(draws, edge), Quantile(draws, 1-edge), standing}
}

// Known reports whether there is a figure at all.
func (v Value) Known() bool { return !math.IsNaN(v.Mid) }

// Banded reports whether a band is known.
func (v Value) Banded() bool { return !math.IsNaN(v.Low) && !math.IsNaN(v.High) }

// Map carries the figure and its band through f, which must rise or fall all
// along the band.
func (v Value) Map(f func(float64) float64) Value {
	low, high := f(v.Low), f(v.High)
	if low > high {
		low, high = high, low
	}
	return Value{f(v.Mid), low, high, v.Standing}
}

// ChanceBelow is the chance that the true figure lies below x, from a normal
// distribution on either side of the middle, each with its own spread.
//
//	P = F((x - mid) / s),  s = (mid - low)/1.645 below the middle, (high - mid)/1.645 above
//
// Assumed: normal on each side of the middle; common practice, no source.
// Valid: NaN where no band is known.
func (v Value) ChanceBelow(x float64) float64 {
	if !v.Known() || !v.Banded() || math.IsNaN(x) {
		return math.NaN()
	}
	side := v.High - v.Mid
	if x < v.Mid {
		side = v.Mid - v.Low
	}
	switch {
	case side > 0:
		return NormalChance((x - v.Mid) * bandDeviates / side)
	case x < v.Mid:
		return 0
	case x > v.Mid:
		return 1
	}
	return 0.5
}

// Combine is f of several independent figures. Each is moved to either end of
// its band alone; the moves up and down are added as squares. The standing is
// the worst of theirs, and a figure without a band leaves the result without.
func Combine(f func(x []float64) float64, in ...Value) Value {
	x := make([]float64, len(in))
	out := Value{Standing: Measured}
	for i, v := range in {
		x[i] = v.Mid
		out.Standing = Worse(out.Standing, v.Standing)
	}
	out.Mid = f(x)
	var down, up float64
	for i, v := range in {
		x[i] = v.Low
		a := f(x) - out.Mid
		x[i] = v.High
		b := f(x) - out.Mid
		x[i] = v.Mid
		down = math.Hypot(down, min(a, b, 0))
		up = math.Hypot(up, max(a, b, 0))
	}
	out.Low, out.High = out.Mid-down, out.Mid+up
	return out
}

// ranks is the order of the standings, best first.
var ranks = []Standing{Measured, Checked, Sourced, Practice, Recalled, Weak}

// Worse is the less well known of two standings. A word that is none of the
// standings counts as worst.
func Worse(a, b Standing) Standing {
	i, j := slices.Index(ranks, a), slices.Index(ranks, b)
	if i < 0 || (j >= 0 && i > j) {
		return a
	}
	return b
}
