package odds

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Proportion is a count of kernels that did something, of those looked at.
type Proportion struct {
	Hits, Of int
}

// Valid reports whether the count is possible: 0 <= Hits <= Of, Of > 0.
func (p Proportion) Valid() bool { return p.Of > 0 && p.Hits >= 0 && p.Hits <= p.Of }

// Rest is the count of those that did not.
func (p Proportion) Rest() Proportion { return Proportion{p.Of - p.Hits, p.Of} }

// Fraction is the share counted, 0 to 1.
//
//	p = hits / of
//
// Definition.
// Valid: an impossible count gives NaN.
func (p Proportion) Fraction() float64 {
	if !p.Valid() {
		return math.NaN()
	}
	return float64(p.Hits) / float64(p.Of)
}

// Wilson returns the score interval that holds the true share with the given
// confidence, 0 < confidence < 1. NaN for an impossible count.
//
//	(p + z²/2n ± z sqrt(p(1-p)/n + z²/4n²)) / (1 + z²/n)        (z the normal quantile at (1+confidence)/2)
//
// Recalled: Wilson 1927.
// Check: Newcombe 1998, table I, and testdata/binomial_ci.csv.
func (p Proportion) Wilson(confidence float64) (low, high float64) {
	if !p.Valid() || !inside(confidence) {
		return math.NaN(), math.NaN()
	}
	n, z := float64(p.Of), NormalQuantile((1+confidence)/2)
	share, z2n := p.Fraction(), z*z/n
	centre := share + z2n/2
	half := z * math.Sqrt(share*(1-share)/n+z2n/(4*n))
	// The ends are exact where nothing or everything was counted; rounding
	// must not carry them past 0 or 1.
	return math.Max(0, (centre-half)/(1+z2n)), math.Min(1, (centre+half)/(1+z2n))
}

// ClopperPearson returns the exact interval: each end is the true share at
// which a count as extreme as this one has half of the remaining chance.
// NaN for an impossible count.
//
//	low = B(a/2; k, n-k+1), high = B(1-a/2; k+1, n-k)        (B the beta quantile, a = 1 - confidence)
//
// Recalled: Clopper and Pearson 1934.
// Check: the binomial tail summed term by term; testdata/binomial_ci.csv.
func (p Proportion) ClopperPearson(confidence float64) (low, high float64) {
	if !p.Valid() {
		return math.NaN(), math.NaN()
	}
	return ShareLimits(float64(p.Hits), float64(p.Of), confidence)
}

// ShareLimits is the interval of Clopper and Pearson for counts that need not be
// whole, as those that a survey is worth.
//
//	low = B(a/2; k, n-k+1), high = B(1-a/2; k+1, n-k)        (B the beta quantile, a = 1 - confidence)
//
// Recalled: Clopper and Pearson 1934; Korn and Graubard 1998.
// Valid: hits 0 to of, of above 0, confidence strictly between 0 and 1; NaN outside.
// Check: as ClopperPearson at whole counts; the survey package of R at others.
func ShareLimits(hits, of, confidence float64) (low, high float64) {
	if !(of > 0 && hits >= 0 && hits <= of) || !inside(confidence) {
		return math.NaN(), math.NaN()
	}
	tail := (1 - confidence) / 2
	low, high = 0, 1
	if hits > 0 {
		low = distuv.Beta{Alpha: hits, Beta: of - hits + 1}.Quantile(tail)
	}
	if hits < of {
		high = distuv.Beta{Alpha: hits + 1, Beta: of - hits}.Quantile(1 - tail)
	}
	return low, high
}

// Value is the share with the exact interval of its sampling as 5th and 95th
// percentile.
func (p Proportion) Value(standing Standing) Value {
	low, high := p.ClopperPearson(bandConfidence)
	return Value{Mid: p.Fraction(), Low: low, High: high, Standing: standing}
}

// ChanceAtLeast is the chance that the true share is no less than a limit,
// given the count and nothing else known of the lot before it.
//
//	P = 1 - B(limit; k + 1/2, n - k + 1/2)        (B the beta distribution)
//
// Recalled: Brown 2001, the prior of Jeffreys.
// Valid: a limit of 0 to 1; NaN outside and for an impossible count.
// Check: the density summed numerically; it lies between the exact tails of Clopper and Pearson.
// Note: where the lots that come are known to be good or poor, that should weigh in, and does not.
func (p Proportion) ChanceAtLeast(limit float64) float64 {
	if !p.Valid() || !(limit >= 0 && limit <= 1) {
		return math.NaN()
	}
	const half = 0.5
	k, n := float64(p.Hits), float64(p.Of)
	return 1 - distuv.Beta{Alpha: k + half, Beta: n - k + half}.CDF(limit)
}

// Difference is the share of a less that of b, counted on separate kernels,
// with the limits of sampling as 5th and 95th percentile. It may be negative.
func Difference(a, b Proportion, standing Standing) Value {
	low, high := DifferenceLimits(a, b, bandConfidence)
	return Value{Mid: a.Fraction() - b.Fraction(), Low: low, High: high, Standing: standing}
}

// DifferenceLimits are those that hold the difference of two shares with the
// given confidence, the kernels of each counted apart. NaN for counts that
// cannot be.
//
//	low  = d - sqrt((pa - la)² + (hb - pb)²)
//	high = d + sqrt((ha - pa)² + (pb - lb)²)        (l, h the Wilson limits of each)
//
// Recalled: Newcombe 1998, the second paper, method 10.
// Check: Newcombe 1998, table II.
func DifferenceLimits(a, b Proportion, confidence float64) (low, high float64) {
	pa, pb := a.Fraction(), b.Fraction()
	la, ha := a.Wilson(confidence)
	lb, hb := b.Wilson(confidence)
	return pa - pb - math.Hypot(pa-la, hb-pb), pa - pb + math.Hypot(ha-pa, pb-lb)
}

// inside reports whether p lies strictly between 0 and 1.
func inside(p float64) bool { return p > 0 && p < 1 }
