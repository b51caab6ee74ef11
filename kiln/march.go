package kiln

import "awn/air"

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

// march takes air up through a column, layer by layer, and sets each layer's
// rates to what it gives and takes:
//
//	G dW/dz = ρ r                      vapour
//	G dh/dz = -(change of the grain's heat)
//	r = ri re/(ri + re)                drying or wetting, inside and film in series
//	ri = k (X - Xe(T, RH))             from inside the kernel
//	re = G (Wg - W) (1 - e^-NTU)/ρ     through the film
//
// Vapour leaves the grain at the grain's temperature. Air that comes in above
// saturation at the grain condenses on it through the film; air that would
// leave above saturation drops its fog on the layer.
func (l *law) march(c *column, in stream, flow, ahead float64) stream {
	l.look(c, ahead)
	ntu := l.film * Film(flow) * c.layerM / (flow * air.DryAirJKgK)
	bare := decay(ntu) // e^-NTU in dry air
	perFlow := 1 / flow

	w, h := in.w, in.hJKg
	ef := 1 - bare*grow3(ntu*moist(w))
	n := len(c.sides)
	dry, perDry := c.dry[:n], c.perDry[:n]
	waterRate, heatRate := c.waterRate[:n], c.heatRate[:n]
	growWater, growHeat := c.growWater[:n], c.growHeat[:n]
	for i := range c.sides {
		g, per := &c.sides[i], perDry[i]
		g.onW, g.ef, g.dew, g.fog = w, ef, 0, 0
		g.outer = flow * ef * per * (g.surfaceW - w)
		if l.pressurePa*w > g.satPa*(air.MassRatio+w) {
			atGrain := l.ratio(g.satPa)
			g.outer = flow * ef * per * (g.surfaceW - atGrain)
			g.dew = (atGrain - w) * ef
		}
		g.both = l.series(g, w)

		// Air's heat but for that of its vapour at 0 °C is cp t, so that the
		// difference of temperatures takes no division.
		cp := air.DryAirJKgK + air.VapourJKgK*w
		cooler := cp*g.tempC - (h - air.VapourAtZeroJ*w)
		dw := g.both*dry[i]*perFlow + g.dew
		out, hOut := w+dw, h+ef*cooler+dw*(air.VapourAtZeroJ+air.VapourJKgK*g.tempC)
		if cooler > 0 || l.pressurePa*out > g.satPa*(air.MassRatio+out) { // else it cannot fog
			out, hOut, g.fog = l.settle(out, hOut)
		}
		waterRate[i] = growWater[i] - flow*(out-w)
		heatRate[i] = growHeat[i] - flow*(hOut-h)
		// The film of the next layer is taken at the vapour that entered this one:
		// 1e-4 off, and nothing has to wait for it.
		ef = 1 - bare*grow3(ntu*moist(w))
		w, h = out, hOut
	}
	return streamOfHeat(h, w)
}

// moist is the vapour's share of the heat capacity of air.
func moist(w float64) float64 {
	return air.VapourJKgK * w / (air.DryAirJKgK + air.VapourJKgK*w)
}

// grow3 is e^y for small y, by its series.
func grow3(y float64) float64 { return 1 + y*(1+y*(1./2+y*(1./6+y*(1./24)))) }

// series puts the inside of the kernel and its film in series: the rate of
// both, 1/s; 0 where they point different ways.
//
// With the activity a C = P/Q the equilibrium moisture is A B P Q/d, where d is
// (Q - P)(Q + (B - 1) P). Written over d, all of it takes one division in the
// chain that leads from layer to layer.
func (l *law) series(g *grainSide, w float64) float64 {
	p, q := l.pressurePa*w, (air.MassRatio+w)*g.gabPa
	if most := mostActivity * (air.MassRatio + w) * g.satPa; p > most {
		p = most
	}
	d := (q - p) * (q + g.gabB1*p)
	s := g.rate * (g.x*d - g.gabAB*p*q)
	if s*g.outer > 0 {
		return s * g.outer / (s + g.outer*d)
	}
	return 0
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

// settle lets air of w and h above saturation drop its fog, in one step of
// Newton's method at constant enthalpy but for the water that falls. rise is
// that of its vapour with its heat thereafter, kg/J; 0 if none falls.
func (l *law) settle(w, h float64) (wOut, hOut, rise float64) {
	s := streamOfHeat(h, w)
	a, b, f := between(s.tempC)
	ps, slope := a.satPa+f*(b.satPa-a.satPa), (b.satPa-a.satPa)*perC
	p := l.pressurePa
	if ps >= l.mostPa || !(p*w > ps*(air.MassRatio+w)) {
		return w, h, 0
	}
	cp := air.DryAirJKgK + air.VapourJKgK*w
	latent := air.VapourAtZeroJ - (air.WaterJKgK-air.VapourJKgK)*s.tempC
	perK := air.MassRatio * p / ((p - ps) * (p - ps)) * slope
	drop := (w - air.MassRatio*ps/(p-ps)) / (1 + latent/cp*perK)
	return w - drop, enthalpy(s.tempC+drop*latent/cp, w-drop), perK / (cp + latent*perK)
}
