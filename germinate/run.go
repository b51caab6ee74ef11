package germinate

import (
	"fmt"
	"slices"

	"awn/air"
	"awn/barley"
	"awn/bed"
	"awn/kernel"
	"awn/programme"
	"awn/unit"
)

// Run is one piece in germination. Nothing is allocated after Start, and a
// Clone goes on exactly as its original.
type Run struct {
	setup *Setup // never changed after Start
	clock *kernel.Clock
	chits *kernel.Chits

	grain *barley.Grain // classes: dry matter, thermal time, age
	cells []cell
	spots []bed.Spot // columns as the air meets them
	airMS []float64  // velocity in each column
	acro  []float64  // numbers of corns by length of acrospire

	now state
}

// cell is one layer of one column. Dry matter, water and heat are carried;
// temperature follows from them.
type cell struct {
	dryKg, waterKg, heatJ float64
	tempC                 float64
	slopeJKgK             float64 // heat per K and kg of dry matter, of it and its water
	voidKg                float64 // dry air between the corns
	oxygen, dioxide       float64 // kg per kg of that air
	asksKgH               float64 // oxygen that life would take with plenty of it
	dead                  bool    // has been too hot to live
	breathlessH           float64 // hours without oxygen so far
	vigour                float64 // what they have left of the pace of life

	warmth  kernel.Warmth // at warmthC, not far from tempC
	warmthC float64
}

// state is everything else that changes, copied as a whole.
type state struct {
	atH    float64
	step   programme.GerminateStep
	turnH  float64 // of the next turn; +Inf if none
	turnsN float64 // turns that the step's spray is shared among; 0: it runs all the time

	airKgS    float64 // dry air through the bed with the fan on
	askedKgS  float64
	fanJKg    float64
	fanW      float64
	outside   air.State
	plenum    plenum
	back      air.State // air off the bed
	roomO2    float64   // kg per kg dry air, above the bed
	roomCO2   float64
	roseO2    float64 // what the bed added on the last pass
	roseCO2   float64
	burnKgH   float64 // dry matter gone in the last step
	moving    bool    // fan on in the last step
	stopped   bool    // the fan has stopped at some time
	stoppedH  float64 // when it last did
	turnedH   float64 // of the last turn
	startWB   float64
	fullFlow  float64          // of the step, of which a held flow has shares
	readings  programme.Values // that held settings follow
	sums      sums
	watch     watch
	utilities Utilities
}

// Start puts grain into a vessel.
func Start(s Setup, from *barley.Grain) (*Run, error) {
	if err := s.check(from); err != nil {
		return nil, err
	}
	if s.Columns == nil {
		s.Columns = from.Columns
	}
	g := barley.NewGrain(slices.Clone(from.Classes), slices.Clone(s.Columns), s.Layers)
	if err := barley.Remap(g, from, s.Mix); err != nil {
		return nil, fmt.Errorf("germinate: %w", err)
	}
	r := &Run{
		setup: &s,
		clock: kernel.NewClock(s.Kernel, g.Classes, g.OffsetDB, s.ChitCH),
		chits: kernel.NewChits(s.Kernel, s.ChitCH),
		grain: g,
		cells: make([]cell, g.Cells()),
		spots: make([]bed.Spot, len(g.Columns)),
		airMS: make([]float64, len(g.Columns)),
		acro:  make([]float64, acrospireBins+1),
	}
	r.load()
	return r, nil
}

// load fills the cells from the grain and the scalars with what holds before
// the first step.
func (r *Run) load() {
	g := r.grain
	for i := range r.cells {
		dry := g.CellDryKg(i)
		x := unit.DryBasis(g.WaterKg[i] / dry)
		r.cells[i] = cell{
			dryKg: dry, waterKg: g.WaterKg[i], tempC: g.TempC[i], slopeJKgK: barley.EnthalpySlope(x),
			heatJ:  dry * barley.GrainEnthalpy(unit.Celsius(g.TempC[i]), x),
			voidKg: dry / r.setup.Bed.GreenDryKgM3 * r.setup.Constants.VoidShare * airKgM3,
			oxygen: freshOxygen, dioxide: freshDioxide,
			dead: g.TempC[i] >= kernel.KillC, vigour: 1, warmth: r.clock.Warmth(g.TempC[i]), warmthC: g.TempC[i],
		}
		r.ask(i)
	}
	mean, _, _ := r.temps()
	r.now = state{
		turnH: never, roomO2: freshOxygen, roomCO2: freshDioxide,
		back:    air.State{TempC: unit.Celsius(mean), PressurePa: r.setup.PressurePa},
		startWB: r.moisture(),
	}
	r.now.back.W = air.SaturationRatio(r.now.back.TempC, r.setup.PressurePa)
	r.now.plenum.on = r.now.back
}

// ask sets what oxygen a cell would take with plenty of it.
func (r *Run) ask(i int) {
	c := &r.cells[i]
	c.asksKgH = c.vigour * r.cast() * kernel.OxygenPerKg * r.clock.Demand(c.tempC, c.waterKg/(c.dryKg+c.waterKg),
		r.grain.Of(r.grain.DryKg, i), r.grain.Of(r.grain.ThermalTimeCH, i), r.grain.Of(r.grain.AgeD, i))
}

// Clone returns a run that goes on from here by itself.
func (r *Run) Clone() *Run {
	out := *r
	out.grain = r.grain.Clone()
	out.cells = slices.Clone(r.cells)
	out.spots = slices.Clone(r.spots)
	out.airMS = slices.Clone(r.airMS)
	out.acro = slices.Clone(r.acro)
	return &out
}

// Reset sets the run to the state of another of the same piece.
func (r *Run) Reset(from *Run) {
	copy(r.grain.DryKg, from.grain.DryKg)
	copy(r.grain.ThermalTimeCH, from.grain.ThermalTimeCH)
	copy(r.grain.AgeD, from.grain.AgeD)
	copy(r.cells, from.cells)
	copy(r.spots, from.spots)
	copy(r.airMS, from.airMS)
	r.now = from.now
}

// Grain writes the piece as it stands into dst, which has the run's own shape.
func (r *Run) Grain(dst *barley.Grain) {
	for i, c := range r.cells {
		r.grain.WaterKg[i] = c.waterKg
		r.grain.TempC[i] = c.tempC
	}
	dst.Copy(r.grain)
}

// Bed sets the moistures, wet basis, and temperatures of the layers of a column.
func (r *Run) Bed(column int, moistureWB, tempC []float64) {
	for i := range moistureWB {
		c := &r.cells[r.grain.Cell(column, i)]
		moistureWB[i], tempC[i] = c.waterKg/(c.dryKg+c.waterKg), c.tempC
	}
}

// Shape returns an empty grain of the run's own shape, for Grain.
func (r *Run) Shape() *barley.Grain { return r.grain.Clone() }
