package barley

// Spot is the word for one column of a bed: the thin, the mean or the thick
// spot; "" of a level bed, and "spot" where there is more than one between.
func Spot(columns []Column, column int) string {
	if len(columns) < 2 || column < 0 || column >= len(columns) {
		return ""
	}
	thin, thick := 0, 0
	for i, c := range columns {
		if c.burden() < columns[thin].burden() {
			thin = i
		}
		if c.burden() > columns[thick].burden() {
			thick = i
		}
	}
	switch {
	case columns[thin].burden() == columns[thick].burden():
		return "spot"
	case column == thin:
		return "thin"
	case column == thick:
		return "thick"
	case len(columns) == 3:
		return "mean"
	}
	return "spot"
}

// burden is what a column sets against the air: its depth times its packing.
func (c Column) burden() float64 { return c.Depth * c.Packing }

// The part of the floor that the thin, the mean and the thick spot take.
//
// Assumed: common practice, no source.
const (
	outerShare = 0.25
	innerShare = 0.5
)

// Uneven is a bed of a thin, a mean and a thick spot: depth is how much the
// outer two are thinner and thicker than the mean, as a share of it, and
// packing what the resistance of the thick one is multiplied by.
func Uneven(depth, packing float64) []Column {
	return []Column{
		{Share: outerShare, Depth: 1 - depth, Packing: 1},
		{Share: innerShare, Depth: 1, Packing: 1},
		{Share: outerShare, Depth: 1 + depth, Packing: packing},
	}
}

// Part is one column of g as a piece of its own, whose slices are parts of
// those of g.
func (g *Grain) Part(column int) *Grain {
	low, high := g.Cell(column, 0), g.Cell(column+1, 0)
	n := len(g.Classes)
	return &Grain{
		Classes: g.Classes, Columns: g.Columns[column : column+1], Layers: g.Layers,
		WaterKg: g.WaterKg[low:high], TempC: g.TempC[low:high], Heat: g.Heat[low:high],
		DryKg: g.DryKg[low*n : high*n], ThermalTimeCH: g.ThermalTimeCH[low*n : high*n], AgeD: g.AgeD[low*n : high*n],
		OffsetDB: g.OffsetDB,
	}
}
