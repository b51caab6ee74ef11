package silo

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/unit"
)

// Grain temperatures that the isotherm answers.
const (
	leastGrainC = -20
	mostGrainC  = 65
	leastERH    = 0.02
	mostERH     = 0.99
)

// layer is one layer, per m² of floor. Dry matter, water and heat are carried;
// temperature and moisture are read off.
type layer struct {
	dryKg, waterKg, heatJ float64

	tempC      float64
	moistureDB float64
	spread     float64 // exp(-100 B X) of the isotherm at the moisture
	bound      float64 // exp(-13.67 X) of the heat of sorption
	slope      float64 // of the heat with temperature, J/(m² K)

	used    float64 // share of the safe time
	probits float64 // lost
	burnt   float64 // dry matter respired, kg
}

// settle reads temperature and moisture off what is carried; b is that of the
// isotherm.
func (l *layer) settle(b float64) {
	l.moistureDB = l.waterKg / l.dryKg
	l.spread = math.Exp(-100 * b * l.moistureDB)
	l.bound = math.Exp(-barley.SorptionDecay * l.moistureDB)
	l.readTemp()
}

// follow is settle after a small change of moisture: the exponentials are
// carried on by a series, which in a time loop costs a tenth of them.
func (l *layer) follow(b float64) {
	const small = 1e-3
	before := l.moistureDB
	l.moistureDB = l.waterKg / l.dryKg
	dx := l.moistureDB - before
	if !(math.Abs(dx) < small) {
		l.settle(b)
		return
	}
	l.spread *= expSmall(-100 * b * dx)
	l.bound *= expSmall(-barley.SorptionDecay * dx)
	l.readTemp()
}

// expSmall is the exponential of |y| below 0.015, to 1e-14.
func expSmall(y float64) float64 {
	return 1 + y*(1+y/2*(1+y/3*(1+y/4*(1+y/5))))
}

// readTemp is barley.TempFromEnthalpy with an exponential already known; the
// inventory is taken with barley.GrainEnthalpy, so that the two are held
// against each other.
func (l *layer) readTemp() {
	sorbed := barley.SorptionShare / barley.SorptionDecay * (1 - l.bound)
	l.slope = l.dryKg * (barley.DryJKgK + air.WaterJKgK*l.moistureDB + (air.WaterJKgK-air.VapourJKgK)*sorbed)
	l.tempC = (l.heatJ + l.dryKg*air.VapourAtZeroJ*sorbed) / l.slope
}

// wetBasis is the moisture of the layer.
func (l *layer) wetBasis() float64 { return l.moistureDB / (1 + l.moistureDB) }

// stream is air on its way up, per kg of dry air.
type stream struct{ w, hJ float64 }

// exchange lets so much dry air, kg/m², come to rest with the layer and go on.
// The rest is taken at the layer's new temperature, linear about the old one
// (a linearly implicit step); a second pass follows where that went far. What
// the air lost the layer has, to the last digit.
func (l *layer) exchange(in stream, airKg float64, iso barley.ChungPfost, pPa float64) stream {
	const far = 0.5 // K
	about, from := l.tempC, l.tempC
	var out stream
	for range 2 {
		w, dw := l.atRest(about, iso, pPa)
		hv := air.VapourAtZeroJ + air.VapourJKgK*about
		// Heat of the air off at t: h0 + dh (t - about).
		h0 := air.DryAirJKgK*about + w*hv
		dh := air.DryAirJKgK + w*air.VapourJKgK + dw*hv
		// Heat that water brings the grain at constant temperature: barley.WaterEnthalpy.
		latent := air.VapourAtZeroJ - (air.WaterJKgK-air.VapourJKgK)*from
		sorbed := air.WaterJKgK*from - latent*barley.SorptionShare*l.bound
		// slope (t - from) + sorbed G (w_in - w(t)) = G (h_in - h(t)), linear in t.
		rest := airKg * (in.hJ - h0 + dh*about - sorbed*(in.w-w+dw*about))
		t := (l.slope*from + rest) / (l.slope + airKg*(dh-sorbed*dw))
		out = stream{w: w + dw*(t-about), hJ: h0 + dh*(t-about)}
		if math.Abs(t-about) < far {
			break
		}
		about = min(max(t, leastGrainC), mostGrainC)
	}
	// Air cannot give more water than the layer holds, nor hold less than none.
	out.w = min(max(out.w, 0), in.w+l.waterKg/airKg/2)
	l.waterKg += airKg * (in.w - out.w)
	l.heatJ += airKg * (in.hJ - out.hJ)
	l.follow(iso.B)
	return out
}

// atRest is the humidity ratio of air at rest with the layer at a temperature,
// and its slope.
func (l *layer) atRest(tempC float64, iso barley.ChungPfost, pPa float64) (w, perK float64) {
	tempC = min(max(tempC, leastGrainC), mostGrainC)
	ps, dps := air.Saturation(unit.Celsius(tempC))
	ln := -iso.A / (tempC + iso.C) * l.spread
	rh := math.Exp(ln)
	perRH := -ln / (tempC + iso.C) // d ln RH/dt
	if rh < leastERH || rh > mostERH {
		rh, perRH = min(max(rh, leastERH), mostERH), 0
	}
	e := rh * ps
	de := rh*dps + e*perRH
	dry := pPa - e
	return air.MassRatio * e / dry, air.MassRatio * pPa / (dry * dry) * de
}
