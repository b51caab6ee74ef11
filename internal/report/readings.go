package report

import (
	"math"
	"slices"

	"awn/course"
	"awn/internal/words"
	"awn/programme"
)

// during returns the moments of the curve that belong to a stage. The moment
// at which a stage ends is the first of the next one, if there is a next.
func (r Report) during(s *course.StageOutcome) (from, to int) {
	hours := r.Outcome.Curve.TimeH
	from, _ = slices.BinarySearch(hours, s.FromH)
	to, _ = slices.BinarySearch(hours, s.ToH)
	if s.ToH == r.hours() && to < len(hours) {
		to++
	}
	return from, to
}

// most is the greatest value of a reading within a stage and when it is
// reached; NaN where the stage has no such reading.
func (r Report) most(s *course.StageOutcome, reading programme.Reading) (value, atH float64) {
	return r.extreme(s, reading, 1)
}

// least is the smallest value of a reading within a stage and when.
func (r Report) least(s *course.StageOutcome, reading programme.Reading) (value, atH float64) {
	return r.extreme(s, reading, -1)
}

func (r Report) extreme(s *course.StageOutcome, reading programme.Reading, sign float64) (value, atH float64) {
	value, atH = math.NaN(), math.NaN()
	from, to := r.during(s)
	for i := from; i < to; i++ {
		x := r.Outcome.Curve.At[i][reading]
		if !math.IsNaN(x) && !(sign*x <= sign*value) {
			value, atH = x, r.Outcome.Curve.TimeH[i]
		}
	}
	return value, atH
}

// mean is the mean of a reading over a stage by time.
func (r Report) mean(s *course.StageOutcome, reading programme.Reading) float64 {
	from, to := r.during(s)
	sum, hours := 0.0, 0.0
	for i := from + 1; i < to; i++ {
		a, b := r.Outcome.Curve.At[i-1][reading], r.Outcome.Curve.At[i][reading]
		if math.IsNaN(a) || math.IsNaN(b) {
			continue
		}
		dt := r.Outcome.Curve.TimeH[i] - r.Outcome.Curve.TimeH[i-1]
		sum += (a + b) / 2 * dt
		hours += dt
	}
	if hours == 0 {
		return math.NaN()
	}
	return sum / hours
}

// series is a reading along the whole course, in the reader's unit.
func (r Report) series(reading programme.Reading) []float64 {
	out := make([]float64, len(r.Outcome.Curve.At))
	for i := range r.Outcome.Curve.At {
		out[i] = r.Outcome.Curve.At[i][reading]
	}
	words.Values(reading.Key(), out, r.Units)
	return out
}

// known reports whether a series holds any figure.
func known(values []float64) bool {
	for _, v := range values {
		if !math.IsNaN(v) {
			return true
		}
	}
	return false
}
