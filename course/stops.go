package course

import (
	"math"

	"awn/finding"
	"awn/germinate"
	"awn/plant"
	"awn/programme"
)

// Stop is a stop of the fan under a growing bed, as foreseen when it began.
type Stop struct {
	germinate.Stop
	AtH float64 // hours since the piece began
}

// beginGrowth begins a step of germination; before a stop of the fan it looks
// at what the stop would do.
func (r *runner) beginGrowth(run *germinate.Run, vessel plant.Germinator, atH float64) func(programme.GerminateStep) error {
	return func(step programme.GerminateStep) error {
		if step.FanOff && vessel.Kind != plant.Floor {
			stop, err := run.Foresee(step)
			if err != nil {
				return err
			}
			r.out.Stops = append(r.out.Stops, Stop{stop, atH + run.Hour()})
		}
		return run.Begin(step)
	}
}

// vigourCounts is the loss of vigour that is worth a word.
const vigourCounts = 0.02

// stopped says of each stop which limit it meets first.
func (r *runner) stopped(run *germinate.Run, atH float64) {
	for _, s := range r.out.Stops {
		if f, ok := s.finding(); ok {
			r.out.Findings = append(r.out.Findings, f)
		}
	}
	if lost := run.VigourLost(); lost > vigourCounts {
		f := finding.New("germinate.vigour.lost", finding.Caution, Germinate.String(), finding.Figure{Name: "vigour_lost", Value: lost})
		f.AtH, f.Act, f.Chance, f.Cost, f.Source = atH, "act.germinate.stop-by-oxygen", 0.6, 0.1, "common practice, no source"
		r.out.Findings = append(r.out.Findings, f)
	}
}

// finding says which limit a stop meets first, and when; nothing if it meets
// none under any draught.
func (s *Stop) finding() (finding.Finding, bool) {
	oxygen, hot := s.soonest(func(x *germinate.Still) float64 { return x.OxygenMin }), s.soonest(func(x *germinate.Still) float64 { return x.HotMin })
	code, act, first := "germinate.fan.stopped-breathless", "act.germinate.stop-by-oxygen", oxygen
	if math.IsNaN(oxygen[1]) || hot[1] < oxygen[1] {
		code, act, first = "germinate.fan.stopped-hot", "act.germinate.stop-by-heat", hot
	}
	if math.IsNaN(first[1]) {
		return finding.Finding{}, false
	}
	f := finding.New(code, finding.Alarm, Germinate.String(),
		finding.Figure{Name: "stopped_h", Value: s.Hours},
		finding.Figure{Name: "soonest_min", Value: first[1]},
		finding.Figure{Name: "usual_min", Value: first[0]},
		finding.Figure{Name: "mean_low_c", Value: min(s.Least.MeanC, s.Usual.MeanC, s.Most.MeanC)},
		finding.Figure{Name: "mean_high_c", Value: max(s.Least.MeanC, s.Usual.MeanC, s.Most.MeanC)},
		finding.Figure{Name: "hottest_low_c", Value: min(s.Least.HottestC, s.Usual.HottestC, s.Most.HottestC)},
		finding.Figure{Name: "hottest_high_c", Value: max(s.Least.HottestC, s.Usual.HottestC, s.Most.HottestC)},
		finding.Figure{Name: "co2_most", Value: max(s.Least.DioxideMost, s.Usual.DioxideMost, s.Most.DioxideMost)})
	f.AtH, f.Act, f.Chance, f.Cost, f.Source = s.AtH, act, 0.7, 0.2, "common practice, no source"
	return f, true
}

// soonest is a time to a limit under the usual draught, and the soonest under
// any; NaN where the limit is never met.
func (s *Stop) soonest(of func(*germinate.Still) float64) [2]float64 {
	usual, soonest := of(&s.Usual), nan
	for _, x := range []float64{usual, of(&s.Least), of(&s.Most)} {
		if !(x >= soonest) && !math.IsNaN(x) {
			soonest = x
		}
	}
	return [2]float64{usual, soonest}
}
