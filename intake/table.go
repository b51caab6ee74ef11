package intake

import (
	"math"
	"slices"

	"awn/finding"
	"awn/odds"
	"awn/unit"
)

// In is the unit in which a column of a table is printed.
type In int

// The units.
const (
	PerCent  In = iota // of a share
	LbPerBu            // test weight, Winchester bushel
	KgPerHL            // test weight
	Plain              // a count, or yes as 1 and no as 0
	MgPerKg            // of kg/kg
	MicroG             // µg/kg, of kg/kg
	Seconds            // falling number
	RvaUnits           // viscosity
)

// printed is a figure of the package in the unit of a column.
func (u In) printed(x float64) float64 {
	switch u {
	case PerCent:
		return 100 * x
	case LbPerBu:
		lb, err := unit.TestWeight.In(10*x, "lb/bu")
		if err != nil {
			return math.NaN()
		}
		return lb
	case MgPerKg:
		return 1e6 * x
	case MicroG:
		return 1e9 * x
	}
	return x
}

// endings are what the names of figures in a unit end in.
var endings = map[In]string{
	PerCent: "tenths", LbPerBu: "kg_hl", KgPerHL: "kg_hl", Plain: "n", MgPerKg: "ug_kg", MicroG: "ug_kg", Seconds: "s", RvaUnits: "rvu",
}

// Figure is a printed figure under a name that ends in its unit.
func (u In) Figure(name string, printed float64) finding.Figure {
	x := printed
	switch u {
	case PerCent, LbPerBu:
		x = u.inside(printed)
	case MgPerKg:
		x = 1000 * printed
	}
	return finding.Figure{Name: name + "_" + endings[u], Value: x}
}

// inside is a printed figure in the unit of the package.
func (u In) inside(x float64) float64 { return x / u.printed(1) }

// Column is one factor of a grade table as it is printed.
type Column struct {
	Key
	Least    bool // limits are minima
	In       In
	Decimals int // to which a reading is rounded before it is compared; -1 leaves it
}

// Rung is one grade: its limits by column, NaN where it has none.
type Rung struct {
	Name   string
	Limits []float64 // in the columns' units
}

// Limit is one limit of a table in its printed form.
type Limit struct {
	Column
	At float64
}

// Table is a grade schedule as published.
type Table struct {
	Key      string // as in documents
	Name     string
	Edition  string
	From, To Day // in force; "" open
	Rows     int // 2 or 6 if it is for one kind only

	Columns []Column
	Entry   []Limit // what a load must meet to be graded here at all
	Rungs   []Rung  // best first
	Below   *Table  // the class under which a load is graded that fits no rung
	Last    string  // the grade of what fits no rung of a table without Below

	Special []Special // words added to a grade
	Whole   bool      // every factor of the published schedule is here
	Source  string    // key in SOURCES.md
	Mark    odds.Standing
}

// Special is a word added to a grade when a limit is passed.
type Special struct {
	Word  string
	Limit Limit
}

// tables are those built in, newest edition of each first.
var tables = slices.Concat(usTables(), canadaTables(), euTables())

// FindTable returns the table of that key that was in force on a day; on no
// day ("") the newest.
func FindTable(key string, on Day) (*Table, bool) {
	for _, t := range tables {
		if t.Key == key && (on == "" || t.From <= on && (t.To == "" || on <= t.To)) {
			return t, true
		}
	}
	return nil, false
}

// limits of rung i, those of entry included.
func (t *Table) limits(i int) []Limit {
	out := slices.Clone(t.Entry)
	for j, at := range t.Rungs[i].Limits {
		if !math.IsNaN(at) {
			out = append(out, Limit{t.Columns[j], at})
		}
	}
	return out
}
