package air

import (
	"math"

	"awn/unit"
)

// SaturationPressure is the pressure of water vapour in equilibrium with ice
// below the triple point and with liquid water above it, Pa.
//
//	ice:   ln p = C1/T + C2 + C3 T + C4 T² + C5 T³ + C6 T⁴ + C7 ln T
//	water: ln p = C8/T + C9 + C10 T + C11 T² + C12 T³ + C13 ln T     (T in K)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 5 and 6.
// Valid: -100 to 200 °C; NaN outside.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv and saturation.csv.
// Note: the branches meet at the triple point, 0.01 °C, not at 0 °C.
func SaturationPressure(t unit.Celsius) float64 { return math.Exp(lnSaturation(float64(t))) }

// SaturationSlope is the change of saturation pressure with temperature, Pa/K.
//
//	dp/dT = p · d(ln p)/dT
//
// Recalled: ASHRAE 2017, ch. 1, derivative of eq. 5 and 6.
// Valid: -100 to 200 °C; NaN outside.
// Check: central difference of SaturationPressure.
func SaturationSlope(t unit.Celsius) float64 {
	_, slope := Saturation(t)
	return slope
}

// SaturationTemp is the temperature at which a vapour pressure saturates: the
// dew point, or the frost point below 0.01 °C.
//
//	p(t) = vapour pressure, solved for t
//
// Recalled: ASHRAE 2017, ch. 1, inverse of eq. 5 and 6.
// Valid: vapour pressures of saturation from -100 to 200 °C; NaN outside.
// Check: psychrolib 1.1.1, in testdata/moist_air.csv.
func SaturationTemp(vapourPa float64) unit.Celsius {
	if !(vapourPa >= saturationAtMin && vapourPa <= saturationAtMax) {
		return unit.Celsius(math.NaN())
	}
	ln := math.Log(vapourPa)
	low, high := TripleC, MaxC
	a, b := magnusWaterA, magnusWaterB
	if vapourPa < saturationAtTriple {
		low, high = MinC, TripleC
		a, b = magnusIceA, magnusIceB
	}
	x := ln - lnMagnusAtZero
	t := min(max(b*x/(a-x), low), high)
	for range maxIterations {
		step := (ln - lnSaturation(t)) / lnSaturationSlope(t)
		t = min(max(t+step, low), high)
		if math.Abs(step) < convergedK {
			break
		}
	}
	return unit.Celsius(t)
}

// The first guess for SaturationTemp, p = 611.2 exp(a t/(b+t)); only the
// number of steps to the answer depends on it. Recalled: WMO 2018.
const (
	lnMagnusAtZero = 6.415424 // ln 611.2
	magnusWaterA   = 17.62
	magnusWaterB   = 243.12
	magnusIceA     = 22.46
	magnusIceB     = 272.62
)

// Newton's method stops when a step is below convergedK; it needs three to six.
const (
	convergedK    = 1e-9
	maxIterations = 50
)

var (
	saturationAtMin    = SaturationPressure(MinC)
	saturationAtTriple = SaturationPressure(TripleC)
	saturationAtMax    = SaturationPressure(MaxC)
)

// Coefficients of ln p. Recalled: ASHRAE 2017, ch. 1, eq. 5 (ice) and 6 (water).
const (
	c1 = -5.6745359e3
	c2 = 6.3925247
	c3 = -9.677843e-3
	c4 = 6.2215701e-7
	c5 = 2.0747825e-9
	c6 = -9.484024e-13
	c7 = 4.1635019

	c8  = -5.8002206e3
	c9  = 1.3914993
	c10 = -4.8640239e-2
	c11 = 4.1764768e-5
	c12 = -1.4452093e-8
	c13 = 6.5459673
)

func lnSaturation(tempC float64) float64 {
	T := tempC + kelvinAtZero
	switch {
	case tempC >= TripleC && tempC <= MaxC:
		return c8/T + c9 + T*(c10+T*(c11+T*c12)) + c13*math.Log(T)
	case tempC >= MinC && tempC < TripleC:
		return c1/T + c2 + T*(c3+T*(c4+T*(c5+T*c6))) + c7*math.Log(T)
	}
	return math.NaN()
}

func lnSaturationSlope(tempC float64) float64 {
	T := tempC + kelvinAtZero
	if tempC >= TripleC {
		return (c13-c8/T)/T + c10 + T*(2*c11+T*3*c12)
	}
	return (c7-c1/T)/T + c3 + T*(2*c4+T*(3*c5+T*4*c6))
}
