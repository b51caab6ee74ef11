package kiln

import "awn/programme"

// travelH is how long a damper, a fan or a burner takes from one end of its
// limits to the other while it follows a reading, h.
//
// Assumed: common practice, no source.
const travelH = 0.5

// holdStepS is the longest step while a setting follows a reading, s.
const holdStepS = 200.0

// held are the settings of a step that follow a reading.
type held struct {
	airOn, flow, recirc programme.Hold
	fullFlow            float64 // kg/(m² s), of which flow has shares
}

// hold takes over what a step lets follow a reading; such settings start where
// they were. to is what the step asks for, from what was asked before.
func (r *Run) hold(step *programme.KilnStep, from, to *settings) {
	h := &r.held
	*h = held{airOn: step.HoldAirOn, flow: step.HoldFlow, recirc: step.HoldRecirc, fullFlow: to.flow}
	first := r.rampTo < 0
	if step.FanOff {
		h.flow = programme.Hold{}
	}
	if h.airOn.Holds() {
		to.airOnC = h.airOn.Start(from.airOnC)
		from.airOnC = to.airOnC
	}
	if h.flow.Holds() && h.fullFlow > 0 {
		share := h.flow.High
		if !first {
			share = from.flow / h.fullFlow
		}
		to.flow = h.fullFlow * h.flow.Start(share)
		from.flow = to.flow
	}
	if h.recirc.Holds() {
		h.recirc.High = min(h.recirc.High, r.setup.Kiln.MostRecirc)
		h.recirc.Low = min(h.recirc.Low, h.recirc.High)
		to.recirc = h.recirc.Low
		if !first {
			to.recirc = h.recirc.Start(from.recirc)
		}
		from.recirc = to.recirc
	}
}

// follow moves the held settings on over a step of dtS that has just ended.
func (r *Run) follow(dtS float64) {
	h := &r.held
	if h.airOn.Holds() {
		r.to.airOnC = r.drive(&h.airOn, r.to.airOnC, dtS)
		r.from.airOnC = r.to.airOnC
	}
	if h.flow.Holds() && h.fullFlow > 0 {
		r.to.flow = h.fullFlow * r.drive(&h.flow, r.to.flow/h.fullFlow, dtS)
		r.from.flow = r.to.flow
	}
	if h.recirc.Holds() {
		r.to.recirc = r.drive(&h.recirc, r.to.recirc, dtS)
		r.from.recirc = r.to.recirc
	}
}

// holding says whether a setting follows a reading and can move.
func (h *held) holding() bool {
	moves := func(h *programme.Hold) bool { return h.Holds() && h.High > h.Low }
	return moves(&h.airOn) || moves(&h.flow) || moves(&h.recirc)
}

// drive is where a held setting has come in dtS, and notes a reading that its
// limits keep away from where it should be.
func (r *Run) drive(h *programme.Hold, setting, dtS float64) float64 {
	reading := r.heldReading(h.Reading)
	if h.Missed(setting, reading) {
		n := &r.noted
		n.unheldH += dtS / 3600
		n.unheld, n.unheldAt, n.unheldAtH = *h, reading, r.hour
	}
	return h.Follow(setting, reading, travelH, dtS/3600)
}

// heldReading is a reading that a setting can follow; NaN of any other.
func (r *Run) heldReading(of programme.Reading) float64 {
	var v programme.Values
	r.Read(&v)
	return v[of]
}
