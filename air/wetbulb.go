package air

import (
	"math"

	"awn/unit"
)

// WetBulb is the thermodynamic wet-bulb temperature: what air comes to when it
// saturates, at constant pressure and without heat from outside, on water (or
// below 0 °C ice) of that same temperature. It is the plateau of a deep bed
// that still has wet grain at the top.
//
//	water: W (2501 + 1.86 T - 4.186 t) = Ws(t) (2501 - 2.326 t) - 1.006 (T - t)
//	ice:   W (2830 + 1.86 T - 2.1 t) = Ws(t) (2830 - 0.24 t) - 1.006 (T - t)
//
// solved for t.
//
// Recalled: ASHRAE 2017, ch. 1, eq. 33, 35 and 37.
// Valid: -100 to 200 °C, W of 0 or more; NaN outside.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
// Note: the two lines do not meet at 0 °C. Where each has a solution, that over
// water is returned. For supersaturated air it is the temperature after the
// excess has turned to fog.
func WetBulb(t unit.Celsius, w unit.HumidityRatio, pPa float64) unit.Celsius {
	T, W := float64(t), float64(w)
	if overWater.excess(0, saturation0(pPa), T, W) > 0 {
		return unit.Celsius(overIce.solve(T, W, pPa, MinC, 0))
	}
	return unit.Celsius(overWater.solve(T, W, pPa, 0, MaxC))
}

// AdiabaticSaturation is what air comes to when it saturates without heat from
// outside on water that is brought at a temperature of its own.
//
//	h(T, W) + 4186 tw (Ws(t) - W) = h(t, Ws(t)), solved for t
//
// Recalled: ASHRAE 2017, ch. 1, eq. 33 with the water's own temperature.
// Valid: -100 to 200 °C, W of 0 or more, water of 0 to 100 °C; NaN outside.
// Check: equals WetBulb when the water comes at the wet bulb.
// Note: below 0 °C the water is taken as liquid although saturation is over ice.
func AdiabaticSaturation(t unit.Celsius, w unit.HumidityRatio, pPa float64, water unit.Celsius) unit.Celsius {
	if !(water >= 0 && water <= 100) {
		return unit.Celsius(math.NaN())
	}
	supply := wetting{latentJ: VapourAtZeroJ - WaterJKgK*float64(water), fallJK: -VapourJKgK}
	return unit.Celsius(supply.solve(float64(t), float64(w), pPa, MinC, MaxC))
}

// wetting holds the constants of one line of the wet-bulb equation
//
//	W (latent + 1860 T - liquid t) = Ws(t) (latent - fall t) - 1006 (T - t)
type wetting struct{ latentJ, fallJK, liquidJK float64 }

var (
	overWater = wetting{VapourAtZeroJ, WaterJKgK - VapourJKgK, WaterJKgK}
	overIce   = wetting{iceVapourJ, iceVapourJK, iceJKgK}
)

// wettedAt is the line that holds for a wet bulb t.
func wettedAt(t float64) wetting {
	if t < 0 {
		return overIce
	}
	return overWater
}

// ratio is the humidity ratio of air of temperature T and wet bulb t.
func (b wetting) ratio(T, t, pPa float64) float64 {
	ws := float64(SaturationRatio(unit.Celsius(t), pPa))
	return (ws*(b.latentJ-b.fallJK*t) - DryAirJKgK*(T-t)) / (b.latentJ + VapourJKgK*T - b.liquidJK*t)
}

// dryEnd is the temperature of dry air of wet bulb t.
func (b wetting) dryEnd(t, pPa float64) float64 {
	ws := float64(SaturationRatio(unit.Celsius(t), pPa))
	return t + ws*(b.latentJ-b.fallJK*t)/DryAirJKgK
}

// excess is the enthalpy of saturated air of temperature t above that of the
// air with its water, J/kg. It rises with t and is convex.
func (b wetting) excess(t, ws, T, W float64) float64 {
	return DryAirJKgK*(t-T) + ws*(b.latentJ-b.fallJK*t) - W*(b.latentJ+VapourJKgK*T-b.liquidJK*t)
}

// solve finds the zero of excess between low and high by Newton's method, with
// bisection where a step would leave the bracket or vapour is at its cap. It
// returns NaN where there is none.
func (b wetting) solve(T, W, pPa, low, high float64) float64 {
	if !(T >= MinC && T <= MaxC && W >= 0 && W < maxRatio && pPa > 0) {
		return math.NaN()
	}
	t := min(max(T/2, low), high)
	for range maxIterations {
		ws, slope := saturatedRatio(t, pPa)
		f := b.excess(t, ws, T, W)
		if f > 0 {
			high = t
		} else {
			low = t
		}
		next := t - f/(DryAirJKgK+slope*(b.latentJ-b.fallJK*t)-ws*b.fallJK+W*b.liquidJK)
		if math.Abs(next-t) < convergedK {
			return next
		}
		if slope == 0 || next <= low || next >= high {
			next = (low + high) / 2
		}
		t = next
	}
	return t
}

// maxRatio is the humidity ratio at the cap.
const maxRatio = MassRatio * VapourShareCap / (1 - VapourShareCap)

// saturation0 is the saturation humidity ratio at 0 °C.
func saturation0(pPa float64) float64 { return MassRatio * saturationAt0 / (pPa - saturationAt0) }

var saturationAt0 = SaturationPressure(0)
