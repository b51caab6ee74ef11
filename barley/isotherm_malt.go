package barley

import (
	"math"

	"awn/unit"
)

// GAB is the isotherm of Guggenheim, Anderson and de Boer, whose three
// coefficients are each f·exp(e/T), T in K.
type GAB struct {
	AF, AE     float64 // the water of one layer of molecules, kg per kg dry matter
	BF, BE     float64
	CF, CE     float64
	Multiplier float64 // of the moisture
}

// MaltIsotherm is the isotherm of malt. Recalled: López 1997; the constants
// were read in a later text that prints them, not in the paper.
func MaltIsotherm(c Constants) GAB {
	return GAB{AF: 0.01183, AE: 469.017, BF: 1, BE: 943.854, CF: 1, CE: -28.639, Multiplier: c.MaltEMC}
}

// The range over which the malt isotherm is answered. Assumed: the range it was
// fitted over was not seen; this is what a malthouse in frost and a curing kiln
// need.
const (
	gabMinC = -40
	gabMaxC = 130
)

// Moisture is what malt settles at in air of a given humidity, kg per kg dry
// matter.
//
//	X = m A B x/((1 - x)(1 + (B - 1) x)), x = C a
//	A = 0.01183 exp(469.017/T), B = exp(943.854/T), C = exp(-28.639/T)      (T in K)
//
// Recalled: López 1997, GAB for malt.
// Valid: -40 to 130 °C, humidity 0 to 1; NaN outside. The fitted range is not known.
// Check: values computed by hand from the constants, in testdata/isotherm.csv.
// Note: uncertain by 10 % of the moisture, 0.5 points at the end of curing.
func (g GAB) Moisture(t unit.Celsius, rh unit.RelativeHumidity) unit.DryBasis {
	return g.At(t).Moisture(rh)
}

// Humidity is that of the air which malt of a given moisture settles at.
//
//	(B - 1) x² + (r - B + 2) x - 1 = 0, r = m A B/X, a = x/C at most 1
//
// Recalled: López 1997, GAB for malt solved for a.
// Valid: -40 to 130 °C, moisture of 0 or more; NaN outside.
// Check: inverse of Moisture.
func (g GAB) Humidity(t unit.Celsius, x unit.DryBasis) unit.RelativeHumidity {
	return g.At(t).Humidity(x)
}

// GABAt is a GAB isotherm at one temperature: its exponentials are taken once
// for many moistures.
type GABAt struct{ ab, b1, c float64 } // m A B, B - 1, C

// At fixes the temperature. Outside the range all that follows is NaN.
func (g GAB) At(t unit.Celsius) GABAt {
	if !(t >= gabMinC && t <= gabMaxC) {
		return GABAt{math.NaN(), math.NaN(), math.NaN()}
	}
	T := float64(t.Kelvin())
	b := g.BF * math.Exp(g.BE/T)
	return GABAt{
		ab: g.Multiplier * g.AF * math.Exp(g.AE/T) * b,
		b1: b - 1,
		c:  g.CF * math.Exp(g.CE/T),
	}
}

// Moisture is GAB.Moisture at the fixed temperature.
//
//	X = m A B x/((1 - x)(1 + (B - 1) x)), x = C a
//
// Recalled: López 1997, GAB for malt.
// Valid: humidity 0 to 1; NaN outside.
func (g GABAt) Moisture(rh unit.RelativeHumidity) unit.DryBasis {
	if !(rh >= 0 && rh <= 1) {
		return unit.DryBasis(math.NaN())
	}
	x := g.c * float64(rh)
	return unit.DryBasis(g.ab * x / ((1 - x) * (1 + g.b1*x)))
}

// Humidity is GAB.Humidity at the fixed temperature.
//
//	x = ((B - 2 - r) + √((B - 2 - r)² + 4 (B - 1)))/(2 (B - 1)), a = x/C at most 1
//
// Recalled: López 1997, GAB for malt solved for a.
// Valid: moisture of 0 or more; NaN outside.
func (g GABAt) Humidity(x unit.DryBasis) unit.RelativeHumidity {
	if !(x >= 0) {
		return unit.RelativeHumidity(math.NaN())
	}
	if x == 0 {
		return unit.RelativeHumidity(0 * g.c) // NaN outside the range
	}
	p := g.ab/float64(x) - g.b1 + 1
	root := math.Sqrt(p*p + 4*g.b1)
	a := 2 / (p + root) // the same root as above, free of cancellation in dry malt
	if p < 0 {
		a = (root - p) / (2 * g.b1)
	}
	return unit.RelativeHumidity(min(a/g.c, 1))
}

// Coefficients returns the three numbers that the isotherm rests on at the
// fixed temperature, for loops that keep them in a table.
//
//	m A B, B - 1, C
//
// Recalled: López 1997, GAB for malt.
// Valid: -40 to 130 °C; NaN outside.
func (g GABAt) Coefficients() (ab, b1, c float64) { return g.ab, g.b1, g.c }
