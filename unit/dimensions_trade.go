package unit

import "slices"

// The dimensions below stand in the tables of the trade but in no document of
// a piece: what a bushel holds, a farm's ground, extract by the litre.

// Areas of ground. Recalled: NIST SP 811, appendix B; the acre of the United
// States survey differs from the other by four parts in a million.
const (
	acreM2       = 4840 * 9 * footM * footM
	surveyFootM  = 1200.0 / 3937
	acreSurveyM2 = 4840 * 9 * surveyFootM * surveyFootM
)

// Extract that dissolves whole, by litre and by gallon. Source:
// BrewingTechniques 2.1, 386.5 litre degrees and 46.31 points.
const (
	litreDegreesOfAll = 386.5
	pointsOfAll       = 46.31
)

// GrainVolume is held in m3. Its bushels are measures and not the masses that
// barley and malt are traded by.
var GrainVolume = Dimension{Name: "volume of grain", Units: kind("", "m3", 0, 1e6,
	scaled(1, "m3", "m³"), scaled(0.1, "hL", "hl"), scaled(0.001, "L", "l"),
	scaled(winchM3, "bu measure", "bu winchester measure"), scaled(imperBuM3, "bu imperial measure"))}

// Ground is the area of fields, held in m2.
var Ground = Dimension{Name: "ground", Units: kind("", "m2", 0, 1e12,
	scaled(1e4, "ha"), scaled(100, "are"), scaled(1, "m2", "m²"),
	scaled(acreM2, "acre"), scaled(acreSurveyM2, "acre us"))}

// Vapour is water in a volume of air, held in kg/m3.
var Vapour = Dimension{Name: "vapour in air", Units: kind("", "kg/m3", 0, 1, scaled(1e-3, "g/m3", "g/m³"), scaled(1, "kg/m3", "kg/m³"))}

// Acidity is pH.
var Acidity = Dimension{Name: "acidity", Units: kind("", "pH", 0, 14, scaled(1, "pH"))}

// Turbidity is held in nephelometric units.
var Turbidity = Dimension{Name: "turbidity", Units: kind("", "NTU", 0, 10000, scaled(1, "NTU"))}

// CupWeight is barley that fills a cup of half a litre, held in kg. What it
// makes of test weight hangs on the cup.
var CupWeight = Dimension{Name: "cup weight", Units: kind("", "kg", 0.1, 0.5, scaled(1e-3, "g/0.5 L", "g/0.5L", "g/0.5 l"))}

// PointShrink is what a posted rule takes off grain for each point of moisture,
// held as a share.
var PointShrink = Dimension{Name: "shrink per point", Units: kind("", "1", 0, 0.1, scaled(0.01, "%/pt", "%/point"))}

// Extract is a share of malt that dissolves, by mass, by litre degrees or by
// points of gravity. L°/kg here is the same extract in another unit and not
// the result of another mash.
var Extract = Dimension{Name: "extract", Units: slices.Concat(
	kind(KindDM, "kg/kg dm", 0, 1, scaled(0.01, "% dm"), scaled(1/litreDegreesOfAll, "L°/kg dm"), scaled(1/pointsOfAll, "ppg dm")),
	kind(KindAsIs, "kg/kg as-is", 0, 1, scaled(0.01, "% asis", "% as-is"), scaled(1/litreDegreesOfAll, "L°/kg asis", "L°/kg as-is"), scaled(1/pointsOfAll, "ppg asis", "ppg as-is")))}

// GrowthHeat is what living grain gives off, held in W per kg of dry matter or
// of grain as it is.
var GrowthHeat = Dimension{Name: "heat of growth", Units: slices.Concat(
	kind(KindDM, "W/kg dm", 0, 50, scaled(1, "W/kg dm"), scaled(1e-3, "W/t dm")),
	kind(KindAsIs, "W/kg as-is", 0, 50, scaled(1, "W/kg asis", "W/kg as-is"), scaled(1e-3, "W/t asis", "W/t as-is")))}

// Warming is how fast grain grows warmer, held in K per hour.
var Warming = Dimension{Name: "warming", Units: kind("", "K/h", -100, 100, scaled(1, "K/h", "°C/h"), scaled(5./9, "°F/h"))}
