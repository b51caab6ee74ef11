package kiln

import "awn/odds"

// Constants are the uncertain numbers of kilning.
type Constants struct {
	Rate   float64 `param:"kiln.k.multiplier"`    // of drying inside the kernel
	Film   float64 `param:"kiln.film.multiplier"` // of heat and mass transfer to the air
	LagS   float64 `param:"kiln.return.lag"`      // of return air between bed and mixing
	Alpha  float64 `param:"kiln.alpha-amylase.loss"`
	Beta   float64 `param:"kiln.beta-amylase.loss"`
	Endo   float64 `param:"kiln.endo-glucanase.loss"`
	Exo    float64 `param:"kiln.exo-glucanase.loss"`
	SMM    float64 `param:"kiln.smm.half-life"`
	Colour float64 `param:"kiln.colour.rate"`
}

const practice = "common practice, no source"

// Parameters is the table behind Constants.
var Parameters = []odds.Parameter{
	{Key: "kiln.k.multiplier", Unit: "1", Default: 1, Low: 0.6, High: 1.6, Distribution: odds.LogNormal,
		Source: practice, Mark: odds.Weak},
	{Key: "kiln.film.multiplier", Unit: "1", Default: 1, Low: 0.5, High: 1.5, Distribution: odds.LogNormal,
		Source: practice, Mark: odds.Weak},
	{Key: "kiln.return.lag", Unit: "s", Default: 60, Low: 30, High: 120, Distribution: odds.LogNormal,
		Source: practice, Mark: odds.Weak},
	{Key: "kiln.alpha-amylase.loss", Unit: "1/h at 80 °C and 5 % wb", Default: 0.0100, Low: 0.0050, High: 0.0200,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kiln.beta-amylase.loss", Unit: "1/h at 80 °C and 5 % wb", Default: 0.0366, Low: 0.0183, High: 0.0732,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kiln.endo-glucanase.loss", Unit: "1/h at 80 °C and 5 % wb", Default: 0.0396, Low: 0.0198, High: 0.0792,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kiln.exo-glucanase.loss", Unit: "1/h at 80 °C and 5 % wb", Default: 0.0795, Low: 0.0398, High: 0.1590,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kiln.smm.half-life", Unit: "min at 100 °C", Default: 35, Low: 23, High: 52, Distribution: odds.LogNormal,
		Source: "Wilson 1979", Mark: odds.Sourced},
	{Key: "kiln.colour.rate", Unit: "EBC/h at 84 °C", Default: 0.328, Low: 0.230, High: 0.426,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
}
