package malt

import "math"

// Plato is the strength of a wort as grams of sucrose in 100 g of a solution of
// equal density.
type Plato float64

// Gravity is the density of a wort over that of water, both at 20 °C.
type Gravity float64

// The range of the sugar table behind the polynomial below.
const (
	leastGravity Gravity = 1
	mostGravity  Gravity = 1.083
	mostPlato    Plato   = 20
)

// waterKgL20 is the density of water at 20 °C.
//
// Source: BrewingTechniques 2.1.
const waterKgL20 = 0.998203

// Plato is the strength of a wort of that gravity.
//
//	P = 135.997 S³ - 630.272 S² + 1111.14 S - 616.868
//
// Source: deLange undated: the fit to the table of the ASBC; rms 0.0006 °P, worst 0.0038 °P, at S = 1.
// Valid: S 1 to 1.083; NaN outside. Water reads 0, not the -0.003 of the polynomial.
// Check: rows 8.4 to 8.9 °P of a table of the USDA, in testdata/gravity.csv.
func (s Gravity) Plato() Plato {
	if !(s >= leastGravity && s <= mostGravity) {
		return Plato(math.NaN())
	}
	return max(0, platoAt(s))
}

func platoAt(s Gravity) Plato {
	return Plato(((135.997*s-630.272)*s+1111.14)*s - 616.868)
}

// Gravity is the gravity of a wort of that strength.
//
//	the root S of P(S), by Newton's method
//
// Source: deLange undated, inverted.
// Valid: 0 to 20 °P; NaN outside.
// Check: testdata/gravity.csv; round trips.
func (p Plato) Gravity() Gravity {
	if !(p >= 0 && p <= mostPlato) {
		return Gravity(math.NaN())
	}
	s := Gravity(1 + 0.004*float64(p)) // within 0.004; three steps reach rounding
	for range 4 {
		slope := (3*135.997*s-2*630.272)*s + 1111.14
		s -= Gravity(platoAt(s)-p) / slope
	}
	return s
}

// KgLitre is the density of a wort of that strength at 20 °C.
//
//	rho = 0.998203 S        (kg/L)
//
// Source: BrewingTechniques 2.1.
// Valid: 0 to 20 °P; NaN outside.
func (p Plato) KgLitre() float64 { return waterKgL20 * float64(p.Gravity()) }

// ExtractGLitre is the extract in a litre of wort at 20 °C.
//
//	e = 10 P rho        (g/L, rho in kg/L)
//
// Definition.
// Valid: 0 to 20 °P; NaN outside.
// Check: testdata/gravity.csv.
func (p Plato) ExtractGLitre() float64 { return 10 * float64(p) * p.KgLitre() }
