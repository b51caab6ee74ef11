package malt

import "math"

// ColourEBC is colour on the scale of the EBC.
type ColourEBC float64

// ColourSRM is colour on the scale of the ASBC. Sheets from the United States
// often print it as "Lovibond".
type ColourSRM float64

// Lovibond is colour against the series of coloured glasses.
type Lovibond float64

// Colour per unit of absorbance at 430 nm in 1 cm.
const (
	ebcPerA430 = 25
	srmPerA430 = 12.7
)

// ColourEBCOfAbsorbance is the colour of a wort by its absorbance at 430 nm in
// 1 cm.
//
//	EBC = 25 A
//
// Source: Liquisearch undated.
// Check: testdata/conversions.csv, CO2.
func ColourEBCOfAbsorbance(a430 float64) ColourEBC { return ColourEBC(ebcPerA430 * a430) }

// ColourSRMOfAbsorbance is the colour of a wort by its absorbance at 430 nm in
// 1 cm.
//
//	SRM = 12.7 A
//
// Source: Liquisearch undated.
// Check: testdata/conversions.csv, CO1.
func ColourSRMOfAbsorbance(a430 float64) ColourSRM { return ColourSRM(srmPerA430 * a430) }

// EBC is the same colour on the scale of the EBC.
//
//	EBC = (25/12.7) SRM
//
// Source: Liquisearch undated.
// Check: testdata/conversions.csv, CO3.
func (c ColourSRM) EBC() ColourEBC { return ColourEBC(c * ebcPerA430 / srmPerA430) }

// SRM is the same colour on the scale of the ASBC.
//
//	SRM = (12.7/25) EBC
//
// Source: Liquisearch undated.
func (c ColourEBC) SRM() ColourSRM { return ColourSRM(c * srmPerA430 / ebcPerA430) }

// SRM estimates the photometric colour of a match with the glasses.
//
//	SRM = 1.3546 L - 0.76
//
// Recalled: MBAA undated.
// Valid: where the result is not negative; NaN below.
// Check: testdata/conversions.csv, CO4; 10 °L to 12.7.
func (l Lovibond) SRM() ColourSRM { return ColourSRM(notNegative(1.3546*float64(l) - 0.76)) }

// EBC estimates the photometric colour of a match with the glasses.
//
//	EBC = 2.65 L - 1.2
//
// Source: Noonan undated.
// Valid: where the result is not negative; NaN below.
// Check: testdata/conversions.csv, CO6.
// Note: within 0.6 % of the way over SRM from 10 °L, 6 % apart at 2 °L.
func (l Lovibond) EBC() ColourEBC { return ColourEBC(notNegative(2.65*float64(l) - 1.2)) }

// Lovibond estimates the match with the glasses.
//
//	L = 0.375 EBC + 0.56
//
// Source: Siebel undated.
// Valid: EBC not negative; NaN below.
// Check: testdata/conversions.csv, CO5.
// Note: published apart from 2.65 L - 1.2, of which it is the inverse within 0.11 °L and 0.7 %.
func (c ColourEBC) Lovibond() Lovibond {
	return Lovibond(0.375*notNegative(float64(c)) + 0.56)
}

// notNegative passes what can be on a scale that starts at 0, NaN otherwise.
func notNegative(x float64) float64 {
	if x >= 0 {
		return x
	}
	return math.NaN()
}
