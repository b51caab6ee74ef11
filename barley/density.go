package barley

import (
	"math"

	"awn/unit"
)

// BulkDensity is the mass of a cubic metre of barley as it lies, kg/m³.
//
//	ρ = 705.4 - 1142 w + 1950 w²
//
// Recalled: ASABE D241, barley.
// Valid: 7 to 30 % wet basis; NaN outside. The fitted range is not known.
// Check: 584 kg/m³ at 14 %, computed by hand.
// Note: for want of a test weight only; TestWeightDensity is the lot's own.
func BulkDensity(w unit.WetBasis) float64 {
	if !(w >= 0.07 && w <= 0.30) {
		return math.NaN()
	}
	return 705.4 - 1142*float64(w) + 1950*float64(w)*float64(w)
}

// TestWeightDensity is the mass of a cubic metre of grain by its test weight,
// kg/m³.
//
//	ρ = 10 TW      (TW in kg/hL)
//
// Definition.
func TestWeightDensity(testWeightKgHL float64) float64 { return 10 * testWeightKgHL }

// The line from what a cup of half a litre holds to test weight.
const (
	cupOffsetKgHL = -0.3063
	cupKgHLPerG   = 0.2089
)

// CupTestWeight is the test weight of barley by what a cup of half a litre
// holds, kg/hL.
//
//	TW = -0.3063 + 0.2089 g      (g in grams)
//
// Source: CGC test weight undated.
// Valid: 250 to 400 g, which is all barley (the source gives no range); NaN outside.
// Check: 310 g give 64.453 kg/hL.
// Note: holds for the cup and funnel it was found with; another line of the same page, 0.1552 lb per Winchester bushel and gram, gives 61.93.
func CupTestWeight(grams float64) float64 {
	if !(grams >= 250 && grams <= 400) {
		return math.NaN()
	}
	return cupOffsetKgHL + cupKgHLPerG*grams
}

// The volume of barley in a steep, m³ per tonne of barley as cast, and the
// moisture at which its swelling is told.
const (
	castM3T     = 1.49
	swollenAtDB = 0.80
)

// SteepedVolume is the bulk volume of barley in the steep, m³ per tonne as
// cast, as it takes up water from x0 to x.
//
//	V = 1.49 (1 + s (X - X0)/(0.80 - X0)), s = 0.40
//
// Assumed: common practice; swelling is told as 20 to 45 % by volume.
// Valid: X0 below 0.30, X from X0 to 1; NaN outside.
// Check: a floor of 1.2 m for 0.575 t/m² is 2.09 m³/t (Owens 2001, p. 193).
// Note: water and grain volumes simply added overstate it.
func (c Constants) SteepedVolume(x0, x unit.DryBasis) float64 {
	if !(x0 >= 0 && x0 < 0.30 && x >= x0 && x <= 1) {
		return math.NaN()
	}
	return castM3T * (1 + c.Swelling*float64(x-x0)/(swollenAtDB-float64(x0)))
}

// BedShrinkage is the share of its depth that a kiln bed has lost in drying
// from x0 to x.
//
//	S = 0.252086 (1 - exp(-4.238 (X0 - X)))
//
// Recalled: López 1997; read in a later text that prints it.
// Valid: moistures of 0 to 1.2; NaN outside. 0 where the bed has become wetter.
// Check: 20.6, 23.2 and 24.2 % from 0.80 to 0.40, 0.20 and 0.05, computed by hand.
func BedShrinkage(x0, x unit.DryBasis) float64 {
	if !(x0 >= 0 && x0 <= 1.2 && x >= 0 && x <= 1.2) {
		return math.NaN()
	}
	return max(-0.252086*math.Expm1(-4.238*float64(x0-x)), 0)
}

// The kernel as a sphere. Assumed: the density lies within 1280 to 1333 kg/m³;
// the factor turns the sphere of equal volume into that of equal uptake.
const (
	kernelKgM3  = 1300.0
	kernelShape = 0.85
)

// KernelRadius is the radius of the sphere that takes up water as a kernel
// does, m.
//
//	r = 0.85 (3 V/(4 π))^(1/3), V = m/1300 kg/m³
//
// Assumed: common practice for the density; the shape factor is a judgement.
// Valid: kernels of 5 to 100 mg; NaN outside.
// Check: 1.72 mm at 45 mg, computed by hand.
// Note: the mass is as received; thousand-kernel weight in g is the same figure in mg.
func KernelRadius(kernelMg float64) float64 {
	if !(kernelMg >= 5 && kernelMg <= 100) {
		return math.NaN()
	}
	return kernelShape * math.Cbrt(3*kernelMg*1e-6/kernelKgM3/(4*math.Pi))
}
