package kiln

import (
	"math"

	"awn/air"
	"awn/plant"
	"awn/unit"
)

// burnedWaterKgJ is the water in the flue gas of methane per J of its lower
// heating value: 2 mol of water of 18.015 g in 802.3 kJ/mol, 0.162 kg per kWh.
// Recalled: any table of heats of combustion.
const burnedWaterKgJ = 2 * 18.015e-3 / 802.3e3

// Outside is the air outside: one mean day whose vapour stays the same while
// its temperature swings.
type Outside struct {
	MeanC     float64
	RH        float64 // at the mean temperature, 0 to 1
	SwingK    float64 // half the daily range
	WarmestAt float64 // hours after the start of kilning
}

// at is the outside air at an hour. On the coldest mornings it is saturated.
func (o Outside) at(hour, pressurePa float64) stream {
	t := o.MeanC + o.SwingK*math.Cos(2*math.Pi*(hour-o.WarmestAt)/24)
	w := air.HumidityRatio(unit.Celsius(o.MeanC), unit.RelativeHumidity(o.RH), pressurePa)
	return streamOf(t, float64(min(w, air.SaturationRatio(unit.Celsius(t), pressurePa))))
}

// settings are what a programme asks for at one moment.
type settings struct {
	airOnC float64
	flow   float64 // kg dry air per m² of floor and s, through the fan
	recirc float64
}

// toward is the point a share of the way from s to another.
func (s settings) toward(to settings, share float64) settings {
	return settings{
		airOnC: s.airOnC + share*(to.airOnC-s.airOnC),
		flow:   s.flow + share*(to.flow-s.flow),
		recirc: s.recirc + share*(to.recirc-s.recirc),
	}
}

// made is the air that the plant gave for the settings, with what that took
// per kg of dry air through the fan, J.
type made struct {
	on        stream
	heater    float64 // heat to air
	wall      float64 // lost by the structure
	recovered float64 // by the heat exchanger
	mixC      float64 // between mixing and heater
}

// maker is the plant's air side over one step.
type maker struct {
	plant.Kiln
	outside   stream
	fanJKg    float64 // what the fan adds to each kg of dry air
	startC    float64 // air-on at the start of the step
	heaterOff bool
}

// make mixes, heats and moves the air. The burner heats until the air under
// the bed has the temperature asked for, or to its most; the water of direct
// firing comes on top. A burner asked for less than it can turn down to
// switches on and off and gives the same in the mean.
func (m *maker) make(ask settings, flow float64, back stream, ahead float64) (out made) {
	fresh := m.outside
	if warmer := back.tempC - fresh.tempC; m.HeatRecovery > 0 && warmer > 0 {
		fresh = streamOf(fresh.tempC+m.HeatRecovery*warmer, fresh.w)
		out.recovered = (1 - ask.recirc) * (fresh.hJKg - m.outside.hJKg)
	}
	w := fresh.w + ask.recirc*(back.w-fresh.w)
	h := fresh.hJKg + ask.recirc*(back.hJKg-fresh.hJKg)
	if m.FanPush {
		h += m.fanJKg
	}
	c := air.DryAirJKgK + air.VapourJKgK*w
	out.mixC = (h - air.VapourAtZeroJ*w) / c
	lost := m.LossWK / (flow * m.AreaM2 * c) // K per K above outside

	if !m.heaterOff {
		want := min(ask.airOnC, m.mostC(ahead))
		need := c * (want + lost*(want-m.outside.tempC) - out.mixC)
		out.heater = min(max(0, need), m.Burner.MostKW*1000/(flow*m.AreaM2))
	}
	t := (out.mixC + out.heater/c + lost*m.outside.tempC) / (1 + lost)
	out.wall = c * lost * (t - m.outside.tempC)
	w += m.fuelWater(out.heater)
	out.on = streamOf(t, w)
	return out
}

// fuelWater is the water that firing adds to the air for a heat given to it.
func (m *maker) fuelWater(heatJ float64) float64 {
	if m.Burner.Firing != plant.Direct {
		return 0
	}
	return burnedWaterKgJ * heatJ / m.Burner.Efficiency
}

// maker readies the plant for a step of dtS.
func (r *Run) maker(dtS float64) maker {
	s := r.setup
	return maker{Kiln: s.Kiln, outside: s.Outside.at(r.hour+dtS/7200, s.PressurePa),
		fanJKg: r.fanJKg(), heaterOff: r.heaterOff, startC: r.reachedC}
}

// mostC is the air-on that the burner's ramp allows, ahead s into the step.
func (m *maker) mostC(ahead float64) float64 {
	if m.Burner.RampKPerH == 0 {
		return math.Inf(1)
	}
	return max(m.startC, m.outside.tempC) + m.Burner.RampKPerH*ahead/3600
}

// returned is the air that goes back to the fan: off the bed, with what leaked
// past it, and the heat of a fan that draws.
func (r *Run) returned(on, off stream) stream {
	k := &r.setup.Kiln
	w := off.w + k.LeakShare*(on.w-off.w)
	h := off.hJKg + k.LeakShare*(on.hJKg-off.hJKg)
	if !k.FanPush {
		h += r.fanJKg()
	}
	return streamOfHeat(h, w)
}
