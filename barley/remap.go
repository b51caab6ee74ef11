package barley

import (
	"fmt"

	"awn/unit"
)

// Clone returns a copy that shares nothing with g.
func (g *Grain) Clone() *Grain {
	c := NewGrain(append([]Class(nil), g.Classes...), append([]Column(nil), g.Columns...), g.Layers)
	c.Copy(g)
	return c
}

// Copy sets g, of the same shape, to src, classes and columns included. It
// allocates nothing.
func (g *Grain) Copy(src *Grain) {
	copy(g.Classes, src.Classes)
	copy(g.Columns, src.Columns)
	copy(g.WaterKg, src.WaterKg)
	copy(g.TempC, src.TempC)
	copy(g.Heat, src.Heat)
	copy(g.DryKg, src.DryKg)
	copy(g.ThermalTimeCH, src.ThermalTimeCH)
	copy(g.AgeD, src.AgeD)
	copy(g.OffsetDB, src.OffsetDB)
}

// Remap moves the grain of src into the shape of dst, which keeps its columns
// and layers and must have as many classes. Dry matter of each class, water
// and enthalpy are conserved; thermal time, age and what the kiln did are
// means weighted by dry matter.
//
// Unmixed, each column keeps its grain and its layers are cut anew by depth;
// dst must then have as many columns. Mixed, the whole piece is evened out and
// laid into the columns of dst by MassShares.
func Remap(dst, src *Grain, mix bool) error {
	if len(dst.Classes) != len(src.Classes) {
		return fmt.Errorf("remap: %d kernel classes into %d", len(src.Classes), len(dst.Classes))
	}
	if !mix && len(dst.Columns) != len(src.Columns) {
		return fmt.Errorf("remap: %d columns into %d without mixing", len(src.Columns), len(dst.Columns))
	}
	copy(dst.Classes, src.Classes)
	copy(dst.OffsetDB, src.OffsetDB)
	shares := MassShares(dst.Columns)
	for cell := range dst.Cells() {
		p := newPool(dst, cell)
		if mix {
			share := shares[cell/dst.Layers] / float64(dst.Layers)
			for from := range src.Cells() {
				p.take(src, from, share)
			}
		} else {
			p.takeColumn(src)
		}
		p.settle()
	}
	return nil
}

// pool gathers parts of other cells in one cell of dst. While it gathers, the
// cell's thermal times, ages and Heat hold sums over dry matter.
type pool struct {
	dst       *Grain
	cell      int
	enthalpyJ float64

	dry, hours, ages []float64 // of the cell, per class
}

func newPool(dst *Grain, cell int) *pool {
	p := &pool{dst: dst, cell: cell, dry: dst.Of(dst.DryKg, cell), hours: dst.Of(dst.ThermalTimeCH, cell), ages: dst.Of(dst.AgeD, cell)}
	clear(p.dry)
	clear(p.hours)
	clear(p.ages)
	dst.WaterKg[cell], dst.Heat[cell] = 0, Heat{}
	return p
}

// takeColumn takes what of the same column of src lies at the depth of the cell.
func (p *pool) takeColumn(src *Grain) {
	column, layer := p.cell/p.dst.Layers, p.cell%p.dst.Layers
	perLayer := float64(src.Layers) / float64(p.dst.Layers)
	low, high := float64(layer)*perLayer, float64(layer+1)*perLayer
	for from := range src.Layers {
		overlap := min(high, float64(from+1)) - max(low, float64(from))
		if overlap > 0 {
			p.take(src, src.Cell(column, from), overlap)
		}
	}
}

// take adds a share of one cell of src.
func (p *pool) take(src *Grain, from int, share float64) {
	dry, hours, ages := src.Of(src.DryKg, from), src.Of(src.ThermalTimeCH, from), src.Of(src.AgeD, from)
	total := 0.0
	for i, m := range dry {
		part := share * m
		p.dry[i] += part
		p.hours[i] += part * hours[i]
		p.ages[i] += part * ages[i]
		total += m
	}
	p.dst.WaterKg[p.cell] += share * src.WaterKg[from]
	if total > 0 {
		x := unit.DryBasis(src.WaterKg[from] / total)
		p.enthalpyJ += share * total * GrainEnthalpy(unit.Celsius(src.TempC[from]), x)
	}
	h, s := &p.dst.Heat[p.cell], src.Heat[from]
	weight := share * total
	h.AlphaAmylase += weight * s.AlphaAmylase
	h.BetaAmylase += weight * s.BetaAmylase
	h.EndoGlucanase += weight * s.EndoGlucanase
	h.ExoGlucanase += weight * s.ExoGlucanase
	h.SMM += weight * s.SMM
	h.ColourEBC += weight * s.ColourEBC
}

// settle turns the sums into means and the enthalpy into a temperature.
func (p *pool) settle() {
	total := 0.0
	for i, m := range p.dry {
		total += m
		if m > 0 {
			p.hours[i] /= m
			p.ages[i] /= m
		}
	}
	if total == 0 {
		return
	}
	h := &p.dst.Heat[p.cell]
	for _, x := range []*float64{&h.AlphaAmylase, &h.BetaAmylase, &h.EndoGlucanase, &h.ExoGlucanase, &h.SMM, &h.ColourEBC} {
		*x /= total
	}
	x := unit.DryBasis(p.dst.WaterKg[p.cell] / total)
	p.dst.TempC[p.cell] = float64(TempFromEnthalpy(p.enthalpyJ/total, x))
}
