package steep

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/unit"
)

// ventilate passes air through the drained grain: it leaves at the temperature
// of the grain, as damp as the grain's surface makes it.
func (r *Run) ventilate(dtH float64) {
	n := &r.now
	if n.level == 1 {
		return
	}
	t, p := unit.Celsius(n.tempC), r.setup.PressurePa
	in := min(r.outsideW, float64(air.SaturationRatio(unit.Celsius(n.airC), p)))
	dryAirKg := r.airM3H() * dtH / air.SpecificVolume(unit.Celsius(n.airC), unit.HumidityRatio(in), p)
	out := float64(air.HumidityRatio(t, r.surface(in), p))
	kg := dryAirKg * (out - in)

	r.wetten(-kg)
	n.sums.evaporatedKg += kg
	n.sums.airJ += dryAirKg * (air.Enthalpy(unit.Celsius(n.airC), unit.HumidityRatio(in)) - air.Enthalpy(t, unit.HumidityRatio(out)))
	if over := n.filmKg - r.fullFilmKg(); over > 0 { // condensed, and runs off
		n.filmKg -= over
		r.takeWater(-over, n.tempC)
	}
}

// surface is the humidity of the air at the kernels: saturated over a film and
// over wet kernels, by the isotherm of barley over dry ones. Where the isotherm
// does not answer, nothing passes.
func (r *Run) surface(inW float64) unit.RelativeHumidity {
	n := &r.now
	x := unit.DryBasis(r.kernelWaterKg() / n.dryKg)
	t := unit.Celsius(n.tempC)
	if n.filmKg > 0 || x > swollenFromDB {
		return 1
	}
	rh := barley.BarleyIsotherm(*r.setup.Barley).Humidity(t, x)
	if math.IsNaN(float64(rh)) {
		return air.RelativeHumidity(t, unit.HumidityRatio(inW), r.setup.PressurePa)
	}
	return rh
}

// warm lets grain and water come to one temperature and both lose heat through
// the walls, the water that of the share of the bed that it covers.
func (r *Run) warm(dtH float64) {
	n := &r.now
	lossJK := r.setup.Vessel.LossWM2K * r.setup.floorM2() * dtH * secondsPerHour
	wall := (1 - n.level) * lossJK * (r.setup.AirC - n.tempC)
	n.sums.wallJ += wall
	if n.level == 0 {
		return
	}
	grain := n.dryKg * barley.EnthalpySlope(unit.DryBasis(r.waterKg()/n.dryKg))
	water := n.level * r.fullM3() * waterKgM3 * waterJKgK
	passed := grain * water / (grain + water) * (n.waterC - n.tempC) * -math.Expm1(-n.level*dtH/r.setup.Constants.ExchangeH)
	n.sums.exchangedJ += passed
	n.waterC += (n.level*lossJK*(r.setup.AirC-n.waterC) - passed) / water
}
