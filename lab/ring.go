package lab

import (
	"math"
	"slices"
)

// RingScore is how far a laboratory lies from the assigned value of a ring test,
// in standard deviations for the test. Up to 2 in size nothing is to be said, from
// 3 on something is wrong, between them it is a warning.
//
//	z = (x - X) / s
//
// Recalled: ISO 13528, z score.
// Valid: s above 0; NaN outside.
// Check: two deviations above is 2.
func RingScore(x, assigned, sd float64) float64 {
	if !(sd > 0) {
		return math.NaN()
	}
	return (x - assigned) / sd
}

// RingScoreDoubtful is RingScore where the assigned value is itself in doubt by
// more than 0.3 of the standard deviation: z' of the standard.
//
//	z' = (x - X) / sqrt(s² + u²)
//
// Recalled: ISO 13528, z' score.
// Valid: s above 0, u from 0; NaN outside.
// Check: RingScore for u = 0.
func RingScoreDoubtful(x, assigned, sd, u float64) float64 {
	if !(u >= 0) || !(sd > 0) {
		return math.NaN()
	}
	return RingScore(x, assigned, math.Hypot(sd, u))
}

// leastRing is how many laboratories must take part for their own results to give
// the assigned value. Common practice, no source.
const leastRing = 7

// Constants of algorithm A of ISO 13528: scaling of the median distance, where a
// result is drawn in, and what the drawing in costs the deviation.
const (
	medianScale  = 1.483
	drawnIn      = 1.5
	drawnInScale = 1.134
)

// Robust is the mean and standard deviation of results of which a few may be
// far out: those beyond 1.5 deviations are drawn in to there, until nothing moves.
//
//	mean = mean of y,   s = 1.134 sd of y,   y = x drawn in to mean ± 1.5 s
//
// Recalled: ISO 13528, annex C, algorithm A.
// Valid: two results or more; NaN below. The deviation is zero where half or more agree.
// Check: Huber's proposal 2 in MASS of R.
func Robust(x []float64) (mean, sd float64) {
	if len(x) < 2 {
		return math.NaN(), math.NaN()
	}
	mean = median(x)
	far := make([]float64, len(x))
	for i, v := range x {
		far[i] = math.Abs(v - mean)
	}
	sd = medianScale * median(far)
	for range 1000 {
		if sd == 0 {
			return mean, 0
		}
		drawn := make([]float64, len(x))
		for i, v := range x {
			drawn[i] = min(max(v, mean-drawnIn*sd), mean+drawnIn*sd)
		}
		newMean, newSD := plainMean(drawn), drawnInScale*deviation(drawn)
		moved := math.Abs(newMean-mean) + math.Abs(newSD-sd)
		mean, sd = newMean, newSD
		if moved < 1e-9*sd {
			break
		}
	}
	return mean, sd
}

func median(x []float64) float64 {
	s := slices.Sorted(slices.Values(x))
	n := len(s)
	return (s[(n-1)/2] + s[n/2]) / 2
}

// Ring is one result of a ring test.
type Ring struct {
	Bench
	Quality  int
	Sample   string
	Line     int
	Day      float64
	X        float64
	Assigned float64
	SD       float64
	Doubt    float64 // of the assigned value, one standard deviation
	Score    float64 // z, or z' where the assigned value is in doubt
	Primed   bool    // it is z'
	Own      bool    // the assigned value comes from the results themselves
	Of       int     // laboratories that took part
}

// doubtShare is the share of the deviation up to which the doubt of the assigned
// value is passed over. Recalled: ISO 13528.
const doubtShare = 0.3

// scored fills in the score.
func (r *Ring) scored() {
	r.Primed = r.Doubt > doubtShare*r.SD
	r.Score = RingScore(r.X, r.Assigned, r.SD)
	if r.Primed {
		r.Score = RingScoreDoubtful(r.X, r.Assigned, r.SD, r.Doubt)
	}
}
