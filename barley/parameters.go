package barley

import "awn/odds"

// Constants are the uncertain numbers among the properties of barley and malt.
type Constants struct {
	// MaltEMC multiplies the equilibrium moisture of malt.
	MaltEMC float64 `param:"barley.malt-emc.multiplier"`
	// ChungPfostA is A of the modified Chung-Pfost isotherm of barley, which
	// is printed with its digits in two orders.
	ChungPfostA float64 `param:"barley.chung-pfost.a"`
	// Swelling is the gain in bulk volume of barley steeped to 0.80 kg of
	// water per kg of dry matter.
	Swelling float64 `param:"barley.swelling"`
}

// Parameters is the table behind Constants.
var Parameters = []odds.Parameter{
	{Key: "barley.malt-emc.multiplier", Unit: "1", Default: 1, Low: 0.9, High: 1.1, Distribution: odds.LogNormal,
		Source: "common practice, no source", Mark: odds.Weak},
	{Key: "barley.chung-pfost.a", Unit: "K", Default: 475.12, Low: 457.12, High: 475.12, Distribution: odds.Uniform,
		Source: "ASABE D245", Mark: odds.Recalled},
	{Key: "barley.swelling", Unit: "1", Default: 0.40, Low: 0.30, High: 0.45, Distribution: odds.Normal,
		Source: "common practice, no source", Mark: odds.Weak},
}
