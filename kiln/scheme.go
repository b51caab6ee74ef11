package kiln

import "math"

// A step of length dt is taken in two stages (ROS2; recalled: Verwer 1999):
//
//	(1 - γ dt A) k1 = f(t, y)
//	(1 - γ dt A) k2 = f(t + dt, y + dt k1) - 2 k1
//	y moves by dt (3 k1 + k2)/2,   γ = 1 - 1/√2
//
// f are the rates of water and heat of all layers and of the return air. A is
// how they answer to y, as far as that is fast: a layer's heat to the air that it
// meets, and that air to the layers below. The scheme is of second order
// whatever A leaves out, and however fast a layer answers it is stable where A
// has that. Since air passes upward only, A is a triangle of layers, and each
// stage is solved in one sweep up the bed. How the air on changes with time and
// with the return air enters each sweep at the floor.
//
// The step and its first stage alone differ by dt (k1 + k2)/2. That is more than
// the error of the step, and sets its length: where it is beyond what is
// allowed, the step is taken again shorter.
const (
	gamma       = 1 - 1/math.Sqrt2
	mostOffK    = 1.0  // of a layer, by which a step may differ from its first stage
	mostOffDB   = 1e-3 // of a layer, kg per kg dry matter
	leastStepS  = 1.0  // that is not shortened further
	mostShorter = 0.2  // by which a step is shortened at once
	mostLonger  = 2.0
	safely      = 0.9 // of the step that the difference allows
)

// pace is how much longer the next step may be, when the difference of the last
// was off times what is allowed. The difference goes with the square of the step.
func pace(off float64) float64 {
	switch {
	case off <= safely*safely/(mostLonger*mostLonger):
		return mostLonger
	case off <= safely*safely/(mostShorter*mostShorter):
		return safely / math.Sqrt(off)
	}
	return mostShorter // off may be no number
}

// fine says whether a step of dtS that has been computed is fine enough, and sets
// the length of the next. Runs of shorter steps are held to less.
func (r *Run) fine(dtS float64) bool {
	off, shorter := 0.0, r.setup.StepS/UsualStepS
	for n := range r.columns {
		off = max(off, r.columns[n].differs(dtS/2)/(shorter*shorter))
	}
	if next := dtS * pace(off); next < dtS || next > r.stepS {
		r.stepS = min(next, r.setup.StepS)
	}
	return off <= 1 || dtS <= leastStepS
}

// advance takes one step and says whether it was fine enough; if not, all is as
// it was but for the length to try next.
func (r *Run) advance(dtS float64) bool {
	plant := r.maker(dtS)
	var sum tally
	r.backTurn = drift{}
	start, back := r.stage(&plant, &sum, 0, r.offs)
	a := ahead{dtS: dtS, s: gamma * dtS, flow: start.flow}
	r.backTurn = back.times(1 / (1 + a.s/r.setup.Constants.LagS)) // about
	a.on = r.airOn(&plant, dtS).since(start.on).times(1 / dtS)
	for n := range r.columns {
		flow := r.flowIn(n, a.flow)
		r.law.answers(&r.columns[n], flow, a.s*flow)
	}
	r.backTurn = r.solve(&sum, &a, back)
	for n := range r.columns {
		r.columns[n].turn()
	}

	end, back := r.stage(&plant, &sum, dtS, r.ends)
	for n := range r.columns {
		r.columns[n].lessTurns()
	}
	a.on, a.dtS = a.on.times(-1), -a.dtS
	rest := r.solve(&sum, &a, back.plus(r.backTurn.times(-2)))
	if !r.fine(dtS) {
		return false
	}
	r.took(&start, dtS)
	r.reachedC = end.on.tempC
	r.back = r.back.plus(r.backTurn.times(3).plus(rest).times(dtS / 2))
	r.backTurn = drift{}
	r.lookAhead(&plant, end, dtS)
	for n := range r.columns {
		r.columns[n].apply(dtS / 2)
	}
	r.tally.addScaled(&sum, dtS/2*r.setup.Kiln.AreaM2)
	r.tally.fan += r.draught.fanW * dtS
	return true
}

// ahead is how a stage looks ahead.
type ahead struct {
	s    float64 // γ dt
	dtS  float64 // of the step, below 0 in its second stage, where time counts back
	flow float64 // through the fan
	on   drift   // of the air on, per s
}

// solve sweeps all columns and returns the return air's part of k; rates is its
// part of b. The return air follows the air off the bed with its lag.
func (r *Run) solve(sum *tally, a *ahead, rates drift) drift {
	var off drift
	bedFlow := 0.0
	for n := range r.columns {
		c := &r.columns[n]
		flow := r.flowIn(n, a.flow)
		here := c.sweep(a.on, a.s*flow)
		sum.off(c.share*a.s*flow, here)
		off = off.plus(here.times(c.share * flow))
		bedFlow += c.share * flow
	}
	off = off.times(1 / bedFlow)
	leak := r.setup.Kiln.LeakShare
	ret := off.times(1 - leak).plus(a.on.times(leak))
	if t := r.setup.Above; t != nil {
		then, _ := t.at(r.hour + math.Abs(a.dtS)/3600)
		now, _ := t.at(r.hour)
		ret = then.since(now).times(1 / a.dtS)
	}
	perLag := a.s / r.setup.Constants.LagS
	return rates.plus(ret.times(perLag)).times(1 / (1 + perLag))
}

// lookAhead sets the view to the air at the end of a step of dtS. The second
// stage saw that air where the first stage alone had come; what is left to the
// end of the step is small enough for the answers of the layers.
func (r *Run) lookAhead(plant *maker, end view, dtS float64) {
	m := r.made(plant, dtS, r.back)
	on := m.on.since(end.on)
	w, h, bedFlow := 0.0, 0.0, 0.0
	for n := range r.columns {
		off := r.columns[n].passed(on, dtS/2)
		r.ends[n] = r.ends[n].plus(off)
		flow := r.columns[n].share * r.flowIn(n, end.flow)
		w, h, bedFlow = w+flow*r.ends[n].w, h+flow*r.ends[n].hJKg, bedFlow+flow
	}
	r.view = view{on: m.on, off: streamOfHeat(h/bedFlow, w/bedFlow), mixC: m.mixC, heaterJKg: m.heater, flow: end.flow}
}

// passed is the change of the air off a column between its second stage and the
// end of a step of twice halfS, for one of the air on.
func (c *column) passed(on drift, halfS float64) drift {
	w, h := on.w, on.hJKg
	for i := range c.answers {
		a := &c.answers[i]
		warmer := c.kelvins(i, halfS)
		w, h = a.ww*w+a.wh*h+a.wT*warmer, a.hw*w+a.hh*h+a.hT*warmer
	}
	return drift{w, h}
}

// turn keeps what the first stage made of the rates.
func (c *column) turn() {
	copy(c.waterTurn, c.waterRate)
	copy(c.heatTurn, c.heatRate)
}

// lessTurns makes of the rates of the second stage what its sweep takes.
func (c *column) lessTurns() {
	for i := range c.waterRate {
		c.waterRate[i] -= 2 * c.waterTurn[i]
		c.heatRate[i] -= 2 * c.heatTurn[i]
	}
}

// differs is by how much a step, of twice halfS, differs from its first stage:
// the most of all layers, as a multiple of what is allowed.
func (c *column) differs(halfS float64) float64 {
	most := 0.0
	for i := range c.sides {
		db := halfS * (c.waterRate[i] + c.waterTurn[i]) * c.perDry[i]
		most = max(most, math.Abs(db)*(1/mostOffDB), math.Abs(c.kelvins(i, halfS))*(1/mostOffK))
	}
	return most
}

// kelvins is by how much the temperature of a layer differs.
func (c *column) kelvins(i int, halfS float64) float64 {
	more := c.heatRate[i] + c.heatTurn[i] - c.answers[i].perX*(c.waterRate[i]+c.waterTurn[i])
	return halfS * more * c.perDry[i] / c.sides[i].jKgK
}

// apply moves a column by a step of twice halfS.
func (c *column) apply(halfS float64) {
	for i := range c.water {
		c.water[i] += halfS * (3*c.waterTurn[i] + c.waterRate[i])
		c.heat[i] += halfS * (3*c.heatTurn[i] + c.heatRate[i])
	}
}
