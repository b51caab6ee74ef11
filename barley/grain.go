package barley

// Class is a kind of kernel within a piece: one sieve fraction crossed with
// one quantile of germination vigour, or the kernels of that fraction that do
// not germinate. Classes ride through every stage by index.
type Class struct {
	Sieve       int     // 0 coarsest to SieveClasses-1
	Vigour      float64 // standard normal deviate of ln(thermal time to chit): negative chits first
	Idle        bool    // dead, dormant, or held back by water sensitivity: respires, does not grow
	Number      float64 // share of all kernels by number at cast-in; all classes sum to 1
	KernelDryMg float64 // mean dry matter of one kernel at cast-in
}

// Column is one spot of an uneven bed: a share of the floor with its own depth
// and packing. A single column of factors 1 is a perfectly level bed.
type Column struct {
	Share   float64 // of the floor; all columns sum to 1
	Depth   float64 // times the mean depth
	Packing float64 // times the bed's resistance to air
}

// Heat is what the kiln did to a cell: how much of each enzyme and of the
// dimethyl sulphide precursor is left, as fractions of green malt, and the
// colour it added to that of green malt.
type Heat struct {
	AlphaAmylase  float64
	BetaAmylase   float64
	EndoGlucanase float64
	ExoGlucanase  float64
	SMM           float64
	ColourEBC     float64
}

// Green is the Heat of malt that has not been kilned.
func Green() Heat {
	return Heat{AlphaAmylase: 1, BetaAmylase: 1, EndoGlucanase: 1, ExoGlucanase: 1, SMM: 1}
}

// Grain is the state of a piece as one stage hands it to the next and as
// readings can set it. It holds no solver variables.
//
// A cell is one layer of one column; layer 0 lies on the floor, where the air
// of a kiln or germination vessel enters. Slices over cells have
// len(Columns)*Layers entries, indexed by Cell; slices over cells and classes
// have len(Classes) entries for each cell, cell by cell. Masses are of the
// whole piece, so they sum to what a weighbridge would show.
type Grain struct {
	Classes []Class
	Columns []Column
	Layers  int

	WaterKg []float64 // per cell, surface film included
	TempC   []float64 // per cell
	Heat    []Heat    // per cell

	DryKg         []float64 // per cell and class
	ThermalTimeCH []float64 // per cell and class: the chit clock, °C·h
	AgeD          []float64 // per cell and class: growth age, days at 16 °C and 45 %

	// OffsetDB is what a class holds above the mean of its cell, kg water per
	// kg dry matter. Small kernels leave the steep wetter and stay so.
	OffsetDB []float64 // per class
}

// NewGrain returns a piece of the given shape with nothing in it.
func NewGrain(classes []Class, columns []Column, layers int) *Grain {
	cells := len(columns) * layers
	return &Grain{
		Classes: classes, Columns: columns, Layers: layers,
		WaterKg: make([]float64, cells), TempC: make([]float64, cells), Heat: make([]Heat, cells),
		DryKg:         make([]float64, cells*len(classes)),
		ThermalTimeCH: make([]float64, cells*len(classes)),
		AgeD:          make([]float64, cells*len(classes)),
		OffsetDB:      make([]float64, len(classes)),
	}
}

// Cells is the number of cells.
func (g *Grain) Cells() int { return len(g.Columns) * g.Layers }

// Cell is the index of a layer of a column.
func (g *Grain) Cell(column, layer int) int { return column*g.Layers + layer }

// Of returns the part of a slice over cells and classes that belongs to one cell.
func (g *Grain) Of(perClass []float64, cell int) []float64 {
	n := len(g.Classes)
	return perClass[cell*n : cell*n+n : cell*n+n]
}

// CellDryKg is the dry matter of one cell.
//
// Definition.
func (g *Grain) CellDryKg(cell int) float64 {
	sum := 0.0
	for _, m := range g.Of(g.DryKg, cell) {
		sum += m
	}
	return sum
}

// CellMoistureDB is the moisture of one cell in kg per kg dry matter.
//
// Definition.
func (g *Grain) CellMoistureDB(cell int) float64 { return g.WaterKg[cell] / g.CellDryKg(cell) }

// TotalDryKg is the dry matter of the piece.
//
// Definition.
func (g *Grain) TotalDryKg() float64 {
	sum := 0.0
	for _, m := range g.DryKg {
		sum += m
	}
	return sum
}

// TotalWaterKg is the water of the piece, surface film included.
//
// Definition.
func (g *Grain) TotalWaterKg() float64 {
	sum := 0.0
	for _, m := range g.WaterKg {
		sum += m
	}
	return sum
}

// Good is something that a balance counts.
type Good int

// The five goods of a malthouse balance. Heat is in J, the others in kg.
const (
	Dry Good = iota
	Water
	Oxygen
	CarbonDioxide
	HeatJ
)

// Line is one line of a balance: what came into the grain (positive) or left
// it (negative) under one name.
type Line struct {
	Good   Good
	Code   string // e.g. "steep.leached", "kiln.evaporated"
	Amount float64
}
