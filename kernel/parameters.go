package kernel

import "awn/odds"

// Constants are the uncertain constants of the living kernel, by the keys of
// Parameters. Fill them with odds.Fill.
type Constants struct {
	DiffusivityM2S float64 `param:"kernel.uptake.diffusivity"`
	ActivationJMol float64 `param:"kernel.uptake.activation"`
	SurfaceDB      float64 `param:"kernel.uptake.surface"`
	CapDB          float64 `param:"kernel.uptake.cap"`
	FilmDB         float64 `param:"kernel.uptake.film"`

	ChitBaseC       float64 `param:"kernel.chit.base"`
	ChitSpread      float64 `param:"kernel.chit.spread"`
	ChitMoisturePC  float64 `param:"kernel.chit.moisture"`
	GrowPerTenK     float64 `param:"kernel.grow.per-ten-kelvin"`
	GrowPerPoint    float64 `param:"kernel.grow.per-point"`
	RestRate        float64 `param:"kernel.respire.rest"`
	PeakRate        float64 `param:"kernel.respire.peak"`
	RespireJMol     float64 `param:"kernel.respire.activation"`
	OnsetD          float64 `param:"kernel.respire.onset"`
	OxygenHalf      float64 `param:"kernel.oxygen.half"`
	FermentPerUnmet float64 `param:"kernel.ferment.per-unmet"`
}

const practice = "common practice, no source"

// Parameters is the table of the living kernel's uncertain constants.
var Parameters = []odds.Parameter{
	{Key: "kernel.uptake.diffusivity", Unit: "m²/s at 15 °C", Default: 1.8e-12, Low: 1.2e-12, High: 2.6e-12,
		Distribution: odds.LogNormal, Source: "Kunze 2010", Mark: odds.Recalled},
	{Key: "kernel.uptake.activation", Unit: "J/mol", Default: 50e3, Low: 45e3, High: 60e3,
		Distribution: odds.Normal, Source: "Becker 1960", Mark: odds.Sourced},
	{Key: "kernel.uptake.surface", Unit: "kg/kg dry matter", Default: 0.88, Low: 0.82, High: 0.98,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.uptake.cap", Unit: "kg/kg dry matter", Default: 0.045, Low: 0.03, High: 0.06,
		Distribution: odds.Normal, Source: "Becker 1960", Mark: odds.Sourced},
	{Key: "kernel.uptake.film", Unit: "kg/kg dry matter", Default: 0.10, Low: 0.06, High: 0.15,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},

	{Key: "kernel.chit.base", Unit: "°C", Default: -2, Low: -3, High: 0,
		Distribution: odds.Normal, Source: "Onofri undated", Mark: odds.Sourced},
	{Key: "kernel.chit.spread", Unit: "1", Default: 0.28, Low: 0.2, High: 0.4,
		Distribution: odds.LogNormal, Source: "Onofri undated", Mark: odds.Sourced},
	{Key: "kernel.chit.moisture", Unit: "% wet basis", Default: 33, Low: 31, High: 35,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.grow.per-ten-kelvin", Unit: "1", Default: 1.49, Low: 1.3, High: 1.7,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.grow.per-point", Unit: "1 per point wet basis", Default: 0.078, Low: 0.05, High: 0.10,
		Distribution: odds.Normal, Source: "Psota 2015", Mark: odds.Weak},
	{Key: "kernel.respire.rest", Unit: "g/(kg h) at 16 °C, 45 %", Default: 0.04, Low: 0.02, High: 0.08,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.respire.peak", Unit: "g/(kg h) at 16 °C, 45 %", Default: 0.52, Low: 0.36, High: 0.70,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.respire.activation", Unit: "J/mol", Default: 36e3, Low: 30e3, High: 55e3,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.respire.onset", Unit: "d", Default: 1.5, Low: 1.0, High: 2.2,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.oxygen.half", Unit: "share of air by volume", Default: 0.02, Low: 0.01, High: 0.04,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "kernel.ferment.per-unmet", Unit: "kg fermented per kg not respired", Default: 0.5, Low: 0.2, High: 1.5,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
}
