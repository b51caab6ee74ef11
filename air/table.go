package air

import "awn/unit"

// knot is the saturation of water at one of the temperatures that are tabled.
type knot struct{ pPa, slopePaK float64 }

// The knots stand from the triple point on.
const (
	knotsPerK = 4
	knotsEndK = 120
)

var knots = func() (t [knotsEndK*knotsPerK + 1]knot) {
	for i := range t {
		c := TripleC + float64(i)/knotsPerK
		p := SaturationPressure(unit.Celsius(c))
		t[i] = knot{p, p * lnSaturationSlope(c)}
	}
	return t
}()

// Saturation returns SaturationPressure and SaturationSlope together, for a
// tenth of their price: a bed of grain asks for them in every layer and step.
//
//	p, dp/dT
//
// Recalled: ASHRAE 2017, ch. 1, eq. 5 and 6.
// Valid: -100 to 200 °C; NaN outside.
// Check: within 1e-9 of SaturationPressure and 1e-7 of its derivative.
// Note: from 0.01 to 120 °C cubics that have the tabled pressure and slope at
// both ends.
func Saturation(t unit.Celsius) (pPa, slopePaK float64) {
	u := (float64(t) - TripleC) * knotsPerK
	if !(u >= 0 && u < knotsEndK*knotsPerK) {
		pPa = SaturationPressure(t)
		return pPa, pPa * lnSaturationSlope(float64(t))
	}
	i := int(u)
	x, a, b := u-float64(i), &knots[i], &knots[i+1]
	rise, from, to := b.pPa-a.pPa, a.slopePaK/knotsPerK, b.slopePaK/knotsPerK
	square, cube := 3*rise-2*from-to, from+to-2*rise
	return a.pPa + x*(from+x*(square+x*cube)), knotsPerK * (from + x*(2*square+x*3*cube))
}
