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
func (r *Run) stretch(hour, dtS float64) error {
	r.grow(r.asked(r.hour).flow, dtS)
	n := math.Ceil(dtS/r.setup.StepS - 1e-9)
	start := r.hour
	r.cure(dtS / n / 2)
	for i := 1.0; i <= n; i++ {
		if err := r.step(dtS / n); err != nil {
			return err
		}
		r.hour = start + (hour-start)*(i/n)
		if err := r.survey(); err != nil {
			return err
		}
		r.follow(dtS / n)
		if i < n {
			r.cure(dtS / n)
		}
	}
	r.cure(dtS / n / 2)
	return nil
}

// leastFlow is what counts as moving air, kg/(m² s).
const leastFlow = 1e-6

// step advances water and heat by dtS.
func (r *Run) step(dtS float64) error {
	mid := r.asked(r.hour + dtS/7200)
	if mid.flow < leastFlow {
		r.view.flow, r.view.heaterJKg, r.draught = 0, 0, draught{}
		if r.trace != nil {
			r.trace.keep(r.hour, r.view.off, 0)
		}
		for n := range r.columns {
			r.columns[n].stand(dtS)
		}
		r.note(dtS)
		return nil
	}
	if err := r.blow(mid.flow); err != nil {
		return err
	}
	return r.advance(dtS)
}

// advance takes one step in stages, as stable.go has it. The first stage finds
// the limit that the others keep, and what it sees is the air at the hour. If
// the bed then answers faster than that, as dry malt does when damp air reaches
// it, the step is taken again by what was found.
func (r *Run) advance(dtS float64) error {
	plant := r.maker(dtS)
	var sum tally
	r.forget()
	r.view = r.stage(&plant, &sum, 0, 0)
	r.watch(dtS)
	if r.trace != nil {
		r.trace.keep(r.hour, r.view.off, r.view.flow*(1-r.setup.Kiln.LeakShare))
	}
	r.stableS = r.limit() / r.rise(dtS)
	stages, last := 0, view{}
	for limitS := r.stableS; ; {
		var err error
		if stages, err = r.stages(dtS, limitS); err != nil {
			return err
		}
		subS := dtS / float64(stages-1)
		for k := 1; k < stages; k++ {
			last = r.stage(&plant, &sum, float64(k)*subS, subS)
		}
		found := r.limit()
		if r.setup.SubStepS > 0 || found >= subS {
			break
		}
		limitS /= mostQuicker
		if found > limitS {
			limitS = found
		}
		r.forget()
		sum = tally{}
		r.stage(&plant, &sum, 0, 0)
	}
	r.reachedC = last.on.tempC

	per := dtS / float64(stages)
	for n := range r.columns {
		r.columns[n].apply(per)
	}
	r.back = r.backAfter(per)
	r.backW, r.backH = 0, 0
	r.tally.addScaled(&sum, per*r.setup.Kiln.AreaM2)
	r.tally.fan += r.draught.fanW * dtS
	return nil
}

// forget drops what a step has summed and seen so far.
func (r *Run) forget() {
	for n := range r.columns {
		c := &r.columns[n]
		clear(c.waterRate)
		clear(c.heatRate)
		c.stiff = 0
	}
	r.backW, r.backH = 0, 0
}

// backAfter is the return air after s seconds of its summed rates.
func (r *Run) backAfter(s float64) stream {
	return streamOfHeat(r.back.hJKg+s*r.backH, r.back.w+s*r.backW)
}

// stage adds the rates of all columns and of the return air at one moment,
// ahead s into the step, where sub-steps of subS so far have brought them, and
// sees how fast the layers answer.
func (r *Run) stage(plant *maker, sum *tally, ahead, subS float64) view {
	ask := r.asked(r.hour + ahead/3600)
	flow := ask.flow * r.draught.scale
	back := r.backAfter(subS)
	var m made
	if r.setup.Supply != nil {
		m = r.supplied(plant, ahead)
	} else {
		m = plant.make(ask, flow, back, ahead)
	}
	w, h, bedFlow := 0.0, 0.0, 0.0 // sums over the bed
	for n := range r.columns {
		c := &r.columns[n]
		f := flow * (1 - r.setup.Kiln.LeakShare) * r.share[n]
		off := r.law.march(c, m.on, f, subS)
		if ahead == 0 {
			r.offs[n] = off
		}
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
	r.backW += (ret.w - back.w) / r.setup.Constants.LagS
	r.backH += (ret.hJKg - back.hJKg) / r.setup.Constants.LagS
	return view{on: m.on, off: off, mixC: m.mixC, heaterJKg: m.heater, flow: flow}
}

// glance looks at the air of this moment without moving on.
func (r *Run) glance() {
	if r.draught.scale == 0 {
		return // no air has moved
	}
	plant := r.maker(0)
	var sum tally
	r.view = r.stage(&plant, &sum, 0, 0)
	r.forget()
	r.watch(0)
}
