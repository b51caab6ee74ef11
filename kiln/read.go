package kiln

import (
	"math"

	"awn/programme"
)

// Read sets v to the readings of the moment. Air-on, air-off and powers are
// those of the last step, NaN before the first and while no air moves. Break
// turns from 0 to 1 a quarter of an hour after the break, when a person could
// be sure of it; Run.Break says when it was.
func (r *Run) Read(v *programme.Values) {
	*v = programme.Blank()
	r.readGrain(v)
	v[programme.Respiration] = r.respired
	v[programme.Break] = 0
	if r.broken() {
		v[programme.Break] = 1
	}
	v[programme.Flow] = r.view.flow
	v[programme.Recirculation] = r.asked(r.hour).recirc
	v[programme.HeaterPower] = r.view.flow * r.view.heaterJKg * r.setup.Kiln.AreaM2 / 1000
	v[programme.FanPower] = r.draught.fanW / 1000
	if r.view.flow > 0 {
		v[programme.AirOn], v[programme.AirOnRH] = r.view.on.tempC, r.humidity(r.view.on)
		v[programme.AirOff], v[programme.AirOffRH] = r.view.off.tempC, r.humidity(r.view.off)
	}
}

// readGrain sets the readings of the bed. Means are weighted by dry matter.
func (r *Run) readGrain(v *programme.Values) {
	dry, water, heat, age, ageDry := 0.0, 0.0, 0.0, 0.0, 0.0
	low, high := math.Inf(1), math.Inf(-1)
	driest, wettest := math.Inf(1), 0.0
	for n := range r.columns {
		c := &r.columns[n]
		for i, d := range c.dry {
			dry += d * c.areaM2
			water += c.water[i] * c.areaM2
			heat += c.tempC[i] * d * c.areaM2
			low, high = min(low, c.tempC[i]), max(high, c.tempC[i])
			x := c.water[i] / d
			driest, wettest = min(driest, x), max(wettest, x)
		}
		for i, d := range c.dryKg {
			age += d * c.ageD[i]
			ageDry += d
		}
	}
	v[programme.DryMatter] = dry
	v[programme.Moisture] = water / (water + dry)
	v[programme.WorstLayer], v[programme.DriestLayer] = wettest/(1+wettest), driest/(1+driest)
	v[programme.TempMean], v[programme.TempLow], v[programme.TempHigh] = heat/dry, low, high
	v[programme.Age] = age / ageDry
}
