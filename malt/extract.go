package malt

import (
	"math"

	"awn/unit"
)

// ExtractAsIs is what a mash dissolves per kg of malt as it stands, 0 to 1.
type ExtractAsIs float64

// ExtractDry is what a mash dissolves per kg of dry matter of malt, 0 to 1.
type ExtractDry float64

// LitreDegrees is extract in litres of wort of gravity 1.001 per kg, L°/kg, on
// the basis of the malt it was found on.
type LitreDegrees float64

// Points is extract in points of gravity per pound and US gallon (ppg), on the
// basis of the malt it was found on.
type Points float64

// Dry is the same extract per kg of dry matter.
//
//	Ed = E / (1 - w)
//
// Definition.
// Check: testdata/conversions.csv, EX2.
func (e ExtractAsIs) Dry(moisture unit.WetBasis) ExtractDry {
	return ExtractDry(float64(e) / drySolids(moisture))
}

// AsIs is the same extract per kg of malt as it stands.
//
//	E = Ed (1 - w)
//
// Definition.
func (e ExtractDry) AsIs(moisture unit.WetBasis) ExtractAsIs {
	return ExtractAsIs(float64(e) * drySolids(moisture))
}

// drySolids is the dry matter in a kg of malt; NaN for a moisture that cannot be.
func drySolids(moisture unit.WetBasis) float64 {
	if !(moisture >= 0 && moisture < 1) {
		return math.NaN()
	}
	return float64(1 - moisture)
}

// congressWater is the water of the Congress mash per 100 parts of malt: 50 g
// of malt made up to 450 g.
const congressWater = 800

// CongressExtract is the extract as-is of a malt whose Congress wort has that
// strength.
//
//	E = P (800 + M) / (100 - P)        (E, M in per cent)
//
// Recalled: EBC 4.5.1; follows from the masses of 50 g of malt and 400 g of water.
// Valid: 0 to 20 °P and moisture 0 to below 1; NaN outside.
// Check: testdata/conversions.csv, EX1.
func CongressExtract(wort Plato, moisture unit.WetBasis) ExtractAsIs {
	if !(wort >= 0 && wort <= mostPlato && moisture >= 0 && moisture < 1) {
		return ExtractAsIs(math.NaN())
	}
	p := float64(wort)
	return ExtractAsIs(p * (congressWater + 100*float64(moisture)) / (100 - p) / 100)
}

// CongressWort is the strength of the Congress wort of a malt: the inverse of
// CongressExtract.
//
//	P = 100 E / (800 + M + E)        (E as-is, M in per cent)
//
// Recalled: EBC 4.5.1; follows from the masses of 50 g of malt and 400 g of water.
// Valid: extract and moisture 0 to 1; NaN outside.
func CongressWort(extract ExtractAsIs, moisture unit.WetBasis) Plato {
	if !(extract >= 0 && extract <= 1 && moisture >= 0 && moisture < 1) {
		return Plato(math.NaN())
	}
	e := 100 * float64(extract)
	return Plato(100 * e / (congressWater + 100*float64(moisture) + e))
}

// Extract in other units: 1 kg of extract in a litre is 386.5 degrees, and
// 46.31 points in a US gallon per pound.
const (
	litreDegreesOfAll = 386.5
	pointsOfAll       = 46.31
)

// LitreDegrees is the same extract in L°/kg as-is: a change of unit, not of
// mash.
//
//	L = 386.5 E
//
// Source: BrewingTechniques 2.1.
func (e ExtractAsIs) LitreDegrees() LitreDegrees { return LitreDegrees(litreDegreesOfAll * e) }

// LitreDegrees is the same extract in L°/kg of dry matter: a change of unit,
// not of mash.
//
//	L = 386.5 E
//
// Source: BrewingTechniques 2.1.
// Check: testdata/conversions.csv, EX5.
func (e ExtractDry) LitreDegrees() LitreDegrees { return LitreDegrees(litreDegreesOfAll * e) }

// Points is the same extract in points per pound and US gallon as-is.
//
//	ppg = 46.31 E
//
// Source: BrewingTechniques 2.1.
func (e ExtractAsIs) Points() Points { return Points(pointsOfAll * e) }

// Points is the same extract in points per pound of dry matter and US gallon.
//
//	ppg = 46.31 E
//
// Source: BrewingTechniques 2.1.
// Check: testdata/conversions.csv, EX7.
func (e ExtractDry) Points() Points { return Points(pointsOfAll * e) }

// AsIs reads the figure as one found on malt as it stands.
//
//	E = L / 386.5
//
// Source: BrewingTechniques 2.1.
func (l LitreDegrees) AsIs() ExtractAsIs { return ExtractAsIs(l / litreDegreesOfAll) }

// Dry reads the figure as one found on dry matter.
//
//	E = L / 386.5
//
// Source: BrewingTechniques 2.1.
func (l LitreDegrees) Dry() ExtractDry { return ExtractDry(l / litreDegreesOfAll) }

// HotWaterExtract is the extract as-is by the infusion mash of 50 g of malt
// made up to 515 mL, from the gravity of its wort.
//
//	L = 10.13 · 1000 (S - 1)        (L°/kg)
//
// Recalled: IoB undated, hot water extract.
// Valid: S 1 to 1.083; NaN outside.
// Check: testdata/conversions.csv, EX4.
func HotWaterExtract(wort Gravity) LitreDegrees {
	if !(wort >= leastGravity && wort <= mostGravity) {
		return LitreDegrees(math.NaN())
	}
	return LitreDegrees(10.13 * 1000 * (wort - 1))
}

// FineOfHotWater estimates the fine Congress extract on dry matter from the
// hot water extract on dry matter: two mashes, tied by a regression of the
// trade.
//
//	E = 0.2586 L + 1.705        (E in per cent)
//
// Source: Crisp undated.
// Valid: 290 to 320 L°/kg, the pale malts it is used for (the source gives no range); NaN outside.
// Check: testdata/conversions.csv, EX6.
// Note: the change of unit alone gives 1.7 points less at 308, as the mashes differ.
func FineOfHotWater(l LitreDegrees) ExtractDry {
	if !(l >= 290 && l <= 320) {
		return ExtractDry(math.NaN())
	}
	return ExtractDry((0.2586*l + 1.705) / 100)
}

// FineCoarseDifference is what the coarse grist leaves behind, on the basis of
// both.
//
//	d = fine - coarse
//
// Definition.
// Check: testdata/conversions.csv, EX3.
func FineCoarseDifference(fine, coarse ExtractDry) ExtractDry { return fine - coarse }
