package germinate

import (
	"math"

	"awn/air"
	"awn/barley"
	"awn/kernel"
	"awn/unit"
)

// stream is the air on its way through the bed, per kg of dry air.
type stream struct{ w, heatJ, oxygen, dioxide float64 }

// Air outside the bed. Definition: the composition of dry air by volume
// (oxygen 0.2095, carbon dioxide 0.0004) and the molar masses.
const (
	freshAirOxygen  = 0.2095
	freshAirDioxide = 0.0004
	airMol          = 28.965
	oxygenMol       = 31.998
	dioxideMol      = 44.009
	freshOxygen     = freshAirOxygen * oxygenMol / airMol
	freshDioxide    = freshAirDioxide * dioxideMol / airMol
)

// airKgM3 is dry air in a m³ of the air of a malthouse. Assumed: 15 °C,
// saturated, sea level; it only sets how much gas the voids and the room hold.
const airKgM3 = 1.20

// layer lets one layer live for dtS and takes k kg of dry air through it. The
// air leaves at rest with the grain. All is taken at the end of the step
// (backward Euler), so no step is too long to be stable.
func (r *Run) layer(i int, in stream, k, dtS float64) stream {
	c := &r.cells[i]
	burn := r.live(i, in, k, dtS)
	c.dryKg -= burn.DryKg

	t, w := r.meet(c, in, k, dtS, burn)
	out := stream{w, air.Enthalpy(unit.Celsius(t), unit.HumidityRatio(w)), c.oxygen, c.dioxide}
	wallJ := r.wallWK() * dtS * (t - float64(r.now.outside.TempC))
	c.waterKg += burn.WaterKg + k*(in.w-out.w)
	c.heatJ += burn.HeatJ + k*(in.heatJ-out.heatJ) - wallJ
	c.settle()
	c.dead = c.dead || c.tempC >= kernel.KillC

	s := &r.now.sums
	s.burned.Add(burn)
	s.airWaterKg += k * (in.w - out.w)
	s.airHeatJ += k * (in.heatJ - out.heatJ)
	s.wallJ += wallJ
	return out
}

// settle finds the temperature of a layer from its dry matter, water and heat.
func (c *cell) settle() {
	t, slope := barley.TempAndSlope(c.heatJ/c.dryKg, unit.DryBasis(c.waterKg/c.dryKg))
	c.tempC, c.slopeJKgK = float64(t), slope
}

// live runs the corns of a layer and the gas around them. What they take of
// oxygen depends on how much is left, and that on what they take; with the
// pace of kernel.OxygenFactor both follow from a quadratic, and the oxygen can
// come near to nothing but not below.
func (r *Run) live(i int, in stream, k, dtS float64) kernel.Burn {
	c := &r.cells[i]
	dtH := dtS / 3600
	holds := c.voidKg + k
	oxygen := c.voidKg*c.oxygen + k*in.oxygen
	var burn kernel.Burn
	if !c.dead {
		supply := r.supply(holds, oxygen, c.asksKgH*dtH)
		if math.Abs(c.tempC-c.warmthC) > sameK {
			c.warmth, c.warmthC = r.clock.Warmth(c.tempC), c.tempC
		}
		burn = r.clock.StepAt(dtH*c.vigour*r.cast(), c.warmth, c.waterKg/(c.dryKg+c.waterKg), supply,
			r.grain.Of(r.grain.DryKg, i), r.grain.Of(r.grain.ThermalTimeCH, i), r.grain.Of(r.grain.AgeD, i))
		if supply > 0 {
			c.asksKgH = burn.OxygenKg / supply / dtH
		}
		r.suffocate(c, supply, dtH)
	}
	hadO2, hadCO2 := c.oxygen, c.dioxide
	c.oxygen = (oxygen - burn.OxygenKg) / holds
	c.dioxide = (c.voidKg*c.dioxide + k*in.dioxide + burn.CO2Kg) / holds
	s := &r.now.sums
	s.voidOxygenKg += c.voidKg * (c.oxygen - hadO2)
	s.voidDioxideKg += c.voidKg * (c.dioxide - hadCO2)
	return burn
}

// sameK is how far a layer may drift before what warmth does to life is worked
// out anew: a hundredth of a kelvin is 0.04 % of the pace of growth.
const sameK = 0.01

// supply is what oxygen leaves of growth: the pace of kernel.OxygenFactor at
// the oxygen c that is left at the end of the step,
//
//	holds c = oxygen - asks w(c), w = g c/(c + K)
func (r *Run) supply(holds, oxygen, asksKg float64) float64 {
	half := r.setup.Kernel.OxygenHalf * oxygenMol / airMol
	g := (freshOxygen + half) / freshOxygen
	b := holds*half + asksKg*g - oxygen
	root := math.Sqrt(b*b + 4*holds*oxygen*half)
	left := (root - b) / (2 * holds)
	if b > 0 {
		left = 2 * oxygen * half / (b + root) // the same, free of cancellation
	}
	return min(1, g*left/(left+half))
}

// meet finds the temperature of a layer at the end of the step and the vapour
// that air leaves it with, from its balance of heat:
//
//	dry H(t, X(t)) + k h(t, w(t)) + wall = heat before + burnt + brought by air
//
// The enthalpy of the grain and the pressure of saturation are carried on from
// the start of the step. What that leaves in the temperature (some 1e-5 K) is
// where the air is taken to leave, not heat: that is counted as it flows.
func (r *Run) meet(c *cell, in stream, k, dtS float64, burn kernel.Burn) (tempC, w float64) {
	wall := r.wallWK() * dtS
	slope := c.dryKg * c.slopeJKgK
	v := r.vapourOver(c, k, burn.WaterKg+k*in.w)
	arrives := burn.HeatJ + k*in.heatJ - wall*(c.tempC-float64(r.now.outside.TempC))
	warmer := 0.0
	for range mostNewton {
		var perK float64
		w, perK = v.at(warmer)
		t := unit.Celsius(c.tempC + warmer)
		gained := (burn.WaterKg + k*(in.w-w)) * (air.WaterJKgK*float64(t) - v.boundJKg)
		f := arrives - (wall+slope)*warmer - k*air.Enthalpy(t, unit.HumidityRatio(w)) - gained
		step := f / (wall + slope + k*(air.HeatCapacity(unit.HumidityRatio(w))+perK*(air.LatentHeat(t)+v.boundJKg)))
		warmer += step
		w += perK * step
		if math.Abs(step) < enoughK {
			break
		}
	}
	return c.tempC + warmer, w
}

// Newton's method stops at steps below enoughK; its error is the square.
const (
	enoughK    = 1e-3
	mostNewton = 20
)

// vapourOver is the vapour of air at rest with a layer in the course of a step.
type vapourOver struct {
	pPa, pressurePa, lnSlope float64 // over the layer, of the air, 1/K
	perKg                    float64 // share that w changes by per kg of water in the layer
	comesKg, k               float64
	boundJKg                 float64 // heat that binds the layer's water
}

func (r *Run) vapourOver(c *cell, k, comesKg float64) vapourOver {
	t, db := unit.Celsius(c.tempC), c.waterKg/c.dryKg
	ps, slope := air.Saturation(t)
	v := vapourOver{pPa: ps, pressurePa: r.setup.PressurePa, lnSlope: slope / ps, comesKg: comesKg, k: k}
	if db < wetDB {
		rh, perDB := r.surface(c.tempC, db)
		v.pPa = rh * ps
		v.perKg = perDB / rh / c.dryKg
		v.boundJKg = barley.SorptionHeat(t, unit.DryBasis(db))
	}
	return v
}

// at is the humidity ratio some K above the start of the step, and its change
// with temperature. Grain that dries within the step holds its water faster, so
// that a dry layer cannot overshoot.
func (v *vapourOver) at(warmer float64) (w, perK float64) {
	e := min(v.pPa*power(v.lnSlope*warmer), air.VapourShareCap*v.pressurePa)
	dry := v.pressurePa - e
	w = air.MassRatio * e / dry
	perK = w * v.pressurePa / dry * v.lnSlope
	if v.perKg == 0 {
		return w, perK
	}
	s := w * v.perKg
	share := 1 / (1 + s*v.k)
	return max(0, (w+s*v.comesKg)*share), perK * share
}

// power is e^z for the small z of a step, by its Padé approximant: within 2e-5
// up to 0.4, where the slope that z holds has changed by more.
func power(z float64) float64 { return (12 + z*(6+z)) / (12 - z*(6-z)) }

// surface is the humidity of air at rest with grain that is drier than wetDB,
// and its change with moisture. Below the isotherm's range its form is kept on with, since it leaves dry grain
// no water to lose.
func (r *Run) surface(tempC, db float64) (rh, perDB float64) {
	i := &r.setup.Isotherm
	lnRH := -i.A / (min(max(tempC, isothermLowC), isothermHighC) + i.C) * math.Exp(-100*i.B*db)
	rh = math.Exp(lnRH)
	return rh, -100 * i.B * rh * lnRH
}

// wetDB is the moisture (dry basis) from which corns have a wet surface, beyond
// the range of the isotherm: 35 % wet basis. The isotherm is read at the nearest temperature for which it
// answers.
const (
	wetDB         = 0.54
	isothermLowC  = -20.0
	isothermHighC = 65.0
)
