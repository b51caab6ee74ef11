package steep

import (
	"fmt"
	"slices"

	"awn/air"
	"awn/barley"
	"awn/kernel"
	"awn/programme"
	"awn/unit"
)

// Run is one piece in the steep. Nothing is allocated after Start, and a Clone
// goes on exactly as its original.
type Run struct {
	setup     *Setup // never changed after Start
	fractions []fraction
	columns   []barley.Column
	shareOf   []float64 // the piece, in each column
	outsideW  float64
	startDB   float64

	chits *kernel.Chits
	grain *barley.Grain // one cell: the classes with their numbers, dry matter, thermal time, age
	now   state
}

// state is everything else that changes, copied as a whole.
type state struct {
	atH         float64
	step        programme.SteepStep
	beganH      float64
	airC        float64
	stepWaterC  float64
	aerationM3H float64 // per tonne, as the vessel allows
	suctionM3H  float64 // of the vessel, as it allows

	level       float64 // share of the grain under water
	waterC      float64 // of the water in the vessel
	dissolvedKg float64 // oxygen in that water
	gas         gas     // between the drained kernels

	soak   [barley.SieveClasses]kernel.Uptake
	capDB  float64                      // within the skin, kg per kg dry matter
	filmKg float64                      // on the drained grain; that on the immersed is full
	partKg [barley.SieveClasses]float64 // dry matter of each sieve fraction
	dryKg  float64
	bulkM3 float64 // the swollen grain as it lies
	tempC  float64

	immersedH float64 // mean time under water in this immersion
	longestH  float64 // of all immersions
	leached   float64 // share of the dry matter
	held      float64 // share of the growing kernels held back by the water
	burnKgH   float64 // dry matter gone in the last step
	sums      sums
	watch     watch
}

// capFromDB is the moisture above which grain that comes to the steep is taken
// to have had its cap; drier grain has not.
const capFromDB = 0.30

// Start puts a piece into a vessel. Its columns and layers are mixed, as
// casting does; classes of a sieve fraction must stand together, the idle
// kernels of each in one class.
func Start(s Setup, from *barley.Grain) (*Run, error) {
	if err := s.check(from); err != nil {
		return nil, err
	}
	level := []barley.Column{{Share: 1, Depth: 1, Packing: 1}}
	g := barley.NewGrain(slices.Clone(from.Classes), level, 1)
	if err := barley.Remap(g, from, true); err != nil {
		return nil, fmt.Errorf("steep: %w", err)
	}
	parts, err := fractions(&s, g.Classes)
	if err != nil {
		return nil, err
	}
	r := &Run{
		setup: &s, fractions: parts, grain: g,
		columns: slices.Clone(from.Columns), shareOf: barley.MassShares(from.Columns),
		outsideW: float64(air.HumidityRatio(unit.Celsius(s.AirC), unit.RelativeHumidity(s.AirRH), s.PressurePa)),
		startDB:  g.CellMoistureDB(0),
		chits:    kernel.NewChits(s.Kernel, s.ChitCH),
	}
	if err := r.load(); err != nil {
		return nil, err
	}
	return r, nil
}

// load fills the state from the grain.
func (r *Run) load() error {
	g, n := r.grain, &r.now
	n.tempC, n.airC, n.waterC = g.TempC[0], r.setup.AirC, r.setup.WaterC
	if r.startDB > capFromDB {
		n.capDB = min(r.setup.Kernel.CapDB, r.startDB)
	}
	for i, f := range r.fractions {
		x := r.startDB + g.OffsetDB[f.lo]
		asIsMg := g.Classes[f.lo].KernelDryMg * (1 + r.startDB)
		n.soak[i] = kernel.NewUptake(asIsMg, x-n.capDB, r.setup.Uptake)
		if !(asIsMg >= 5 && asIsMg <= 100 && x >= n.capDB) {
			return fmt.Errorf("steep: kernels of %g mg holding %g kg per kg dry matter", asIsMg, x)
		}
	}
	r.weigh()
	n.gas = r.fresh(r.voidM3())
	n.sums.voids = n.gas
	n.watch = watch{leastOxygen: 1, coldestC: n.tempC}
	if !isNumber(n.tempC) || !isNumber(n.bulkM3) {
		return fmt.Errorf("steep: grain of %g °C and %g kg of water per kg dry matter", n.tempC, r.startDB)
	}
	return nil
}

// Clone returns a run that goes on from here by itself.
func (r *Run) Clone() *Run {
	out := *r
	out.grain = r.grain.Clone()
	return &out
}

// Reset sets the run to the state of another of the same piece.
func (r *Run) Reset(from *Run) {
	r.grain.Copy(from.grain)
	r.now = from.now
}

// Grain sets dst to the piece as it is now: one layer in each column of the
// grain that was cast, the film counted as its water. dst needs Classes of its
// own, as the number that grow changes.
func (r *Run) Grain(dst *barley.Grain) {
	n := &r.now
	copy(dst.Classes, r.grain.Classes)
	waterKg := r.waterKg()
	mean := waterKg / n.dryKg
	for i, f := range r.fractions {
		x := r.kernelDB(i) + r.filmKg()/n.dryKg
		for class := f.lo; class < f.hi; class++ {
			dst.OffsetDB[class] = x - mean
		}
	}
	for cell, share := range r.shareOf {
		dst.WaterKg[cell] = share * waterKg
		dst.TempC[cell] = n.tempC
		dst.Heat[cell] = r.grain.Heat[0]
		dry, hours, age := dst.Of(dst.DryKg, cell), dst.Of(dst.ThermalTimeCH, cell), dst.Of(dst.AgeD, cell)
		for class, m := range r.grain.DryKg {
			dry[class] = share * m
		}
		copy(hours, r.grain.ThermalTimeCH)
		copy(age, r.grain.AgeD)
	}
}

// Bed sets the moistures, wet basis, film included, and temperatures of the
// layers of a column; the piece is the same throughout.
func (r *Run) Bed(_ int, moistureWB, tempC []float64) {
	water := r.waterKg()
	for i := range moistureWB {
		moistureWB[i], tempC[i] = water/(water+r.now.dryKg), r.now.tempC
	}
}

// Shape returns a grain of the shape that Grain fills, with nothing in it yet.
func (r *Run) Shape() *barley.Grain {
	return barley.NewGrain(slices.Clone(r.grain.Classes), slices.Clone(r.columns), 1)
}

// kernelWaterKg is the water within the kernels.
func (r *Run) kernelWaterKg() float64 {
	sum := 0.0
	for i := range r.fractions {
		sum += r.now.partKg[i] * r.kernelDB(i)
	}
	return sum
}

// kernelDB is the bulk moisture of a sieve fraction.
func (r *Run) kernelDB(i int) float64 { return r.now.soak[i].MeanDB() + r.now.capDB }

// filmKg is the water on the kernels, drained and immersed.
func (r *Run) filmKg() float64 {
	return r.now.filmKg + r.now.level*r.setup.Kernel.FilmDB*r.now.dryKg
}

// waterKg is all the water that goes with the grain.
func (r *Run) waterKg() float64 { return r.kernelWaterKg() + r.filmKg() }

// weigh sums the dry matter of the fractions and tells their swelling.
func (r *Run) weigh() {
	n := &r.now
	n.dryKg = 0
	for i, f := range r.fractions {
		n.partKg[i] = 0
		for _, m := range r.grain.DryKg[f.lo:f.hi] {
			n.partKg[i] += m
		}
		n.dryKg += n.partKg[i]
	}
	start := min(r.startDB, swollenFromDB)
	x := min(max(r.kernelWaterKg()/n.dryKg, start), 1)
	n.bulkM3 = r.setup.CastT * r.setup.Barley.SteepedVolume(unit.DryBasis(start), unit.DryBasis(x))
}

// swollenFromDB is the wettest barley whose swelling is told; wetter grain
// that comes to the steep has swollen already.
const swollenFromDB = 0.29

// fullM3 is the water of one filling.
func (r *Run) fullM3() float64 { return r.setup.Vessel.WaterM3T * r.setup.CastT }
