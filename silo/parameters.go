package silo

import "awn/odds"

// Constants are the uncertain numbers of a store.
type Constants struct {
	ClockFactor       float64 `param:"silo.clock.factor"`
	AgeingFactor      float64 `param:"silo.ageing.factor"`
	RespirationFactor float64 `param:"silo.respiration.factor"`
	ConductivityWMK   float64 `param:"silo.grain.conductivity"`
	CoolingEffort     float64 `param:"silo.cooling.effort"`
	DormancyWeeks     float64 `param:"silo.dormancy.weeks"`
	Packing           float64 `param:"silo.packing.factor"`
}

const practice = "common practice, no source"

// Parameters is the table behind Constants. The factor on ageing spans the
// law's two sets of constants; upwards it is mirrored, for a commercial store
// did better than the law. The effort of cooling lies between what heat and
// water ask for and what the heat of the grain alone would need.
var Parameters = []odds.Parameter{
	{Key: "silo.clock.factor", Unit: "1", Default: 1, Low: 0.67, High: 1.5, Distribution: odds.LogNormal, Source: "Fraser and Muir 1981", Mark: odds.Weak},
	{Key: "silo.ageing.factor", Unit: "1", Default: 1, Low: 0.75, High: 1.33, Distribution: odds.LogNormal, Source: "Ellis and Roberts 1980", Mark: odds.Weak},
	{Key: "silo.respiration.factor", Unit: "1", Default: 1, Low: 0.5, High: 2, Distribution: odds.LogNormal, Source: "White 1982", Mark: odds.Weak},
	{Key: "silo.grain.conductivity", Unit: "W/(m K)", Default: 0.145, Low: 0.116, High: 0.174, Distribution: odds.Normal, Source: practice, Mark: odds.Practice},
	{Key: "silo.cooling.effort", Unit: "1", Default: 1.7, Low: 1.3, High: 2.5, Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak},
	{Key: "silo.dormancy.weeks", Unit: "week", Default: 5, Low: 2, High: 8, Distribution: odds.Uniform, Source: practice, Mark: odds.Practice},
	{Key: "silo.packing.factor", Unit: "1", Default: 1.25, Low: 1, High: 1.5, Distribution: odds.Uniform, Source: "ASABE D272", Mark: odds.Weak},
}

// Defaults are the constants of the table.
func Defaults() Constants {
	var c Constants
	if err := odds.Fill(&c, Parameters, nil); err != nil {
		panic(err) // a key of this file that is not in its table
	}
	return c
}
