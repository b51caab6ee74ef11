package steep

import "awn/odds"

// Constants are the uncertain constants of the steep, by the keys of
// Parameters. Fill them with odds.Fill.
type Constants struct {
	TransferKgHT    float64 `param:"steep.oxygen.transfer"`
	DraughtM3HT     float64 `param:"steep.air.draught"`
	DioxideHalf     float64 `param:"steep.co2.half"`
	ExchangeH       float64 `param:"steep.heat.exchange"`
	LeachPool       float64 `param:"steep.leach.pool"`
	LeachH          float64 `param:"steep.leach.hours"`
	CODPerKg        float64 `param:"steep.leach.cod"`
	SensitivityFree float64 `param:"steep.sensitivity.free"`
	SensitivityH    float64 `param:"steep.sensitivity.hours"`
}

const practice = "common practice, no source"

// Parameters is the table of the steep's uncertain constants.
var Parameters = []odds.Parameter{
	{Key: "steep.oxygen.transfer", Unit: "kg/(h t) at 1.95 m³/(h t) of air", Default: 0.030, Low: 0.010, High: 0.050,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "steep.air.draught", Unit: "m³/(h t)", Default: 1.0, Low: 0.3, High: 2.5,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "steep.co2.half", Unit: "share of air by volume", Default: 0.20, Low: 0.10, High: 0.40,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "steep.heat.exchange", Unit: "h", Default: 0.25, Low: 0.1, High: 0.6,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "steep.leach.pool", Unit: "share of dry matter", Default: 0.010, Low: 0.005, High: 0.015,
		Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "steep.leach.hours", Unit: "h under water", Default: 8, Low: 4, High: 16,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "steep.leach.cod", Unit: "kg COD per kg leached", Default: 1.13, Low: 1.07, High: 1.20,
		Distribution: odds.Uniform, Source: practice, Mark: odds.Practice},
	{Key: "steep.sensitivity.free", Unit: "h under water", Default: 8, Low: 6, High: 10,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak},
	{Key: "steep.sensitivity.hours", Unit: "h under water", Default: 12, Low: 8, High: 18,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
}
