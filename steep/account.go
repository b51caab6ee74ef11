package steep

import (
	"awn/barley"
	"awn/kernel"
)

// sums are what has crossed the boundary of the grain since the start.
type sums struct {
	burned kernel.Burn

	absorbedKg, absorbedJ float64 // from the water in the vessel, film included
	sprayedKg, sprayedJ   float64 // kept of sprays
	evaporatedKg, airJ    float64
	leachedKg, leachedJ   float64
	exchangedJ, wallJ     float64
	waterOxygenKg         float64 // taken from water
	waterDioxideKg        float64 // given to water
	airOxygenKg           float64 // net from outside air
	airDioxideKg          float64
	voids                 gas // between the kernels at the start
	usedM3                float64
}

// heatJ is the heat that has come to the grain.
func (s *sums) heatJ() float64 {
	return s.burned.HeatJ + s.absorbedJ + s.sprayedJ + s.airJ - s.leachedJ + s.exchangedJ + s.wallJ
}

// Lines appends the account since Start: what came to the grain is positive.
// Dry matter, water and heat add up to the change of the grain itself; oxygen
// and carbon dioxide, which grain does not hold, add up to nothing.
func (r *Run) Lines(dst []barley.Line) []barley.Line {
	s := &r.now.sums
	b := &s.burned
	return append(dst,
		barley.Line{Good: barley.Dry, Code: "steep.respired", Amount: b.FermentedKg - b.DryKg},
		barley.Line{Good: barley.Dry, Code: "steep.fermented", Amount: -b.FermentedKg},
		barley.Line{Good: barley.Dry, Code: "steep.leached", Amount: -s.leachedKg},
		barley.Line{Good: barley.Water, Code: "steep.absorbed", Amount: s.absorbedKg},
		barley.Line{Good: barley.Water, Code: "steep.sprayed", Amount: s.sprayedKg},
		barley.Line{Good: barley.Water, Code: "steep.evaporated", Amount: -s.evaporatedKg},
		barley.Line{Good: barley.Water, Code: "steep.metabolic", Amount: b.WaterKg},
		barley.Line{Good: barley.HeatJ, Code: "steep.respired", Amount: b.HeatJ},
		barley.Line{Good: barley.HeatJ, Code: "steep.absorbed", Amount: s.absorbedJ},
		barley.Line{Good: barley.HeatJ, Code: "steep.sprayed", Amount: s.sprayedJ},
		barley.Line{Good: barley.HeatJ, Code: "steep.air", Amount: s.airJ},
		barley.Line{Good: barley.HeatJ, Code: "steep.leached", Amount: -s.leachedJ},
		barley.Line{Good: barley.HeatJ, Code: "steep.exchanged", Amount: s.exchangedJ},
		barley.Line{Good: barley.HeatJ, Code: "steep.walls", Amount: s.wallJ},
		barley.Line{Good: barley.Oxygen, Code: "steep.water", Amount: s.waterOxygenKg},
		barley.Line{Good: barley.Oxygen, Code: "steep.air", Amount: s.airOxygenKg},
		barley.Line{Good: barley.Oxygen, Code: "steep.voids", Amount: s.voids.oxygenKg - r.now.gas.oxygenKg},
		barley.Line{Good: barley.Oxygen, Code: "steep.respired", Amount: -b.OxygenKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "steep.water", Amount: -s.waterDioxideKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "steep.air", Amount: s.airDioxideKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "steep.voids", Amount: s.voids.dioxideKg - r.now.gas.dioxideKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "steep.respired", Amount: b.CO2Kg},
	)
}

// Effluent is what the steep sends down the drain.
type Effluent struct {
	UsedM3   float64 // water drawn, sprays included
	DrainM3  float64 // water let out, that still in the vessel included
	CODKg    float64 // load
	CODKgM3  float64 // concentration: load over DrainM3; 0 if nothing drains
	DryKg    float64 // dry matter that it carries
	AbsorbM3 float64 // water that went with the grain
}

// Effluent returns what has been used and let out since the start.
func (r *Run) Effluent() Effluent {
	s := &r.now.sums
	e := Effluent{
		UsedM3: s.usedM3, DryKg: s.leachedKg, CODKg: s.leachedKg * r.setup.Constants.CODPerKg,
		AbsorbM3: (s.absorbedKg + s.sprayedKg) / waterKgM3,
	}
	// A vessel filled with less than the grain drinks is topped up.
	e.UsedM3 = max(e.UsedM3, e.AbsorbM3)
	e.DrainM3 = e.UsedM3 - e.AbsorbM3
	if e.DrainM3 > 0 {
		e.CODKgM3 = e.CODKg / e.DrainM3
	}
	return e
}

// LossKg is the dry matter that has gone in breath and water since the start.
//
// Definition.
func (r *Run) LossKg() (respired, leached float64) {
	return r.now.sums.burned.DryKg, r.now.sums.leachedKg
}
