package kiln

import "math"

// To advances the run to an hour since its start. It allocates nothing. After
// an error the run stands where the error arose.
func (r *Run) To(hour float64) error {
	const least = 1e-9
	if !(hour >= r.hour-least) {
		return r.fault("cannot go back to %.2f h", hour)
	}
	for hour-r.hour > least {
		stretchH := min(hour-r.hour, longestGrowS/3600.0)
		if r.hour < r.rampTo-least {
			stretchH = min(stretchH, r.rampTo-r.hour)
		}
		if err := r.stretch(r.hour+stretchH, stretchH*3600); err != nil {
			return err
		}
	}
	r.glance()
	return nil
}

// stretch advances to an hour dtS away, over which life is taken as steady.
// Curing goes by the trapezoidal rule: at each moment for half of the steps on
// either side.
func (r *Run) stretch(hour, dtS float64) error {
	r.grow(r.asked(r.hour).flow, dtS)
	r.uncuredS = 0
	const least = 1e-6
	for left := dtS; left > least; {
		longest := r.stepS
		if r.held.holding() {
			longest = min(longest, holdStepS)
		}
		stepS := left / math.Ceil(left/longest-1e-9)
		done, err := r.step(stepS)
		switch {
		case err != nil:
			return err
		case !done:
			continue
		}
		left -= stepS
		r.hour = hour - left/3600
		if err := r.survey(); err != nil {
			return err
		}
		r.follow(stepS)
	}
	r.cure(r.uncuredS)
	r.hour = hour
	return nil
}

// leastFlow is what counts as moving air, kg/(m² s).
const leastFlow = 1e-6

// step advances water and heat by dtS, or says that this is to be done in
// shorter steps.
func (r *Run) step(dtS float64) (done bool, err error) {
	mid := r.asked(r.hour + dtS/7200)
	if mid.flow >= leastFlow {
		if err := r.blow(mid.flow); err != nil {
			return false, err
		}
		return r.advance(dtS), nil
	}
	r.view.flow, r.view.heaterJKg, r.draught = 0, 0, draught{}
	if r.trace != nil {
		r.trace.keep(r.hour, r.view.off, 0)
	}
	r.halfCure(dtS)
	for n := range r.columns {
		r.columns[n].stand(dtS)
	}
	r.note(dtS)
	return true, nil
}

// took notes what is seen at the start of a step of dtS.
func (r *Run) took(start *view, dtS float64) {
	r.view = *start
	r.watch(dtS)
	if r.trace != nil {
		r.trace.keep(r.hour, r.view.off, r.view.flow*(1-r.setup.Kiln.LeakShare))
	}
	r.halfCure(dtS)
}

// halfCure counts the moment at the start of a step for its first half and the
// second of the step before.
func (r *Run) halfCure(dtS float64) {
	r.cure(r.uncuredS + dtS/2)
	r.uncuredS = dtS / 2
}

// backAfter is the return air s seconds into a step.
func (r *Run) backAfter(s float64) stream {
	return r.back.plus(r.backTurn.times(s))
}

// airOn is the air under the bed, ahead s into the step.
func (r *Run) airOn(plant *maker, ahead float64) stream {
	return r.made(plant, ahead, r.backAfter(ahead)).on
}

// made is what the plant makes of the return air, ahead s into the step.
func (r *Run) made(plant *maker, ahead float64, back stream) made {
	if r.setup.Supply != nil {
		return r.supplied(plant, ahead)
	}
	ask := r.asked(r.hour + ahead/3600)
	return plant.make(ask, ask.flow*r.draught.scale, back, ahead)
}

// flowIn is the flow through a column, of that through the fan.
func (r *Run) flowIn(n int, flow float64) float64 {
	return flow * (1 - r.setup.Kiln.LeakShare) * r.share[n]
}

// stage finds the rates of all columns, ahead s into the step, where the first
// stage has brought them, and the air off each, and returns the rate of the
// return air.
func (r *Run) stage(plant *maker, sum *tally, ahead float64, offs []stream) (view, drift) {
	flow := r.asked(r.hour+ahead/3600).flow * r.draught.scale
	back := r.backAfter(ahead)
	m := r.made(plant, ahead, back)
	w, h, bedFlow := 0.0, 0.0, 0.0 // sums over the bed
	for n := range r.columns {
		c := &r.columns[n]
		f := r.flowIn(n, flow)
		off := r.law.march(c, m.on, f, ahead)
		offs[n] = off
		w += c.share * f * off.w
		h += c.share * f * off.hJKg
		bedFlow += c.share * f
	}
	sum.add(flow, bedFlow, &m, w, h, plant)
	off := streamOfHeat(h/bedFlow, w/bedFlow)
	ret := r.returned(m.on, off)
	if r.setup.Above != nil {
		ret, _ = r.setup.Above.at(r.hour + ahead/3600)
	}
	lag := r.setup.Constants.LagS
	return view{on: m.on, off: off, mixC: m.mixC, heaterJKg: m.heater, flow: flow},
		drift{(ret.w - back.w) / lag, (ret.hJKg - back.hJKg) / lag}
}

// glance watches the air at the end of the last step.
func (r *Run) glance() {
	if r.draught.scale == 0 {
		return // no air has moved
	}
	copy(r.offs, r.ends)
	r.watch(0)
}
