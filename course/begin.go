package course

import (
	"fmt"
	"math"

	"awn/barley"
	"awn/finding"
	"awn/kernel"
	"awn/odds"
)

// level is the bed of a piece whose unevenness nobody has described.
var level = []barley.Column{{Share: 1, Depth: 1, Packing: 1}}

// usualAgeD is the growth age of green malt that nobody measured.
//
// Assumed: common practice, no source.
const usualAgeD = 4.0

// chittedAgeCH is how much thermal time a day of growth at 16 °C and 45 % takes
// on the chit clock: kernels that chitted later are younger by what lies between.
const chittedAgeCH = 24 * 18.0

// grain is the piece in the state that was measured: one even layer.
func (b *Begin) grain(lot *barley.Lot, k *kernel.Constants) (*barley.Grain, []finding.Finding, error) {
	if !(b.DryKg > 0) || !(b.Moisture > 0 && b.Moisture < 1) || math.IsNaN(b.TempC) {
		return nil, nil, fmt.Errorf("begin: %g kg of dry matter at %g moisture and %g °C is no piece of grain", b.DryKg, b.Moisture, b.TempC)
	}
	var notes []finding.Finding
	age := b.AgeD
	if math.IsNaN(age) {
		age = usualAgeD
		f := finding.New("begin.age.assumed", finding.Caution, b.Stage.String(), finding.Figure{Name: "age_d", Value: age})
		f.Act, f.Chance, f.Cost = "act.begin.measure-acrospire", 0.5, 0.03
		notes = append(notes, f)
	}
	asIsKg := b.DryKg / (1 - lot.Moisture.Mid)
	g, err := barley.Cast(lot, barley.UsualQuantiles, level, asIsKg, b.TempC)
	if err != nil {
		return nil, nil, err
	}
	g.WaterKg[0] = b.DryKg * b.Moisture / (1 - b.Moisture)
	b.grow(g, lot, k, age)
	return g, notes, nil
}

// grow sets the chit clock to where the share chitted has been reached, and
// the ages of the chitted kernels around their mean.
func (b *Begin) grow(g *barley.Grain, lot *barley.Lot, k *kernel.Constants, ageD float64) {
	living := max(1e-9, lot.Capacity.Mid-lot.Dormant.Mid)
	share := b.Chit / living
	if math.IsNaN(share) {
		share = 1
	}
	reached := odds.NormalQuantile(min(max(share, 0.001), 0.999))
	clock := lot.ChitThermalTimeCH.Mid * math.Exp(k.ChitSpread*reached)
	meanCH, number := 0.0, 0.0
	chitCH := func(c barley.Class) float64 { return lot.ChitThermalTimeCH.Mid * math.Exp(k.ChitSpread*c.Vigour) }
	for _, c := range g.Classes {
		if !c.Idle && chitCH(c) <= clock {
			meanCH += c.Number * chitCH(c)
			number += c.Number
		}
	}
	for i, c := range g.Classes {
		g.ThermalTimeCH[i] = clock
		if !c.Idle && chitCH(c) <= clock {
			g.AgeD[i] = max(0, ageD+(meanCH/number-chitCH(c))/chittedAgeCH)
		}
	}
}
