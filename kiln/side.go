package kiln

import (
	"math"

	"awn/air"
)

// grainSide is what a layer of grain brings to its exchange with air.
type grainSide struct {
	x, tempC  float64 // moisture, kg per kg dry matter, and temperature
	jKgK      float64 // heat capacity per kg dry matter
	perX      float64 // heat for moisture at one temperature, J/kg
	satPa     float64 // saturation at that temperature
	slope     float64 // its rise, Pa/K
	surfacePa float64 // vapour pressure of the grain itself
	surfaceW  float64 // the same as a humidity ratio
	rate      float64 // of the inside, 1/s
	gabPa     float64 // of the isotherm, as in row
	gabAB     float64
	gabB1     float64

	// What the march found.
	onW   float64 // vapour of the air on
	ef    float64 // part of its heat, and vapour, that the air exchanges
	outer float64 // rate through the film alone, 1/s
	both  float64 // with the inside in series
	dew   float64 // vapour that condenses on the grain, kg per kg dry air, below 0
	fog   float64 // rise of the vapour off with its heat where fog has fallen; else 0
}

// look works out the grain's side of all layers of a column, read ahead s into
// the step, where its first stage has brought them. No layer waits for another here,
// which is why it is not part of the march; and each of its three rounds is
// short enough for the processor to work on several layers at once.
func (l *law) look(c *column, ahead float64) {
	c.state(ahead)
	l.properties(c.sides)
	l.surfaces(c.sides)
}

// state sets moisture and temperature, as barley.TempFromEnthalpy.
func (c *column) state(ahead float64) {
	n := len(c.sides)
	perDry, water, heat := c.perDry[:n], c.water[:n], c.heat[:n]
	waterTurn, heatTurn := c.waterTurn[:n], c.heatTurn[:n]
	for i := range c.sides {
		g, per := &c.sides[i], perDry[i]
		g.x = (water[i] + ahead*waterTurn[i]) * per
		g.tempC, g.jKgK, g.perX = grainSlopes((heat[i]+ahead*heatTurn[i])*per, g.x)
	}
}

// properties looks up what depends on temperature, and the inner rate, as
// InnerRate.
func (l *law) properties(sides []grainSide) {
	for i := range sides {
		g := &sides[i]
		a, b, f := between(g.tempC)
		g.satPa = a.satPa + f*(b.satPa-a.satPa)
		g.slope = (b.satPa - a.satPa) * perC
		g.gabPa = a.gabPa + f*(b.gabPa-a.gabPa)
		g.gabAB = l.equilibrium * (a.gabAB + f*(b.gabAB-a.gabAB))
		g.gabB1 = a.gabB1 + f*(b.gabB1-a.gabB1)
		switch s := wetness(g.x); s {
		case 1:
			g.rate = l.rate * (a.wetRate + f*(b.wetRate-a.wetRate))
		case 0:
			g.rate = l.rate * (a.dryRate + f*(b.dryRate-a.dryRate)) * min(1, g.x*(1/rateKneeDB))
		default:
			g.rate = l.rate * (a.wetRate + f*(b.wetRate-a.wetRate)) * min(1, g.x*(1/rateKneeDB)) *
				decay((s-1)*(a.lnRatio+f*(b.lnRatio-a.lnRatio)))
		}
	}
}

// surfaces sets the vapour pressure of the grain, as barley.GAB.Humidity.
func (l *law) surfaces(sides []grainSide) {
	for i := range sides {
		g := &sides[i]
		q := g.gabAB + (1-g.gabB1)*g.x
		root := math.Sqrt(q*q + 4*g.gabB1*g.x*g.x)
		over, under := root-q, 2*g.gabB1*g.x
		if q > 0 { // the same root, free of cancellation in dry malt
			over, under = 2*g.x, root+q
		}
		pa := over * g.gabPa / under
		if pa > g.satPa {
			pa = g.satPa
		}
		g.surfacePa = pa
		if pa > l.mostPa {
			pa = l.mostPa
		}
		g.surfaceW = air.MassRatio * pa / (l.pressurePa - pa)
	}
}
