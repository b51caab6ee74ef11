package brew

import (
	"math"

	"awn/malt"
)

// litresPerHectolitre is the litres in a hectolitre.
const litresPerHectolitre = 100

// WortExtractKg is the extract in a volume of wort at 20 °C.
//
//	X = V P rho        (V in L, P as a fraction, rho in kg/L)
//
// Definition.
// Valid: 0 to 20 °P; NaN outside.
// Check: 100 hL at 12 °P hold 1255.8 kg.
func WortExtractKg(wort malt.Plato, hectolitres float64) float64 {
	return hectolitres * litresPerHectolitre * wort.ExtractGLitre() / 1000
}

// MaltKg is the malt that gives an amount of extract in the brewhouse.
//
//	m = X / (E y)        (E the extract as-is, y the brewhouse yield)
//
// Definition.
// Valid: extract and yield above 0; NaN otherwise.
// Check: 1255.9 kg at 76.18 % and 95 % take 1735 kg.
func MaltKg(extractKg float64, extract malt.ExtractAsIs, houseYield float64) float64 {
	if !(extract > 0 && houseYield > 0) {
		return math.NaN()
	}
	return extractKg / (float64(extract) * houseYield)
}

// WortHLTonne is the wort of a strength that a tonne of malt gives, hL at 20 °C.
//
//	V = 1000 E y / X1        (X1 the extract in a hectolitre of that wort, kg)
//
// Definition.
// Valid: above 0 to 20 °P; NaN outside.
func WortHLTonne(extract malt.ExtractAsIs, wort malt.Plato, houseYield float64) float64 {
	if !(wort > 0) {
		return math.NaN()
	}
	return 1000 * float64(extract) * houseYield / WortExtractKg(wort, 1)
}

// spiritPerPoint is the pure alcohol in litres per tonne of malt that each per
// cent of fermentable extract gives.
const spiritPerPoint = 6.06

// FermentableExtract is the part of the extract that yeast can take, on the
// basis of the extract.
//
//	FE = E f
//
// Recalled: IoB undated, 2.16.
// Check: 78.5 % of which 87 % give 68.295 %.
func FermentableExtract(extract malt.ExtractAsIs, fermentability float64) malt.ExtractAsIs {
	return extract * malt.ExtractAsIs(fermentability)
}

// SpiritLTonne is the spirit yield: litres of pure alcohol at 20 °C per tonne
// of malt as it stands.
//
//	PSY = 6.06 FE        (FE as-is in per cent)
//
// Source: Bringhurst 1996.
// Check: 68.295 % give 413.9 L/t; the market speaks of about 410.
// Note: 6.11 for a mash of 450 g; the extract of a Congress mash stands in for that of the publication's own.
func SpiritLTonne(fermentable malt.ExtractAsIs) float64 {
	return spiritPerPoint * 100 * float64(fermentable)
}
