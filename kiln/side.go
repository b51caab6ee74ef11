package kiln

import "math"

// grainSide is what a layer of grain brings to its exchange with air.
type grainSide struct {
	x, tempC  float64 // moisture, kg per kg dry matter, and temperature
	satPa     float64 // saturation at that temperature
	slope     float64 // its rise, Pa/K
	surfacePa float64 // vapour pressure of the grain itself
	surfaceW  float64 // the same as a humidity ratio
	rate      float64 // of the inside, 1/s
	gabPa     float64 // of the isotherm, as in row
	gabC      float64
	gabAB     float64
	gabB1     float64
}

// look works out the grain's side of all layers of a column, read where the
// sub-steps of subS so far have brought them. The vapour pressure is that of
// barley.GAB.Humidity. No layer waits for another here, which is why this is
// not part of the march.
func (l *law) look(c *column, subS float64) {
	n := len(c.water)
	perDry, water, heat, sides := c.perDry[:n], c.water[:n], c.heat[:n], c.sides[:n]
	waterRate, heatRate := c.waterRate[:n], c.heatRate[:n]
	for i := range n {
		per := perDry[i]
		x := (water[i] + subS*waterRate[i]) * per
		tempC := grainC((heat[i]+subS*heatRate[i])*per, x)
		g := &sides[i]
		a, b, f := between(tempC)
		satPa := a.satPa + f*(b.satPa-a.satPa)
		gabPa := a.gabPa + f*(b.gabPa-a.gabPa)
		gabAB := l.equilibrium * (a.gabAB + f*(b.gabAB-a.gabAB))
		gabB1 := a.gabB1 + f*(b.gabB1-a.gabB1)
		q := gabAB + (1-gabB1)*x
		root := math.Sqrt(q*q + 4*gabB1*x*x)
		pa := 0.0
		if q < 0 {
			pa = (root - q) / (2 * gabB1 * x) * gabPa
		} else { // the same root, free of cancellation in dry malt
			pa = 2 * x / (q + root) * gabPa
		}
		if pa > satPa {
			pa = satPa
		}
		slower := (wetness(x) - 1) * (a.lnRatio + f*(b.lnRatio-a.lnRatio))
		rate := l.rate * (a.wetRate + f*(b.wetRate-a.wetRate)) * decay(slower)
		if x < rateKneeDB {
			rate *= x / rateKneeDB
		}
		g.x, g.tempC, g.satPa, g.slope = x, tempC, satPa, (b.satPa-a.satPa)*perC
		g.surfacePa, g.surfaceW, g.rate = pa, l.ratio(pa), rate
		g.gabPa, g.gabC, g.gabAB, g.gabB1 = gabPa, a.gabC, gabAB, gabB1
	}
}
