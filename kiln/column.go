package kiln

import (
	"awn/air"
	"awn/barley"
)

// column is one spot of the bed. Its slices hold one value per layer, layer 0
// at the floor, and per m² of the column's own floor; all are parts of the
// run's one store.
type column struct {
	areaM2, layerM float64
	sides          []grainSide
	answers        []answer
	share          float64 // of the floor

	dry, perDry []float64 // kg/m² of dry matter and its inverse
	water, heat []float64 // kg/m² and J/m²: the state
	tempC       []float64 // follows from it
	peakC       []float64 // hottest so far

	waterRate, heatRate []float64 // of the stage at hand
	waterTurn, heatTurn []float64 // what the step's first stage made of them
	growWater, growHeat []float64 // what life adds, per s

	cure []float64 // cureItems per layer: losses summed, colour made

	dryKg, thermalTime, ageD []float64 // per layer and class, kg of the whole column
}

// grainC is the temperature of grain of a heat content per kg dry matter, as
// barley.TempFromEnthalpy, and its heat capacity.
func grainC(hJKg, moistureDB float64) (tempC, jKgK float64) {
	s := sorption(moistureDB)
	jKgK = heatCapacity(moistureDB, s)
	return (hJKg + air.VapourAtZeroJ*s) / jKgK, jKgK
}

// heatCapacity is that of barley.EnthalpySlope, of water sorbed as s.
func heatCapacity(moistureDB, s float64) float64 {
	return barley.DryJKgK + air.WaterJKgK*moistureDB + (air.WaterJKgK-air.VapourJKgK)*s
}

// grainSlopes is grainC with the heat of grain for its moisture at one
// temperature, J/kg.
func grainSlopes(hJKg, moistureDB float64) (tempC, jKgK, perX float64) {
	s := sorption(moistureDB)
	jKgK = heatCapacity(moistureDB, s)
	tempC = (hJKg + air.VapourAtZeroJ*s) / jKgK
	bound := barley.SorptionShare - barley.SorptionDecay*s // slope of s
	return tempC, jKgK, air.WaterJKgK*tempC + bound*((air.WaterJKgK-air.VapourJKgK)*tempC-air.VapourAtZeroJ)
}
