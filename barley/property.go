package barley

import (
	"math"

	"awn/air"
	"awn/unit"
)

// Heat of the grain, per kg of dry matter.
const (
	// DryJKgK is the heat capacity of dry matter. Recalled: O'Callaghan 1971.
	// López 1997 seems to print 1651; on a kiln that is 0.6 % of the heat.
	DryJKgK = 1300.0

	// The heat that binds water to the grain over that of evaporation.
	// Recalled: López 1997, after Bala and Woods.
	SorptionShare = 0.5904 // of the latent heat, in dry grain
	SorptionDecay = 13.67  // per kg of water per kg of dry matter
)

// HeatCapacity is that of grain and its water, J per kg dry matter and K, as a
// mixture of both.
//
//	c = 1300 + 4186 X
//
// Recalled: O'Callaghan 1971.
// Valid: moisture of 0 or more; NaN outside.
// Note: for balances use EnthalpySlope, which carries the heat of sorption along.
func HeatCapacity(x unit.DryBasis) float64 {
	if !(x >= 0) {
		return math.NaN()
	}
	return DryJKgK + air.WaterJKgK*float64(x)
}

// SorptionHeat is the heat that evaporating water from grain takes above that
// of free water, J/kg.
//
//	ΔLs = L(t) · 0.5904 exp(-13.67 X)
//
// Recalled: López 1997, after Bala and Woods.
// Valid: moisture of 0 or more; NaN outside.
// Check: factors on the latent heat at 5, 10, 20 and 40 % dry basis, in the tests.
// Note: it does not follow from the malt isotherm. At 60 °C and 0.10 this is
// 355 kJ/kg, the slope of the isotherm with temperature gives 173: about 1 % of
// the heat of a kiln.
func SorptionHeat(t unit.Celsius, x unit.DryBasis) float64 {
	if !(x >= 0) {
		return math.NaN()
	}
	return air.LatentHeat(t) * SorptionShare * math.Exp(-SorptionDecay*float64(x))
}

// EvaporationHeat is the heat that evaporates water from grain at its own
// temperature, J/kg.
//
//	L + ΔLs
//
// Recalled: López 1997, after Bala and Woods.
// Valid: moisture of 0 or more; NaN outside.
// Check: from the enthalpies of grain and vapour, in the tests.
func EvaporationHeat(t unit.Celsius, x unit.DryBasis) float64 {
	return air.LatentHeat(t) + SorptionHeat(t, x)
}
