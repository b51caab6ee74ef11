package barley

import (
	"math"

	"awn/air"
	"awn/unit"
)

// sorbed is ∫0^X 0.5904 exp(-13.67 X') dX': the sorption heat of all the water
// in the grain, as kg of water evaporated.
func sorbed(x unit.DryBasis) float64 {
	if !(x >= 0) {
		return math.NaN()
	}
	return SorptionShare / SorptionDecay * (1 - math.Exp(-SorptionDecay*float64(x)))
}

// GrainEnthalpy is the heat content of grain with its water, J per kg dry
// matter, above dry grain and free liquid water at 0 °C.
//
//	H = 1300 t + 4186 X t - L(t) (0.5904/13.67)(1 - exp(-13.67 X))
//
// the last term being the integral of ΔLs from 0 to X.
//
// Recalled: López 1997 for the sorption heat, O'Callaghan 1971 for the heat
// capacity; the integral makes heat a function of state.
// Valid: moisture of 0 or more; NaN outside.
// Check: a closed loop of drying, heating, wetting and cooling returns 0, in the tests.
// Note: water stays liquid below 0 °C, as most of it does in grain.
func GrainEnthalpy(t unit.Celsius, x unit.DryBasis) float64 {
	return HeatCapacity(x)*float64(t) - air.LatentHeat(t)*sorbed(x)
}

// TempFromEnthalpy is the temperature of grain of known heat content.
//
//	t = (H + 2.501e6 s)/(1300 + 4186 X + 2326 s), s = (0.5904/13.67)(1 - exp(-13.67 X))
//
// Recalled: López 1997, by way of GrainEnthalpy, which is linear in t.
// Valid: moisture of 0 or more; NaN outside.
// Check: inverse of GrainEnthalpy.
func TempFromEnthalpy(hJKg float64, x unit.DryBasis) unit.Celsius {
	t, _ := TempAndSlope(hJKg, x)
	return t
}

// TempAndSlope returns TempFromEnthalpy and EnthalpySlope together, for the
// price of the first.
//
//	t, dH/dt
//
// Recalled: López 1997, by way of GrainEnthalpy.
// Valid: moisture of 0 or more; NaN outside.
func TempAndSlope(hJKg float64, x unit.DryBasis) (t unit.Celsius, jKgK float64) {
	s := sorbed(x)
	jKgK = slope(x, s)
	return unit.Celsius((hJKg + air.VapourAtZeroJ*s) / jKgK), jKgK
}

// EnthalpySlope is the change of GrainEnthalpy with temperature at constant
// moisture, J per kg dry matter and K.
//
//	dH/dt = 1300 + 4186 X + 2326 (0.5904/13.67)(1 - exp(-13.67 X))
//
// Recalled: López 1997, by way of GrainEnthalpy.
// Valid: moisture of 0 or more; NaN outside.
// Check: difference of GrainEnthalpy.
func EnthalpySlope(x unit.DryBasis) float64 { return slope(x, sorbed(x)) }

func slope(x unit.DryBasis, sorbed float64) float64 {
	return HeatCapacity(x) + (air.WaterJKgK-air.VapourJKgK)*sorbed
}

// WaterEnthalpy is the heat content that a kg of water adds to grain which
// takes it up at constant temperature, J per kg of water.
//
//	dH/dX = 4186 t - ΔLs(t, X)
//
// Recalled: López 1997, by way of GrainEnthalpy.
// Valid: moisture of 0 or more; NaN outside.
// Check: difference of GrainEnthalpy.
func WaterEnthalpy(t unit.Celsius, x unit.DryBasis) float64 {
	return air.WaterJKgK*float64(t) - SorptionHeat(t, x)
}
