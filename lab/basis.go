package lab

import (
	"math"

	"awn/unit"
)

// OnDryMatter is a content per kg of dry matter, of grain or malt in which it
// was found per kg as it stands.
//
//	xd = x / (1 - w)
//
// Definition.
// Valid: moistures of 0 to below 1; NaN outside.
// Check: 10.12 % at 12 % moisture are 11.50 % of the dry matter.
func OnDryMatter(asIs float64, moisture unit.WetBasis) float64 {
	return asIs / dryShare(moisture)
}

// AsItStands is a content per kg of grain or malt of that moisture.
//
//	x = xd (1 - w)
//
// Definition.
// Valid: moistures of 0 to below 1; NaN outside.
// Note: a figure “at 13.5 %” is this one with that moisture in place of the grain's own.
func AsItStands(onDryMatter float64, moisture unit.WetBasis) float64 {
	return onDryMatter * dryShare(moisture)
}

// dryShare is the dry matter in a kg.
func dryShare(w unit.WetBasis) float64 {
	if !(w >= 0 && w < 1) {
		return math.NaN()
	}
	return float64(1 - w)
}
