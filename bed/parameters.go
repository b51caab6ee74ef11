package bed

import "awn/odds"

// Constants are the uncertain numbers of a bed's resistance.
type Constants struct {
	// Resistance multiplies the published law. A bed of malt on a kiln is
	// loose and has shrunk, and carries more air than the law was measured at.
	Resistance float64 `param:"bed.resistance.factor"`
	// GreenDryKgM3 is the dry matter in a m³ of green malt as it is loaded.
	GreenDryKgM3 float64 `param:"bed.green.dry-density"`
}

// Parameters is the table behind Constants.
var Parameters = []odds.Parameter{
	{Key: "bed.resistance.factor", Unit: "1", Default: 0.5, Low: 0.3, High: 0.8, Distribution: odds.LogNormal,
		Source: "common practice, no source", Mark: odds.Weak},
	{Key: "bed.green.dry-density", Unit: "kg/m³", Default: 330, Low: 300, High: 360, Distribution: odds.Normal,
		Source: "common practice, no source", Mark: odds.Practice},
}
