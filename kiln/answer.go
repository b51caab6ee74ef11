package kiln

import "awn/air"

// drift is a small change of moist air, or a rate of change.
type drift struct{ w, hJKg float64 }

func (d drift) times(by float64) drift { return drift{by * d.w, by * d.hJKg} }

func (d drift) plus(o drift) drift { return drift{d.w + o.w, d.hJKg + o.hJKg} }

func (s stream) plus(d drift) stream { return streamOfHeat(s.hJKg+d.hJKg, s.w+d.w) }

// since is how s differs from an earlier stream.
func (s stream) since(from stream) drift { return drift{s.w - from.w, s.hJKg - from.hJKg} }

// answer is how the air off a layer follows the air on to it and the
// temperature of its grain, for small changes of each. How a layer's moisture
// answers is slow, and left out.
type answer struct {
	ww, wh, wT float64 // vapour off for vapour on, for heat on, for kelvins
	hw, hh, hT float64 // heat off for the same
	perX       float64 // heat of the grain for its moisture at one temperature, J/kg
	perJ       float64 // kelvins of the layer for a J/m² that it would gain were the air off not to follow
}

// ratePerK is the rise of the inner rate, at the middle of the range in which
// malt dries: 4426/T² of InnerRate.
const ratePerK = 0.04

// answers works out the answers of all layers to the air of the last march. held
// is the air, kg/m², that passes in the time for which a stage looks ahead.
func (l *law) answers(c *column, flow, held float64) {
	n := len(c.sides)
	answers, dry := c.answers[:n], c.dry[:n]
	perFlow := 1 / flow
	for i := range c.sides {
		g, a := &c.sides[i], &answers[i]
		satPerK := g.slope / g.satPa // of the vapour at rest with the grain, about
		byVapour, byHeat := 0.0, 0.0 // of the vapour that the layer gives, per kg/kg and per K
		if g.dew == 0 {
			byVapour, byHeat = l.drying(g, satPerK, dry[i]*perFlow)
		} else {
			atGrain := l.ratio(g.satPa)
			byVapour, byHeat = -g.ef, g.ef*risen(atGrain)*satPerK
		}
		vapourJ := air.VapourAtZeroJ + air.VapourJKgK*g.tempC
		cp := air.DryAirJKgK + air.VapourJKgK*g.onW
		a.ww, a.wh, a.wT = 1+byVapour, 0, byHeat
		a.hw, a.hh, a.hT = (g.ef+byVapour)*vapourJ, 1-g.ef, g.ef*cp+byHeat*vapourJ
		if g.fog > 0 { // the air leaves saturated
			a.ww, a.wh, a.wT = g.fog*a.hw, g.fog*a.hh, g.fog*a.hT
		}
		a.perX = g.perX
		a.perJ = 1 / (dry[i]*g.jKgK + held*(a.hT-g.perX*a.wT))
	}
}

// risen is the rise of a humidity ratio for a relative rise of its pressure.
func risen(w float64) float64 { return w * (1 + w*(1/air.MassRatio)) }

// drying is how the vapour that a layer without dew gives follows the vapour on
// and the temperature: the inside and the film in series, each by the square of
// the share that it holds back.
func (l *law) drying(g *grainSide, satPerK, dryPerFlow float64) (perW, perK float64) {
	if g.both == 0 {
		return 0, 0
	}
	p, q := l.pressurePa*g.onW, (air.MassRatio+g.onW)*g.gabPa
	perD := 1 / ((q - p) * (q + g.gabB1*p))
	inner := g.rate * (g.x - g.gabAB*p*q*perD)
	all := 1 / (inner + g.outer)
	byFilm, byInside := inner*all, g.outer*all
	byFilm *= byFilm
	byInside *= byInside * dryPerFlow
	innerPerPa := g.rate * g.gabAB * q * (q*q + g.gabB1*p*p) * perD * perD
	paPerW := l.pressurePa * air.MassRatio / (air.MassRatio + g.onW)
	perW = -byFilm*g.ef - byInside*innerPerPa*paPerW
	perK = byFilm*g.ef*risen(g.surfaceW)*satPerK + byInside*(innerPerPa*p*satPerK+ratePerK*inner)
	return perW, perK
}

// sweep solves (1 - held A) k = b for the rates b of a column, from the floor to
// the top, where the air on changes as said; k takes the place of b. It returns
// the change of the air off. Whatever A is, water and heat of the layers change
// by what the air on and off them does.
func (c *column) sweep(on drift, held float64) (off drift) {
	n := len(c.answers)
	water, heat := c.waterRate[:n], c.heatRate[:n]
	w, h := on.w, on.hJKg
	for i := range c.answers {
		a := &c.answers[i]
		wOff, hOff := a.ww*w+a.wh*h, a.hw*w+a.hh*h // with the grain as it is
		gainsW, gainsH := water[i]-held*(wOff-w), heat[i]-held*(hOff-h)
		warmer := (gainsH - a.perX*gainsW) * a.perJ
		water[i] = gainsW - held*a.wT*warmer
		heat[i] = gainsH - held*a.hT*warmer
		w, h = wOff+a.wT*warmer, hOff+a.hT*warmer
	}
	return drift{w, h}
}
