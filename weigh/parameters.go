package weigh

import "awn/odds"

// Constants are the uncertain numbers of this package.
type Constants struct {
	FaultChance   float64 `param:"weigh.fault.chance"` // that one reading of a load is wrong
	FaultSize     float64 `param:"weigh.fault.size"`   // standard deviation of a fault, in those of an honest reading
	ScaleShare    float64 `param:"weigh.scale.deviation"`
	MoisturePoint float64 `param:"weigh.moisture.deviation"`
	MaltingLost   float64 `param:"weigh.malting.lost"` // share of the dry matter leached and respired
	MaltingLostBy float64 `param:"weigh.malting.lost.deviation"`
}

const practice = "common practice, no source"

// Parameters is the table behind Constants.
var Parameters = []odds.Parameter{
	{Key: "weigh.fault.chance", Unit: "1", Default: 0.05, Low: 0.01, High: 0.2, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "weigh.fault.size", Unit: "1", Default: 5, Low: 3, High: 10, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "weigh.scale.deviation", Unit: "1", Default: 0.003, Low: 0.001, High: 0.01, Distribution: odds.LogNormal, Source: practice, Mark: odds.Practice},
	{Key: "weigh.moisture.deviation", Unit: "1", Default: 0.003, Low: 0.0015, High: 0.006, Distribution: odds.LogNormal, Source: practice, Mark: odds.Practice},
	{Key: "weigh.malting.lost", Unit: "1", Default: 0.06, Low: 0.04, High: 0.08, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "weigh.malting.lost.deviation", Unit: "1", Default: 0.012, Low: 0.008, High: 0.02, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
}

// Defaults are the constants of the table.
func Defaults() Constants {
	var c Constants
	if err := odds.Fill(&c, Parameters, nil); err != nil {
		panic(err) // a key of this file that is not in its table
	}
	return c
}
