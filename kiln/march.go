package kiln

import (
	"awn/air"
)

// stream is moist air on its way through the bed.
type stream struct {
	tempC float64
	w     float64 // kg vapour per kg dry air
	hJKg  float64 // enthalpy per kg dry air
}

// enthalpy of moist air, as air.Enthalpy, on plain numbers.
func enthalpy(tempC, w float64) float64 {
	return air.DryAirJKgK*tempC + w*(air.VapourAtZeroJ+air.VapourJKgK*tempC)
}

func streamOf(tempC, w float64) stream { return stream{tempC, w, enthalpy(tempC, w)} }

// streamOfHeat is the air of a heat content and a humidity ratio.
func streamOfHeat(hJKg, w float64) stream {
	return stream{(hJKg - air.VapourAtZeroJ*w) / (air.DryAirJKgK + air.VapourJKgK*w), w, hJKg}
}

// law is the drying law of one run with its uncertain numbers and its pressure.
type law struct {
	rate        float64 // multiplier
	film        float64 // multiplier
	equilibrium float64 // multiplier
	pressurePa  float64
	mostPa      float64 // that vapour may hold of it
}

// march takes air up through a column, layer by layer, and adds to each
// layer's rates what it gives and takes:
//
//	G dW/dz = ρ r                      vapour
//	G dh/dz = -(change of the grain's heat)
//	r = ri re/(ri + re)                drying or wetting, inside and film in series
//	ri = k (X - Xe(T, RH))             from inside the kernel
//	re = G (Wg - W) (1 - e^-NTU)/ρ     through the film
//
// Vapour leaves the grain at the grain's temperature. Air that comes in above
// saturation at the grain condenses on it through the film; air that would
// leave above saturation drops its fog on the layer. With gauge the march also
// finds how fast its layers answer the air (stable.go).
func (l *law) march(c *column, in stream, flow, subS float64, gauge bool) stream {
	ntu := l.film * Film(flow) * c.layerM / (flow * air.DryAirJKgK)
	perFlow := 1 / flow
	bare := decay(ntu) // e^-NTU in dry air
	stiff := 0.0
	w, t, h := in.w, in.tempC, in.hJKg
	cp := air.DryAirJKgK + air.VapourJKgK*w
	perCp := 1 / cp

	n := len(c.water)
	dry, perDry := c.dry[:n], c.perDry[:n]
	waterRate, heatRate := c.waterRate[:n], c.heatRate[:n]
	growWater, growHeat := c.growWater[:n], c.growHeat[:n]
	l.look(c, subS)
	sides := c.sides[:n]
	for i := range n {
		per := perDry[i]
		g := &sides[i]
		tg, x := g.tempC, g.x
		moist := air.VapourJKgK * w * perCp // the vapour's share of the air's heat capacity
		ef := 1 - bare*grow3(ntu*moist)
		film := flow * ef * per
		outer := film * (g.surfaceW - w)
		dew := 0.0
		if l.pressurePa*w > g.satPa*(air.MassRatio+w) {
			outer = film * (g.surfaceW - l.ratio(g.satPa))
			dew = (l.ratio(g.satPa) - w) * ef
		}
		inner, r := l.series(g, x, w, outer)

		dw := r*dry[i]*perFlow + dew
		hOut := h + ef*cp*(tg-t) + dw*(air.VapourAtZeroJ+air.VapourJKgK*tg)
		w1 := w + dw
		cp = air.DryAirJKgK + air.VapourJKgK*w1
		perCp = 1 / cp
		t = (hOut - air.VapourAtZeroJ*w1) * perCp
		if t < tg || l.pressurePa*w1 > g.satPa*(air.MassRatio+w1) { // else it cannot fog
			if s := l.settle(stream{t, w1, hOut}); s.w != w1 {
				t, w1, hOut = s.tempC, s.w, s.hJKg
				cp = air.DryAirJKgK + air.VapourJKgK*w1
				perCp = 1 / cp
			}
		}
		if gauge {
			stiff = max(stiff, l.answer(g, x, ef, inner, outer, dew != 0)*flow*per)
		}
		waterRate[i] += growWater[i] - flow*(w1-w)
		heatRate[i] += growHeat[i] - flow*(hOut-h)
		w, h = w1, hOut
	}
	c.stiff = stiff
	return stream{t, w, h}
}

// grow3 is e^y for small y, by its series.
func grow3(y float64) float64 { return 1 + y*(1+y*(1./2+y*(1./6+y*(1./24)))) }

// series puts the inside of the kernel and its film in series. It returns the
// inner rate alone and both together, 1/s; 0 where they point different ways.
//
// With the activity a C = P/Q the equilibrium moisture is A B P Q/d, where d is
// (Q - P)(Q + (B - 1) P). Written over d, all of it takes one division in the
// chain that leads from layer to layer.
func (l *law) series(g *grainSide, x, w, outer float64) (inner, both float64) {
	p, q := l.pressurePa*w, (air.MassRatio+w)*g.gabPa
	if most := mostActivity * g.gabC; p > most*q {
		p = most * q
	}
	d := (q - p) * (q + g.gabB1*p)
	s := g.rate * (x*d - g.gabAB*p*q)
	if s*outer > 0 {
		both = s * outer / (s + outer*d)
	}
	return s / d, both
}

// mostActivity caps the humidity that the isotherm is asked for.
const mostActivity = 0.999

// ratio is the humidity ratio of a vapour pressure, as air.HumidityRatio.
func (l *law) ratio(pa float64) float64 {
	if pa > l.mostPa {
		pa = l.mostPa
	}
	return air.MassRatio * pa / (l.pressurePa - pa)
}

// settle lets air above saturation drop its fog, in one step of Newton's
// method at constant enthalpy but for the water that falls.
func (l *law) settle(s stream) stream {
	a, b, f := between(s.tempC)
	ps, slope := a.satPa+f*(b.satPa-a.satPa), (b.satPa-a.satPa)*perC
	p := l.pressurePa
	if ps >= l.mostPa || !(p*s.w > ps*(air.MassRatio+s.w)) {
		return s
	}
	cp := air.DryAirJKgK + air.VapourJKgK*s.w
	latent := air.VapourAtZeroJ - (air.WaterJKgK-air.VapourJKgK)*s.tempC
	drop := (s.w - air.MassRatio*ps/(p-ps)) / (1 + latent/cp*air.MassRatio*p/((p-ps)*(p-ps))*slope)
	return streamOf(s.tempC+drop*latent/cp, s.w-drop)
}
