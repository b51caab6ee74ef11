package crop

import (
	"math"

	"awn/odds"
)

// Share is a part of the harvest with its interval.
type Share struct {
	Estimate
	Low, High float64
	Effective float64 // as many samples drawn at will would tell as much; NaN at 0 and 1
	Extreme   bool    // no farm has it, or all have: the interval counts farms
}

// Share is the part of a domain, by tonnes, for which y is 1 rather than 0.
// The interval is that of a count, of as many samples as the design is worth and
// never more than there are. Where no farm has it or all have, its variance
// would be nothing; then each farm counts as one.
//
//	n = min(samples, p q/v (t_(samples-1)/t_df)²)
//	low = B(a/2; n p, n q + 1), high = B(1 - a/2; n p + 1, n q)
//
// Recalled: Korn and Graubard 1998; Parker et al. 2017.
// Valid: NaN without samples or without degrees of freedom.
// Check: the survey package of R, 4.1-1, on invented samples.
func (d *Design) Share(y []float64, in Domain, confidence float64) Share {
	return shareOf(d.Mean(y, in), confidence)
}

// shareOf gives an estimated share its interval.
func shareOf(e Estimate, confidence float64) Share {
	s := Share{Estimate: e, Low: math.NaN(), High: math.NaN(), Effective: math.NaN()}
	p := s.Value
	switch {
	case math.IsNaN(p):
	case p <= 0 || p >= 1:
		s.Extreme = true
		s.Low, s.High = odds.ShareLimits(math.Round(p)*float64(s.Farms), float64(s.Farms), confidence)
	case s.Freedom > 0 && s.SE > 0:
		s.Effective = s.effective(confidence)
		s.Low, s.High = odds.ShareLimits(s.Effective*p, s.Effective, confidence)
	}
	return s
}

// effective is how many samples drawn at will would tell as much.
func (s *Share) effective(confidence float64) float64 {
	n := s.Value * (1 - s.Value) / (s.SE * s.SE)
	free := odds.StudentQuantile((1+confidence)/2, float64(s.Samples-1))
	ratio := free / odds.StudentQuantile((1+confidence)/2, float64(s.Freedom))
	return min(n*ratio*ratio, float64(s.Samples))
}
