package kiln

import (
	"math"

	"awn/barley"
	"awn/bed"
	"awn/unit"
)

// carve cuts the slices of all columns out of one store, so that a copy of the
// store is a copy of the state.
func (r *Run) carve() {
	s, layers, classes := r.setup, r.setup.Layers, len(r.shape.Classes)
	n := len(s.Columns)
	r.store = make([]float64, n*layers*(12+cureItems+3*classes))
	rest := r.store
	cut := func(length int) []float64 {
		part := rest[:length:length]
		rest = rest[length:]
		return part
	}
	r.columns = make([]column, n)
	for i := range r.columns {
		c := &r.columns[i]
		c.share = s.Columns[i].Share
		c.areaM2 = c.share * s.Kiln.AreaM2
		for _, p := range []*[]float64{&c.dry, &c.perDry, &c.water, &c.heat, &c.tempC, &c.peakC,
			&c.waterRate, &c.heatRate, &c.waterTurn, &c.heatTurn, &c.growWater, &c.growHeat} {
			*p = cut(layers)
		}
		c.sides, c.answers = make([]grainSide, layers), make([]answer, layers)
		c.cure = cut(layers * cureItems)
		c.dryKg, c.thermalTime, c.ageD = cut(layers*classes), cut(layers*classes), cut(layers*classes)
	}
	r.spots, r.share = make([]bed.Spot, n), make([]float64, n)
	r.offs, r.ends = make([]stream, n), make([]stream, n)
	r.watches = make([]watch, n+1)
}

// load puts grain of the run's shape into the columns.
func (r *Run) load(g *barley.Grain) {
	for n := range r.columns {
		c := &r.columns[n]
		total := 0.0
		for i := range c.dry {
			cell := g.Cell(n, i)
			c.dry[i] = g.CellDryKg(cell) / c.areaM2
			c.perDry[i] = 1 / c.dry[i]
			c.water[i] = g.WaterKg[cell] / c.areaM2
			c.heat[i] = c.dry[i] * barley.GrainEnthalpy(unit.Celsius(g.TempC[cell]), unit.DryBasis(c.water[i]*c.perDry[i]))
			c.peakC[i] = math.Inf(-1)
			copy(c.of(c.dryKg, i), g.Of(g.DryKg, cell))
			copy(c.of(c.thermalTime, i), g.Of(g.ThermalTimeCH, cell))
			copy(c.of(c.ageD, i), g.Of(g.AgeD, cell))
			total += c.dry[i]
		}
		depth := total / r.setup.Bed.GreenDryKgM3
		c.layerM = depth / float64(len(c.dry))
		r.spots[n] = bed.Spot{Share: c.share, DepthM: depth, Factor: r.setup.Bed.Resistance * r.setup.Columns[n].Packing * r.setup.Series}
	}
}

// Grain sets dst, of the run's shape, to the grain as it is now.
func (r *Run) Grain(dst *barley.Grain) {
	copy(dst.OffsetDB, r.shape.OffsetDB)
	for n := range r.columns {
		c := &r.columns[n]
		for i := range c.dry {
			cell := dst.Cell(n, i)
			dst.WaterKg[cell] = c.water[i] * c.areaM2
			dst.TempC[cell] = float64(barley.TempFromEnthalpy(c.heat[i]/c.dry[i], unit.DryBasis(c.water[i]/c.dry[i])))
			dst.Heat[cell] = cured(r.green[cell], c.cure[i*cureItems:])
			copy(dst.Of(dst.DryKg, cell), c.of(c.dryKg, i))
			copy(dst.Of(dst.ThermalTimeCH, cell), c.of(c.thermalTime, i))
			copy(dst.Of(dst.AgeD, cell), c.of(c.ageD, i))
		}
	}
}

// Bed sets the moistures, wet basis, and temperatures of the layers of a column.
func (r *Run) Bed(column int, moistureWB, tempC []float64) {
	c := &r.columns[column]
	for i := range moistureWB {
		moistureWB[i] = c.moistureWB(i)
	}
	copy(tempC, c.tempC)
}

// Shape returns an empty grain of the run's shape, for Grain to fill.
func (r *Run) Shape() *barley.Grain {
	return barley.NewGrain(r.shape.Classes, r.shape.Columns, r.shape.Layers)
}

// Clone returns a run that goes on by itself from here.
func (r *Run) Clone() *Run {
	c := *r
	c.carve()
	for n := range c.columns {
		c.columns[n].layerM = r.columns[n].layerM
	}
	copy(c.spots, r.spots)
	c.Reset(r)
	return &c
}

// Reset sets r, a clone of from or its original, to the state of from. It
// allocates nothing.
func (r *Run) Reset(from *Run) {
	r.moment = from.moment
	copy(r.store, from.store)
	copy(r.share, from.share)
	copy(r.offs, from.offs)
	copy(r.ends, from.ends)
	copy(r.watches, from.watches)
}

// totalDryKg is the dry matter of the piece.
func (r *Run) totalDryKg() float64 {
	sum := 0.0
	for n := range r.columns {
		for _, d := range r.columns[n].dry {
			sum += d * r.columns[n].areaM2
		}
	}
	return sum
}
