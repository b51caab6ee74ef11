package expect

import (
	"slices"
	"time"

	"awn/odds"
	"awn/schedule"
)

// spans is how long a stage takes in each draw; by the plan alone, where there
// are no draws; nil where nobody can say.
func (on way) spans(stage string) []float64 {
	if on.drawn != nil {
		return on.drawn.Values(stage + ".span_h")
	}
	if on.plan != nil {
		for _, s := range on.plan.Stages {
			if s.Stage == stage {
				return []float64{s.ToH - s.FromH}
			}
		}
	}
	return nil
}

// run follows a piece along the road: what was done as it was done, what comes
// as it is expected, draw by draw. A stage that is running ends now at the
// earliest.
func (w *Weeks) run(on way) (out schedule.Run) {
	now := w.hour(w.Now)
	var at []float64 // when the stage begins, in each draw
	if !on.from.IsZero() {
		at = []float64{w.hour(on.from)}
	}
	for i, r := range onRoad {
		began, begun := on.began[r.road]
		if begun {
			at = []float64{w.hour(began)}
		}
		if at == nil {
			continue // the programme begins at a later stage
		}
		leg := schedule.Leg{Road: r.road, Vessel: on.vessel[r.road], Begun: begun}
		leg.From = momentOf(at)
		next, over := on.after(i)
		spans := on.spans(r.stage.String())
		switch {
		case over:
			at, leg.Ended = []float64{w.hour(next)}, true
		case spans != nil:
			at = later(at, spans, now)
		case on.drawn == nil && on.plan != nil && !begun:
			continue // a plan without this stage
		default:
			leg.To, leg.Open = schedule.At(max(now, leg.From.H)), true
			out.Legs = append(out.Legs, leg)
			return out
		}
		leg.To = momentOf(at)
		out.Legs = append(out.Legs, leg)
	}
	if len(at) == 0 {
		return out
	}
	restH := 0.0
	if on.plan != nil {
		restH = 24 * on.plan.RestD
	}
	for _, h := range at {
		out.Ready = append(out.Ready, h+restH)
	}
	_, stripped := on.began[schedule.Store]
	out.Legs = append(out.Legs, schedule.Leg{
		Road: schedule.Store, Span: schedule.Span{From: momentOf(at), To: momentOf(out.Ready)}, Begun: stripped, Ended: stripped && momentOf(out.Ready).H <= now,
	})
	return out
}

// after is when the stage behind one on the road began, by the record.
func (on way) after(i int) (at time.Time, begun bool) {
	roads := []schedule.Road{schedule.Germinate, schedule.Kiln, schedule.Store}
	for _, r := range roads[i:] {
		if at, begun = on.began[r]; begun {
			return at, true
		}
	}
	return at, false
}

// later adds spans to beginnings, draw by draw, and lets nothing end before now.
func later(at, spans []float64, now float64) []float64 {
	out := make([]float64, max(len(at), len(spans)))
	for d := range out {
		out[d] = max(at[d%len(at)]+spans[d%len(spans)], now)
	}
	return out
}

// momentOf is the middle of draws with the tenths on both sides.
func momentOf(draws []float64) schedule.Moment {
	sorted := slices.Sorted(slices.Values(draws))
	return schedule.Moment{H: odds.Quantile(sorted, 0.5), LowH: odds.Quantile(sorted, 0.1), HighH: odds.Quantile(sorted, 0.9)}
}
