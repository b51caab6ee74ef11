package course

import (
	"math"

	"awn/programme"
)

// moments is how many stretches each stage is cut into where curves of
// different length are laid over each other.
const moments = 48

// resampled is a curve at equal parts of each stage: runs of different length
// are aligned by stage, and within it by the share of its time that has passed.
// Single precision is finer than any band.
func resampled(o *Outcome) []float32 {
	out := make([]float32, 0, len(o.Stages)*(moments+1)*int(programme.Readings))
	for i := range o.Stages {
		s := &o.Stages[i]
		from := o.Curve.first(s.FromH)
		for m := range moments + 1 {
			h := s.FromH + (s.ToH-s.FromH)*float64(m)/moments
			for from < len(o.Curve.TimeH) && o.Curve.TimeH[from] <= h {
				from++
			}
			before, after := o.Curve.around(s, from)
			part := 0.0
			if after.h > before.h {
				part = (h - before.h) / (after.h - before.h)
			}
			for r := range before.at {
				out = append(out, float32(before.at[r]+part*(after.at[r]-before.at[r])))
			}
		}
	}
	return out
}

// moment is a point of a curve.
type moment struct {
	h  float64
	at *programme.Values
}

// first is the first moment of the curve after an hour.
func (c *Curve) first(h float64) int {
	for i, at := range c.TimeH {
		if at > h {
			return i
		}
	}
	return len(c.TimeH)
}

// around is the moments on either side, the later one being number next, within
// a stage: at its ends the stage's own start and end, for the curve's moment
// there belongs to one of its neighbours.
func (c *Curve) around(s *StageOutcome, next int) (before, after moment) {
	before, after = moment{s.FromH, &s.Start}, moment{s.ToH, &s.End}
	if next > 0 && c.TimeH[next-1] > s.FromH {
		before = moment{c.TimeH[next-1], &c.At[next-1]}
	}
	if next < len(c.TimeH) && c.TimeH[next] < s.ToH {
		after = moment{c.TimeH[next], &c.At[next]}
	}
	if before.h >= s.ToH {
		before = after
	}
	return before, after
}

// CurveBand is the 10th, 50th and 90th percentile of each reading, on the time
// axis of the piece as it stands.
type CurveBand struct {
	TimeH         []float64
	Stage         []Stage
	P10, P50, P90 []programme.Values
}

// curveBand lays the curves of all draws over each other.
func curveBand(o *Outcome, drawn []sample) CurveBand {
	var b CurveBand
	values := make([]float64, 0, len(drawn))
	at := 0
	for i := range o.Stages {
		s := &o.Stages[i]
		for m := range moments + 1 {
			b.TimeH = append(b.TimeH, s.FromH+(s.ToH-s.FromH)*float64(m)/moments)
			b.Stage = append(b.Stage, s.Stage)
			var low, mid, high programme.Values
			for r := range programme.Readings {
				values = values[:0]
				for k := range drawn {
					if x := float64(drawn[k].curve[at+int(r)]); !math.IsNaN(x) {
						values = append(values, x)
					}
				}
				low[r], mid[r], high[r] = tenths(values)
			}
			b.P10, b.P50, b.P90 = append(b.P10, low), append(b.P50, mid), append(b.P90, high)
			at += int(programme.Readings)
		}
	}
	return b
}
