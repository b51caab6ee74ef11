package lab

import (
	"math"

	"awn/odds"
)

// group is the kernels that one look found newly germinated.
type group struct {
	at float64 // hours, or days for the index
	n  float64
}

// looks returns the newly germinated kernels by look; nil for counts that
// cannot be.
func looks(counts []Count) []group {
	if CheckCounts(counts) != nil {
		return nil
	}
	out := make([]group, len(counts))
	before := 0
	for i, c := range counts {
		out[i] = group{c.AtH, float64(c.Germinated - before)}
		before = c.Germinated
	}
	return out
}

// daily returns the newly germinated kernels of the first three days; nil if a
// day was not counted.
func daily(counts []Count) []group {
	if CheckCounts(counts) != nil {
		return nil
	}
	out := make([]group, len(indexH))
	before := 0
	for i, h := range indexH {
		sum, ok := totalAt(counts, h)
		if !ok {
			return nil
		}
		out[i] = group{float64(i + 1), float64(sum - before)}
		before = sum
	}
	return out
}

func total(groups []group) float64 {
	n := 0.0
	for _, g := range groups {
		n += g.n
	}
	return n
}

// mean is NaN where nothing germinated.
func mean(groups []group) float64 {
	sum := 0.0
	for _, g := range groups {
		sum += g.n * g.at
	}
	return sum / total(groups)
}

// moments returns the mean and the variance.
func moments(groups []group) (centre, variance float64) {
	centre = mean(groups)
	for _, g := range groups {
		variance += g.n * (g.at - centre) * (g.at - centre)
	}
	return centre, variance / total(groups)
}

// smoothed adds half a kernel to each look (Jeffreys' prior), so that an empty
// look is not taken for an impossible one.
func smoothed(groups []group) []group {
	out := make([]group, len(groups))
	for i, g := range groups {
		out[i] = group{g.at, g.n + 0.5}
	}
	return out
}

// meanValue is the mean with its sampling limits by Student's distribution.
func meanValue(groups []group) odds.Value {
	v := odds.Alone(mean(groups), odds.Measured)
	n := total(groups)
	if !(n > 1) {
		return v
	}
	_, variance := moments(smoothed(groups))
	half := odds.StudentQuantile(0.95, n-1) * math.Sqrt(variance/n)
	v.Low, v.High = v.Mid-half, v.Mid+half
	return v
}
