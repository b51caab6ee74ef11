package dress

import (
	"math"

	"awn/unit"
)

// DryLoss is the loss of dry matter from barley to malt, as a share.
//
//	L = 1 - Mm (1 - wm)/(Mb (1 - wb))
//
// Definition.
// Valid: masses above 0, moistures 0 to below 1; NaN outside.
// Check: testdata/yield.csv.
func DryLoss(barleyKg float64, barley unit.WetBasis, maltKg float64, malt unit.WetBasis) float64 {
	return 1 - maltKg*dry(malt)/(barleyKg*dry(barley))
}

// AsIsLoss is the loss of mass from barley to malt as both stand, as a share.
//
//	L = 1 - Mm/Mb
//
// Definition.
// Check: testdata/yield.csv.
func AsIsLoss(barleyKg, maltKg float64) float64 { return 1 - maltKg/barleyKg }

// AsIsYield is the malt as it stands per mass of barley as it stands, for a
// loss of dry matter.
//
//	Y = (1 - L)(1 - wb)/(1 - wm)
//
// Definition.
// Valid: moistures 0 to below 1; NaN outside.
// Check: testdata/yield.csv.
func AsIsYield(dryLoss float64, barley, malt unit.WetBasis) float64 {
	return (1 - dryLoss) * dry(barley) / dry(malt)
}

// dry is the dry matter in a kg; NaN for a moisture that cannot be.
func dry(w unit.WetBasis) float64 {
	if !(w >= 0 && w < 1) {
		return math.NaN()
	}
	return float64(1 - w)
}
