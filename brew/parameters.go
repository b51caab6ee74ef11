package brew

import "awn/odds"

// unsourced marks what rests on common practice alone.
const unsourced = "common practice, no source"

// Parameters are what this package does not know well.
var Parameters = []odds.Parameter{
	{Key: "brew.attenuation.limit", Unit: "1", Default: 0.815, Low: 0.79, High: 0.84, Distribution: odds.Normal, Source: unsourced, Mark: odds.Weak},
	{Key: "brew.enzymes.least_power", Unit: "WK", Default: 150, Low: 100, High: 200, Distribution: odds.Uniform, Source: unsourced, Mark: odds.Weak},
	{Key: "brew.fermentability.spirit", Unit: "1", Default: 0.87, Low: 0.86, High: 0.88, Distribution: odds.Normal, Source: unsourced, Mark: odds.Practice},
	{Key: "brew.house.yield", Unit: "1", Default: 0.95, Low: 0.90, High: 0.98, Distribution: odds.Normal, Source: unsourced, Mark: odds.Practice},
}

// Constants are the parameters in use.
type Constants struct {
	// AttenuationLimit is the apparent attenuation that a pale, well-modified
	// malt reaches when its wort is fermented out.
	AttenuationLimit float64 `param:"brew.attenuation.limit"`
	// LeastPowerWK is the diastatic power under which neither that limit nor
	// the fermentability below says anything.
	LeastPowerWK float64 `param:"brew.enzymes.least_power"`
	// SpiritFermentability is the share of the extract that a distiller's
	// unboiled wort ferments.
	SpiritFermentability float64 `param:"brew.fermentability.spirit"`
	// HouseYield is the extract in the cold wort over the fine extract of the
	// laboratory.
	HouseYield float64 `param:"brew.house.yield"`
}
