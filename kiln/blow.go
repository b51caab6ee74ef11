package kiln

import (
	"math"

	"awn/air"
	"awn/bed"
	"awn/unit"
)

// draught is how the air stands against the bed.
type draught struct {
	meanMS float64 // velocity it was worked out for; 0: not yet
	asked  float64 // flow it was worked out for
	scale  float64 // what the fan gives of what was asked
	dropPa float64 // over the bed
	fanW   float64
}

// redraught is the change of flow or of the air's volume from which on the
// draught is worked out anew.
const redraught = 0.01

// blow works out what the fan gives of the flow asked for and how the spots of
// the bed share it, and refuses air that would lift the grain.
func (r *Run) blow(asked float64) error {
	s := r.setup
	bedM3 := volume(stream{tempC: (r.view.on.tempC + r.view.off.tempC) / 2, w: (r.view.on.w + r.view.off.w) / 2}, s.PressurePa)
	perFan := (1 - s.Kiln.LeakShare) * bedM3 // m/s in the bed per flow through the fan
	meanMS := asked * perFan
	d := &r.draught
	if d.meanMS > 0 && math.Abs(meanMS-d.meanMS) < redraught*d.meanMS && math.Abs(asked-d.asked) < redraught*d.asked {
		return nil
	}
	*d = draught{meanMS: meanMS, asked: asked, scale: 1}
	inlet := stream{tempC: r.view.mixC, w: r.view.on.w}
	if !s.Kiln.FanPush {
		inlet = r.view.off
	}
	fanM3 := volume(inlet, s.PressurePa)
	density := (1 + inlet.w) / fanM3
	fan := bed.Fan{ShutOffPa: s.Kiln.Fan.ShutOffPa, FreeM3S: s.Kiln.Fan.FreeM3S, LossPa: s.Kiln.Fan.LossPa}

	d.dropPa = bed.Split(r.share, r.spots, meanMS)
	if fan.ShutOffPa > 0 && !r.fanOff && !(d.dropPa <= fan.Pressure(asked*s.Kiln.AreaM2*fanM3, density)) {
		most := fan.Most(r.spots, s.Kiln.AreaM2*fanM3/perFan, density, r.share)
		d.scale = most / meanMS
		d.dropPa = bed.Split(r.share, r.spots, most)
	}
	if math.IsNaN(d.dropPa) {
		return r.fault("air would have to move at %.1f m/s, faster than %.0f", meanMS, bed.MostMS)
	}
	for c := range r.columns {
		r.share[c] /= meanMS * d.scale
		wet := 0.0
		for i, w := range r.columns[c].water {
			wet += w + r.columns[c].dry[i]
		}
		if lift := bed.Lift(wet); d.dropPa > lift*s.Series {
			return r.fault("the air would lift the bed: it takes %.0f Pa, the grain weighs %.0f Pa", d.dropPa/s.Series, lift)
		}
	}
	if s.Kiln.Fan.Efficiency > 0 && !r.fanOff {
		m3s := asked * d.scale * s.Kiln.AreaM2 * fanM3
		d.fanW = m3s * (d.dropPa + fan.Loss(m3s, density)) / s.Kiln.Fan.Efficiency
	}
	return nil
}

// fanJKg is what the fan adds to each kg of dry air: all its power ends there.
func (r *Run) fanJKg() float64 {
	if r.draught.fanW == 0 {
		return 0
	}
	return r.draught.fanW / (r.draught.asked * r.draught.scale * r.setup.Kiln.AreaM2)
}

// volume is the volume of a stream per kg of dry air, m³.
func volume(s stream, pressurePa float64) float64 {
	return air.SpecificVolume(unit.Celsius(s.tempC), unit.HumidityRatio(s.w), pressurePa)
}
