package brew

import (
	"math"

	"awn/malt"
	"awn/odds"
)

// Prospect is what a brewer or distiller gets from a malt. What the analysis
// does not allow is without a figure.
type Prospect struct {
	ExtractAsIs odds.Value // kg/kg malt
	ExtractDry  odds.Value // kg/kg dry matter

	Wort        malt.Plato // the wort that the next figures speak of
	WortHLTonne odds.Value // hL of it per tonne of malt as-is

	AttenuationLimit odds.Value // apparent
	FinalPlato       odds.Value // apparent extract when fermented out
	AlcoholByVolume  odds.Value // L/L when fermented out

	SpiritLTonne odds.Value // litres of pure alcohol per tonne of malt as-is
}

// Of says what an analysis promises for a wort of the given strength. The
// parameters in c replace the defaults; their bands are kept around them.
func Of(a malt.Analysis, wort malt.Plato, c Constants) Prospect {
	out := Prospect{
		ExtractAsIs: valueOn(a, malt.ExtractFine, malt.AsIs),
		ExtractDry:  valueOn(a, malt.ExtractFine, malt.Dry),
		Wort:        wort,
	}
	out.WortHLTonne = odds.Combine(func(x []float64) float64 {
		return WortHLTonne(malt.ExtractAsIs(x[0]), wort, x[1])
	}, out.ExtractAsIs, around("brew.house.yield", c.HouseYield))
	out.SpiritLTonne = odds.Combine(func(x []float64) float64 {
		return SpiritLTonne(FermentableExtract(malt.ExtractAsIs(x[0]), x[1]))
	}, out.ExtractAsIs, ofEnzymes(a, c, "brew.fermentability.spirit", c.SpiritFermentability))

	out.AttenuationLimit = attenuationLimit(a, c)
	out.FinalPlato = out.AttenuationLimit.Map(func(limit float64) float64 {
		return float64(ApparentExtract(wort, limit))
	})
	out.AlcoholByVolume = out.AttenuationLimit.Map(func(limit float64) float64 {
		return fermentedOut(wort, limit)
	})
	return out
}

// attenuationLimit is the limit that the analysis states, or else that of pale
// malts in general.
func attenuationLimit(a malt.Analysis, c Constants) odds.Value {
	if v := valueOn(a, malt.AttenuationLimit, malt.NoBasis); v.Known() {
		return v
	}
	return ofEnzymes(a, c, "brew.attenuation.limit", c.AttenuationLimit)
}

// ofEnzymes is a parameter that holds for malts with enzymes enough. No
// published formula was found that gets it from other figures, so that a malt
// short of enzymes, or of unknown power, has none.
func ofEnzymes(a malt.Analysis, c Constants, key string, x float64) odds.Value {
	if power := valueOn(a, malt.DiastaticPower, malt.ScaleWK); !(power.Mid >= c.LeastPowerWK) {
		return odds.Alone(math.NaN(), odds.Weak)
	}
	return around(key, x)
}

// fermentedOut is the alcohol by volume of a wort at its limit.
func fermentedOut(wort malt.Plato, limit float64) float64 {
	final := ApparentExtract(wort, limit)
	byMass := AlcoholByMass(wort, RealExtract(wort, final))
	return AlcoholByVolume(byMass, final.Gravity())
}

// valueOn is the figure of an analysis on a basis, without one if it has none.
func valueOn(a malt.Analysis, p malt.Parameter, basis malt.Basis) odds.Value {
	f, _ := a.On(p, basis)
	return f.Value
}

// around is the band of a parameter moved to the value in use.
func around(key string, x float64) odds.Value {
	for _, p := range Parameters {
		if p.Key == key {
			return odds.Value{Mid: x, Low: x + p.Low - p.Default, High: x + p.High - p.Default, Standing: p.Mark}
		}
	}
	return odds.Alone(x, odds.Weak)
}
