package germinate

import (
	"math"

	"awn/finding"
	"awn/programme"
)

// How long fan, dampers and conditioning take from one end of their limits to
// the other while they follow a reading, and the longest step meanwhile: a bed
// answers its air within an hour or two.
//
// Assumed: common practice, no source.
const (
	travelH   = 4.0
	holdStepS = 300.0
)

// holding says whether a setting of the step follows a reading.
func holding(s *programme.GerminateStep) bool {
	return s.HoldAirOn.Holds() || s.HoldFlow.Holds() || s.HoldFresh.Holds()
}

// hold starts the settings of a step that follow a reading where they were,
// within their limits; the first air is the warmest that they allow. before is
// the step until now, flowShare the flow it had of that of the step.
func (r *Run) hold(step *programme.GerminateStep, before *programme.GerminateStep, flowShare float64) {
	n := &r.now
	n.fullFlow = step.Flow.Value
	if step.HoldAirOn.Holds() {
		was := before.AirOnC
		if n.atH == 0 {
			was = step.HoldAirOn.High
		}
		step.AirOnC = step.HoldAirOn.Start(was)
	}
	if step.HoldFresh.Holds() {
		step.Fresh = step.HoldFresh.Start(before.Fresh)
	}
	if step.HoldFlow.Holds() {
		step.Flow.Value = n.fullFlow * step.HoldFlow.Start(flowShare)
	}
}

// follow moves the held settings on over a stretch of dtH that has just ended.
func (r *Run) follow(dtH float64) error {
	n := &r.now
	if !holding(&n.step) || n.step.FanOff {
		return nil
	}
	r.Read(&n.readings)
	s := &n.step
	if s.HoldAirOn.Holds() {
		s.AirOnC = r.drive(&s.HoldAirOn, s.AirOnC, dtH)
	}
	if s.HoldFresh.Holds() {
		s.Fresh = r.drive(&s.HoldFresh, s.Fresh, dtH)
	}
	if !s.HoldFlow.Holds() || !r.setup.blown() {
		return nil
	}
	was := s.Flow.Value
	s.Flow.Value = n.fullFlow * r.drive(&s.HoldFlow, was/n.fullFlow, dtH)
	if math.Abs(s.Flow.Value-was) < sameFlow*was {
		s.Flow.Value = was
		return nil
	}
	return r.blow(*s)
}

// sameFlow is a change of flow that the fan is not set anew for, as a share.
const sameFlow = 1e-6

// drive is where a held setting has come in dtH, and notes a reading that its
// limits keep away from where it should be.
func (r *Run) drive(h *programme.Hold, setting, dtH float64) float64 {
	n := &r.now
	reading := n.readings[h.Reading]
	if h.Missed(setting, reading) {
		n.watch.unheld.note(math.Abs(h.Away(reading)), 0, n.atH, dtH, finding.Nowhere)
		n.watch.unheldBy, n.watch.unheldAt = *h, reading
	}
	return h.Follow(setting, reading, travelH, dtH)
}

// holdFindings tell of a reading that could not be held.
func (r *Run) holdFindings(dst []finding.Finding) []finding.Finding {
	w := &r.now.watch
	if w.unheld.hours <= tooLongH {
		return dst
	}
	return r.add(dst, "germinate.hold.missed", finding.Note, &w.unheld, "act.programme.hold-wider",
		finding.Figure{Name: w.unheldBy.Reading.Key(), Value: w.unheldAt},
		finding.Figure{Name: "asked", Value: w.unheldBy.Value},
		finding.Figure{Name: "missed_h", Value: w.unheld.hours})
}
