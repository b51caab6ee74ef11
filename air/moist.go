package air

import (
	"math"

	"awn/unit"
)

// HumidityRatio is the vapour that air of a given relative humidity carries,
// kg per kg dry air.
//
//	W = 0.621945 e/(p - e), e = RH · ps(t), at most 0.98 p
//
// Recalled: ASHRAE 2017, ch. 1, eq. 20 and 22.
// Valid: -100 to 200 °C, RH of 0 or more; NaN outside.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
// Note: a humidity above 1 gives supersaturated air; see State.Settled.
func HumidityRatio(t unit.Celsius, rh unit.RelativeHumidity, pPa float64) unit.HumidityRatio {
	if rh < 0 {
		return unit.HumidityRatio(math.NaN())
	}
	return ratioOfPressure(float64(rh)*SaturationPressure(t), pPa)
}

// SaturationRatio is the most vapour that air can carry, kg per kg dry air.
//
//	Ws = 0.621945 ps/(p - ps), ps at most 0.98 p
//
// Recalled: ASHRAE 2017, ch. 1, eq. 21.
// Valid: -100 to 200 °C; NaN outside.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv (rows of RH 1).
func SaturationRatio(t unit.Celsius, pPa float64) unit.HumidityRatio {
	return ratioOfPressure(SaturationPressure(t), pPa)
}

// SaturationRatioSlope is the change of SaturationRatio with temperature, 1/K.
//
//	dWs/dt = 0.621945 p/(p - ps)² dps/dt, 0 at the cap
//
// Recalled: ASHRAE 2017, ch. 1, derivative of eq. 21.
// Valid: -100 to 200 °C; NaN outside.
// Check: central difference of SaturationRatio.
func SaturationRatioSlope(t unit.Celsius, pPa float64) float64 {
	_, slope := saturatedRatio(float64(t), pPa)
	return slope
}

// VapourPressure is the partial pressure of the vapour in air, Pa.
//
//	e = p W/(0.621945 + W)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 20 solved for e.
// Valid: W of 0 or more; NaN outside.
// Check: inverse of HumidityRatio.
func VapourPressure(w unit.HumidityRatio, pPa float64) float64 {
	if w < 0 {
		return math.NaN()
	}
	return pPa * float64(w) / (MassRatio + float64(w))
}

// RelativeHumidity is the vapour pressure of air over that of saturation.
//
//	RH = e/ps(t)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 12.
// Valid: -100 to 200 °C, W of 0 or more; NaN outside.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
// Note: above 1 the air is supersaturated and will fog.
func RelativeHumidity(t unit.Celsius, w unit.HumidityRatio, pPa float64) unit.RelativeHumidity {
	return unit.RelativeHumidity(VapourPressure(w, pPa) / SaturationPressure(t))
}

// Enthalpy is the heat content of moist air above dry air and liquid water at
// 0 °C, J per kg dry air.
//
//	h = 1006 t + W (2.501e6 + 1860 t)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 30.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
func Enthalpy(t unit.Celsius, w unit.HumidityRatio) float64 {
	return DryAirJKgK*float64(t) + float64(w)*VapourEnthalpy(t)
}

// TempFromEnthalpy is the temperature of air of known heat content and
// humidity ratio.
//
//	t = (h - 2.501e6 W)/(1006 + 1860 W)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 30 solved for t.
// Check: inverse of Enthalpy.
func TempFromEnthalpy(hJKg float64, w unit.HumidityRatio) unit.Celsius {
	return unit.Celsius((hJKg - VapourAtZeroJ*float64(w)) / HeatCapacity(w))
}

// HeatCapacity is the heat capacity of moist air, J per kg dry air and K.
//
//	c = 1006 + 1860 W
//
// Recalled: ASHRAE 2017, ch. 1, derivative of eq. 30.
func HeatCapacity(w unit.HumidityRatio) float64 { return DryAirJKgK + VapourJKgK*float64(w) }

// VapourEnthalpy is the heat content of water vapour above liquid water at
// 0 °C, J/kg.
//
//	hv = 2.501e6 + 1860 t
//
// Recalled: ASHRAE 2017, ch. 1, eq. 30.
func VapourEnthalpy(t unit.Celsius) float64 { return VapourAtZeroJ + VapourJKgK*float64(t) }

// LatentHeat is the heat that evaporates liquid water at its own temperature,
// J/kg.
//
//	L = hv - 4186 t = 2.501e6 - 2326 t
//
// Recalled: ASHRAE 2017, ch. 1, eq. 30 and 32, the enthalpies of vapour and liquid.
// Check: steam tables (recalled): 2441.7 kJ/kg at 25 °C, 2256.5 at 100 °C.
// Note: the heat that closes the balances of this package; 0.53 % above steam
// tables at 100 °C, within 0.2 % up to 60 °C.
func LatentHeat(t unit.Celsius) float64 { return VapourEnthalpy(t) - WaterJKgK*float64(t) }

// SpecificVolume is the volume of the moist air that holds one kg of dry air,
// m³.
//
//	v = 287.042 T (1 + 1.607858 W)/p      (T in K)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 26.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
func SpecificVolume(t unit.Celsius, w unit.HumidityRatio, pPa float64) float64 {
	return DryAirGasJKgK * float64(t.Kelvin()) * (1 + volumeRatio*float64(w)) / pPa
}

// Density is the mass of a cubic metre of moist air, vapour included, kg/m³.
//
//	ρ = (1 + W)/v
//
// Recalled: ASHRAE 2017, ch. 1, eq. 11.
// Check: dry air at 0 °C and 101 325 Pa, 1.293 kg/m³ (recalled, any table).
func Density(t unit.Celsius, w unit.HumidityRatio, pPa float64) float64 {
	return (1 + float64(w)) / SpecificVolume(t, w, pPa)
}

// DewPoint is the temperature at which air begins to shed water (frost point
// below 0.01 °C).
//
//	ps(td) = e, solved for td
//
// Recalled: ASHRAE 2017, ch. 1, inverse of eq. 5 and 6.
// Valid: dew points from -100 to 200 °C; NaN outside, so also for dry air.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
func DewPoint(w unit.HumidityRatio, pPa float64) unit.Celsius {
	return SaturationTemp(VapourPressure(w, pPa))
}

// StandardPressure is the pressure of the standard atmosphere at a height
// above sea level, Pa.
//
//	p = 101325 (1 - 2.25577e-5 z)^5.2559
//
// Recalled: ASHRAE 2017, ch. 1, eq. 3; the atmosphere of ISO 2533:1975.
// Valid: -5000 to 11000 m; NaN outside.
// Check: the standard's own table (recalled), in the tests.
func StandardPressure(altitudeM float64) float64 {
	if !(altitudeM >= -5000 && altitudeM <= 11000) {
		return math.NaN()
	}
	return StandardPa * math.Pow(1-lapsePerM*altitudeM, lapseExponent)
}

// The standard atmosphere. Recalled: ASHRAE 2017, ch. 1, eq. 3.
const (
	StandardPa    = 101325.0
	lapsePerM     = 2.25577e-5
	lapseExponent = 5.2559
)

func ratioOfPressure(vapourPa, pPa float64) unit.HumidityRatio {
	e := min(vapourPa, VapourShareCap*pPa)
	return unit.HumidityRatio(MassRatio * e / (pPa - e))
}

// saturatedRatio returns SaturationRatio and SaturationRatioSlope.
func saturatedRatio(tempC, pPa float64) (w, slopePerK float64) {
	ps, slope := Saturation(unit.Celsius(tempC))
	if ps >= VapourShareCap*pPa {
		return maxRatio, 0
	}
	dry := pPa - ps
	return MassRatio * ps / dry, MassRatio * pPa / (dry * dry) * slope
}
