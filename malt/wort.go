package malt

import "math"

// MaltGLitre is the dry matter of malt behind a litre of laboratory wort.
//
//	m = 10 P rho / Ed        (g/L, rho in kg/L)
//
// Definition.
// Valid: 0 to 20 °P, extract above 0 up to 1; NaN outside.
func MaltGLitre(wort Plato, extract ExtractDry) float64 {
	if !(extract > 0 && extract <= 1) {
		return math.NaN()
	}
	return wort.ExtractGLitre() / float64(extract)
}

// OfMalt turns what a litre of wort holds into what the malt gave, per kg of
// dry matter.
//
//	s = c / (1000 m)        (c in mg/L, m in g/L of malt dry matter; s in kg/kg)
//
// Definition.
// Check: testdata/conversions.csv, NI1 and NI3.
func OfMalt(mgLitre, maltGLitre float64) float64 { return mgLitre / 1000 / maltGLitre }

// OfWort turns what malt gives per kg of dry matter into what a litre of wort
// holds, in mg/L: the inverse of OfMalt.
//
//	c = 1000 s m
//
// Definition.
func OfWort(kgPerKg, maltGLitre float64) float64 { return 1000 * kgPerKg * maltGLitre }

// Kolbach is the share of the protein that a mash dissolves: the Kolbach index
// and the S/T ratio are the same figure under two names, provided that the
// mash is the same.
//
//	KI = soluble / total        (both on one basis)
//
// Definition.
// Valid: total above 0; NaN otherwise.
// Check: testdata/conversions.csv, NI2.
func Kolbach(soluble, total float64) float64 {
	if !(total > 0) {
		return math.NaN()
	}
	return soluble / total
}
