package germinate

import (
	"awn/barley"
	"awn/kernel"
)

// sums are what has crossed the bed's boundary since the start.
type sums struct {
	burned                      kernel.Burn
	airWaterKg, airHeatJ, wallJ float64
	onOxygenKg, onDioxideKg     float64 // with the air that meets the bed
	offOxygenKg, offDioxideKg   float64 // with the air that leaves it
	voidOxygenKg, voidDioxideKg float64 // gained by the air between the corns
	sprayedKg, sprayedJ         float64
}

// Lines appends the account since Start: what came to the grain is positive.
// Dry matter, water and heat add up to the change of the grain itself; oxygen
// and carbon dioxide, which grain does not hold, add up to nothing.
func (r *Run) Lines(dst []barley.Line) []barley.Line {
	s := &r.now.sums
	b := &s.burned
	return append(dst,
		barley.Line{Good: barley.Dry, Code: "germinate.respired", Amount: b.FermentedKg - b.DryKg},
		barley.Line{Good: barley.Dry, Code: "germinate.fermented", Amount: -b.FermentedKg},
		barley.Line{Good: barley.Water, Code: "germinate.evaporated", Amount: s.airWaterKg},
		barley.Line{Good: barley.Water, Code: "germinate.sprayed", Amount: s.sprayedKg},
		barley.Line{Good: barley.Water, Code: "germinate.metabolic", Amount: b.WaterKg},
		barley.Line{Good: barley.HeatJ, Code: "germinate.respired", Amount: b.HeatJ},
		barley.Line{Good: barley.HeatJ, Code: "germinate.air", Amount: s.airHeatJ},
		barley.Line{Good: barley.HeatJ, Code: "germinate.sprayed", Amount: s.sprayedJ},
		barley.Line{Good: barley.HeatJ, Code: "germinate.walls", Amount: -s.wallJ},
		barley.Line{Good: barley.Oxygen, Code: "germinate.air-on", Amount: s.onOxygenKg},
		barley.Line{Good: barley.Oxygen, Code: "germinate.air-off", Amount: -s.offOxygenKg},
		barley.Line{Good: barley.Oxygen, Code: "germinate.respired", Amount: -b.OxygenKg},
		barley.Line{Good: barley.Oxygen, Code: "germinate.voids", Amount: -s.voidOxygenKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "germinate.air-on", Amount: s.onDioxideKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "germinate.air-off", Amount: -s.offDioxideKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "germinate.respired", Amount: b.CO2Kg},
		barley.Line{Good: barley.CarbonDioxide, Code: "germinate.voids", Amount: -s.voidDioxideKg},
	)
}

// Utilities is what the vessel has used since the start.
type Utilities struct {
	FanJ         float64
	HeatJ        float64 // given by the heater
	CoolingJ     float64 // taken out by coil or chilled spray
	CoolingWorkJ float64 // the power that took
	HumidifierKg float64 // water taken up by the air before the bed
	SprayedKg    float64
	FreshAirKg   float64 // outside air drawn in, dry
}

// Utilities returns what the vessel has used since the start.
func (r *Run) Utilities() Utilities {
	u := r.now.utilities
	u.SprayedKg = r.now.sums.sprayedKg
	return u
}

// RespiredKg is the dry matter that has gone since the start, fermented included.
// Culms grow with it.
//
// Definition.
func (r *Run) RespiredKg() float64 { return r.now.sums.burned.DryKg }

// pay counts what the air of one step takes to make.
func (r *Run) pay(dtS float64) {
	n := &r.now
	u, p := &n.utilities, &n.plenum
	u.FanJ += n.fanW * dtS
	u.HeatJ += p.heatW * dtS
	u.CoolingJ += p.coolW * dtS
	if p.coolW > 0 && r.setup.Vessel.Air.COP > 0 {
		u.CoolingWorkJ += p.coolW / r.setup.Vessel.Air.COP * dtS
	}
	u.HumidifierKg += p.waterKg * dtS
	u.FreshAirKg += p.fresh * n.airKgS * dtS
}
