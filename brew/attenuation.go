package brew

import (
	"math"

	"awn/malt"
)

// Balling's account of fermentation: 2.0665 g of extract become 1 g of ethanol,
// 0.9565 g of carbon dioxide and 0.11 g of yeast.
const (
	extractPerAlcohol = 2.0665
	gasPerAlcohol     = 0.9565
	yeastPerAlcohol   = 0.11
)

// RealExtract is the extract left in a beer, from the strength of its wort and
// the apparent extract that a hydrometer shows in the alcohol.
//
//	RE = 0.1808 OE + 0.8192 AE
//
// Source: Balling 1865.
// Valid: original extract 0 to 20 °P and not below the apparent; NaN outside.
// Check: 12.0 and 2.5 °P give 4.2176.
func RealExtract(original, apparent malt.Plato) malt.Plato {
	if !fermented(original, apparent) {
		return malt.Plato(math.NaN())
	}
	return 0.1808*original + 0.8192*apparent
}

// AlcoholByMass is the ethanol in a beer, kg/kg.
//
//	A = (OE - RE) / (2.0665 - 0.010665 OE)        (A in per cent)
//
// Recalled: Balling 1865.
// Valid: original extract 0 to 20 °P and not below the real; NaN outside.
// Check: 12.0 and 4.2176 °P give 4.0146 %.
func AlcoholByMass(original, realExtract malt.Plato) float64 {
	if !fermented(original, realExtract) {
		return math.NaN()
	}
	return float64(original-realExtract) / (extractPerAlcohol - 0.010665*float64(original)) / 100
}

// ethanolGravity is the density of ethanol over that of water, both at 20 °C.
const ethanolGravity = 0.79074

// AlcoholByVolume is the ethanol in a beer, L/L at 20 °C.
//
//	v = A S / 0.79074        (S the gravity of the beer)
//
// Recalled: Cutaia 2009.
// Check: 4.0146 % at 1.00976 give 5.127 %.
func AlcoholByVolume(byMass float64, beer malt.Gravity) float64 {
	return byMass * float64(beer) / ethanolGravity
}

// OriginalExtract is the strength of the wort that a beer was made of.
//
//	OE = 100 (2.0665 A + RE) / (100 + 1.0665 A)        (A in per cent)
//
// Recalled: Balling 1865.
// Valid: alcohol not negative; NaN below.
// Check: 4.0146 % and 4.2176 °P give 12.000.
func OriginalExtract(byMass float64, realExtract malt.Plato) malt.Plato {
	if !(byMass >= 0) {
		return malt.Plato(math.NaN())
	}
	a := 100 * byMass
	gone := gasPerAlcohol + yeastPerAlcohol // what left the beer, per g of ethanol
	return malt.Plato(100 * (extractPerAlcohol*a + float64(realExtract)) / (100 + gone*a))
}

// ApparentAttenuation is the share of the extract that a hydrometer finds gone.
//
//	AA = (OE - AE) / OE
//
// Definition.
// Valid: original extract above 0 up to 20 °P, not below the apparent; NaN outside.
// Check: 12.0 and 2.5 °P give 79.17 %.
func ApparentAttenuation(original, apparent malt.Plato) float64 {
	if !fermented(original, apparent) || original == 0 {
		return math.NaN()
	}
	return float64((original - apparent) / original)
}

// RealAttenuation is the share of the extract by mass that fermentation took,
// the real degree of fermentation.
//
//	RDF = (OE - RE) / (OE (1 - 0.005161 RE))
//
// Recalled: ASBC Beer-6.
// Valid: original extract above 0 up to 20 °P, not below the real; NaN outside.
// Check: 12.0 and 4.2176 °P give 66.30 %.
func RealAttenuation(original, realExtract malt.Plato) float64 {
	if !fermented(original, realExtract) || original == 0 {
		return math.NaN()
	}
	return float64((original - realExtract) / (original * (1 - 0.005161*realExtract)))
}

// ApparentExtract is what the hydrometer shows once the given share of the
// extract is apparently gone.
//
//	AE = OE (1 - AA)
//
// Definition.
func ApparentExtract(original malt.Plato, attenuation float64) malt.Plato {
	return original * malt.Plato(1-attenuation)
}

// mostOriginal is the strength up to which Balling's account is used here.
const mostOriginal = 20

// fermented reports whether a wort can have come down to that extract.
func fermented(original, left malt.Plato) bool {
	return original >= 0 && original <= mostOriginal && left <= original
}
