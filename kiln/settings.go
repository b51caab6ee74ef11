package kiln

import "awn/programme"

// Begin sets what the programme asks for from now on. Settings run in a
// straight line from where they are to those of the step over RampH.
func (r *Run) Begin(step programme.KilnStep) error {
	k := &r.setup.Kiln
	to := settings{step.AirOnC, step.Flow.KgM2S(r.setup.CastT, k.AreaM2), step.Recirculation}
	if step.FanOff {
		to.flow = k.DampersOpenKg
		if step.DampersShut {
			to.flow = 0
		}
	}
	switch {
	case !(to.airOnC <= mostSetC && to.airOnC > -50) && !step.HeaterOff:
		return r.fault("step %q asks for air at %.0f °C; malt is kilned up to %.0f °C and roasted beyond", step.Name, to.airOnC, mostSetC)
	case !(to.flow >= 0 && to.flow < 10):
		return r.fault("step %q asks for an airflow of %.3g kg/(m² s)", step.Name, to.flow)
	case !(to.recirc >= 0 && to.recirc < 1):
		return r.fault("step %q asks for %.0f %% of return air", step.Name, 100*to.recirc)
	case !(step.RampH >= 0):
		return r.fault("step %q has a ramp of %g h", step.Name, step.RampH)
	}
	if step.HeaterOff {
		to.airOnC = r.reachedC
	}
	if to.recirc > k.MostRecirc {
		r.noted.recircAsked = max(r.noted.recircAsked, to.recirc)
		to.recirc = k.MostRecirc
	}
	from := r.asked(r.hour)
	if r.rampTo < 0 { // a kiln starts at its first flow, and warms from where its air is
		from = to
		from.airOnC = r.reachedC
	}
	if step.FanOff || r.fanOff || from.flow < leastFlow || to.flow < leastFlow {
		from.flow = to.flow // a fan stops and starts at once
	}
	r.hold(&step, &from, &to)
	r.from, r.to = from, to
	r.rampFrom, r.rampTo = r.hour, r.hour+step.RampH
	r.heaterOff, r.fanOff = step.HeaterOff, step.FanOff
	return nil
}

// asked is what the programme asks for at an hour; an upper deck gets what there
// is.
func (r *Run) asked(hour float64) settings {
	if s := r.setup.Supply; s != nil {
		off, _ := s.Lower.at(hour)
		return settings{airOnC: off.tempC, flow: s.flowAt(hour)}
	}
	if hour >= r.rampTo {
		return r.to
	}
	return r.from.toward(r.to, (hour-r.rampFrom)/(r.rampTo-r.rampFrom))
}
