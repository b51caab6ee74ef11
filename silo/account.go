package silo

import (
	"math"
	"slices"

	"awn/barley"
	"awn/kernel"
	"awn/unit"
)

// inventory is what lies in the silo, per m² of floor, with the heat worked
// out from temperature and moisture alone.
type inventory struct{ dryKg, waterKg, heatJ float64 }

func (r *Run) inventory() (v inventory) {
	for i := range r.layers {
		l := &r.layers[i]
		v.dryKg += l.dryKg
		v.waterKg += l.waterKg
		v.heatJ += l.dryKg * barley.GrainEnthalpy(unit.Celsius(l.tempC), unit.DryBasis(l.moistureDB))
	}
	return v
}

// lines are what passed the bounds of the grain, per m² of floor.
type lines struct{ burntKg, airWaterKg, airJ, wallsJ, topJ float64 }

// Balance is what came into the grain and left it, for the whole silo.
func (r *Run) Balance() []barley.Line {
	a, l := r.setup.areaM2(), r.lines
	return append([]barley.Line(nil),
		barley.Line{Good: barley.Dry, Code: "silo.respired", Amount: -a * l.burntKg},
		barley.Line{Good: barley.Water, Code: "silo.metabolic", Amount: a * l.burntKg * kernel.WaterPerKg},
		barley.Line{Good: barley.Water, Code: "silo.aired", Amount: a * l.airWaterKg},
		barley.Line{Good: barley.CarbonDioxide, Code: "silo.breath", Amount: -a * l.burntKg * kernel.DioxidePerKg},
		barley.Line{Good: barley.HeatJ, Code: "silo.combustion", Amount: a * l.burntKg * kernel.CombustionJKg},
		barley.Line{Good: barley.HeatJ, Code: "silo.air", Amount: a * l.airJ},
		barley.Line{Good: barley.HeatJ, Code: "silo.walls", Amount: a * l.wallsJ},
		barley.Line{Good: barley.HeatJ, Code: "silo.top", Amount: a * l.topJ},
	)
}

// Closing is by what share of the goods at the start each account fails to
// close: inventory at the end against that at the start and the lines. Heat is
// held against all that moved.
//
//	(end - start - Σ lines)/start
//
// Definition.
func (r *Run) Closing() (dry, water, heat float64) {
	end, l := r.inventory(), r.lines
	dry = (end.dryKg - r.start.dryKg + l.burntKg) / r.start.dryKg
	water = (end.waterKg - r.start.waterKg - l.burntKg*kernel.WaterPerKg - l.airWaterKg) / r.start.waterKg
	moved := math.Abs(l.airJ) + math.Abs(l.wallsJ) + math.Abs(l.topJ) + l.burntKg*kernel.CombustionJKg
	heat = (end.heatJ - r.start.heatJ - l.burntKg*kernel.CombustionJKg - l.airJ - l.wallsJ - l.topJ) / max(moved, 1)
	return dry, water, heat
}

// Layers is the silo layer by layer, from the floor. A temperature beyond what is
// known of grain is NaN.
func (r *Run) Layers() []LayerState {
	out := make([]LayerState, len(r.layers))
	for i := range r.layers {
		l := &r.layers[i]
		tempC := l.tempC
		if tempC > mostGrainC {
			tempC = math.NaN()
		}
		out[i] = LayerState{tempC, l.wetBasis(), l.used, l.probits, l.burnt / (l.dryKg + l.burnt)}
	}
	return out
}

// Days is the end of each whole day so far.
func (r *Run) Days() []Day { return slices.Clone(r.days) }

// Windows is when the fan ran.
func (r *Run) Windows() []Window { return slices.Clone(r.windows) }

// FanHours is for how long the fan ran.
func (r *Run) FanHours() int { return r.fanH }

// BeyondLayerHours counts the layers and hours that were wetter or warmer than
// the laws of life were found for: what is said of their life is too good.
func (r *Run) BeyondLayerHours() int { return r.beyondH }

// FanKWhT is the power that the fan took, kWh per tonne of grain as filled.
//
//	Σ ΔP V/(η m)
//
// Definition.
func (r *Run) FanKWhT() float64 {
	return r.fanWh / 1000 / (r.setup.BulkKgM3 * r.setup.DepthM / 1000)
}

// FlowM3HT is what the fan blows, m³ per hour and tonne of grain as filled.
//
//	3600 v/(ρ L/1000)
//
// Definition.
func (r *Run) FlowM3HT() float64 {
	return r.velocityMS * 3600 / (r.setup.BulkKgM3 * r.setup.DepthM / 1000)
}
