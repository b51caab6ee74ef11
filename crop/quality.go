package crop

import (
	"math"
	"slices"

	"awn/finding"
	"awn/intake"
	"awn/lab"
	"awn/unit"
)

// Quality is something measured in every sample, as the intake knows it.
type Quality struct {
	intake.Key
	Column string // its header in the table
	AsIs   bool   // protein was given of the grain as it stands

	inside float64 // what one of the column's unit is
}

// form is how a quality may stand in a table.
type form struct {
	names  []string
	key    intake.Key
	units  map[string]float64 // what one of the unit is inside; "" is what is taken where none stands
	most   float64            // inside; the least is 0
	likely [2]float64         // inside: beyond it a figure is remarked on
	below  bool               // may be given as below what the method sees
	ends   string             // what names of its figures end in
}

// The slots that plump and thin are taken to mean where the header names none.
const (
	plumpSlotM = 0.0025
	thinSlotM  = 0.0022
)

var (
	perCent  = map[string]float64{"": 0.01, "%": 0.01}
	hundred  = 1.0
	perMass  = map[string]float64{"": 1e-6, "mg/kg": 1e-6, "ppm": 1e-6, "µg/kg": 1e-9, "ug/kg": 1e-9, "ppb": 1e-9}
	proteins = map[string]float64{"": 0.01, "%": 0.01, "% dm": 0.01, "% db": 0.01, "% asis": 0.01, "% as is": 0.01}
)

// forms are the qualities that are known, in the order of a sheet. Likely ranges
// are common practice, no source.
var forms = []form{
	{names: []string{"moisture", "mc", "water"}, key: intake.Of(intake.Moisture), units: map[string]float64{"": 0.01, "%": 0.01, "% wb": 0.01}, most: 0.5, likely: [2]float64{0.08, 0.25}, ends: "wb"},
	{names: []string{"protein"}, key: intake.Of(intake.Protein), units: proteins, most: 0.3, likely: [2]float64{0.06, 0.18}, ends: "dm"},
	{names: []string{"nitrogen"}, key: intake.Of(intake.Protein), units: scaled(proteins, lab.ProteinPerNitrogen), most: 0.3, likely: [2]float64{0.06, 0.18}, ends: "dm"},
	{names: []string{"plump", "held", "retained"}, key: intake.Key{Factor: intake.Held, SlotM: plumpSlotM}, units: perCent, most: hundred, likely: [2]float64{0.3, 1}, ends: "tenths"},
	{names: []string{"thin", "screenings", "through"}, key: intake.Key{Factor: intake.Through, SlotM: thinSlotM}, units: perCent, most: hundred, likely: [2]float64{0, 0.3}, ends: "tenths"},
	{names: []string{"test_weight", "hectolitre_weight", "bushel_weight", "tw"}, key: intake.Of(intake.TestWeight), units: map[string]float64{"": 1, "kg/hl": 1, "lb/bu": 1 / poundsPerBushel(1)}, most: 100, likely: [2]float64{50, 78}, ends: "kg_hl"},
	{names: []string{"germination", "germination_4ml", "energy", "ge"}, key: intake.Of(intake.Energy), units: perCent, most: hundred, likely: [2]float64{0.5, 1}, ends: "tenths"},
	{names: []string{"germination_8ml"}, key: intake.Of(intake.Energy8), units: perCent, most: hundred, likely: [2]float64{0.2, 1}, ends: "tenths"},
	{names: []string{"capacity", "gc"}, key: intake.Of(intake.Capacity), units: perCent, most: hundred, likely: [2]float64{0.7, 1}, ends: "tenths"},
	{names: []string{"sprouted", "sprout"}, key: intake.Of(intake.Sprouted), units: perCent, most: hundred, likely: [2]float64{0, 0.3}, ends: "tenths"},
	{names: []string{"falling_number"}, key: intake.Of(intake.FallingNumber), units: map[string]float64{"": 1, "s": 1}, most: 1000, likely: [2]float64{60, 500}, ends: "s"},
	{names: []string{"stirring_number", "stirring", "rva"}, key: intake.Of(intake.Viscosity), units: map[string]float64{"": 1, "rvu": 1}, most: 500, likely: [2]float64{10, 300}, ends: "rvu"},
	{names: []string{"skinned"}, key: intake.Of(intake.Skinned), units: perCent, most: hundred, likely: [2]float64{0, 0.3}, ends: "tenths"},
	{names: []string{"don"}, key: intake.Of(intake.DON), units: perMass, most: 1e-3, likely: [2]float64{0, 2e-5}, below: true, ends: "ug_kg"},
}

// poundsPerBushel is a test weight in pounds a Winchester bushel.
func poundsPerBushel(kgHL float64) float64 {
	lb, err := unit.TestWeight.In(10*kgHL, "lb/bu")
	if err != nil {
		return math.NaN()
	}
	return lb
}

func scaled(units map[string]float64, by float64) map[string]float64 {
	out := map[string]float64{}
	for unit, x := range units {
		out[unit] = by * x
	}
	return out
}

// formOf finds a form by the name of a column.
func formOf(name string) (form, bool) {
	i := slices.IndexFunc(forms, func(f form) bool { return slices.Contains(f.names, name) })
	if i < 0 {
		return form{}, false
	}
	return forms[i], true
}

// form is how the quality may stand in a table.
func (q Quality) form() form {
	i := slices.IndexFunc(forms, func(f form) bool { return f.key.Factor == q.Factor })
	return forms[i]
}

// Below reports whether readings of it may lie below what the method sees, so
// that a plain mean of them says little.
func (q Quality) Below() bool { return q.form().below }

// Quality is the place of a quality; -1 where the survey does not have it.
func (s *Survey) Quality(k intake.Key) int {
	return slices.IndexFunc(s.Qualities, func(q Quality) bool { return q.Factor == k.Factor && sameSlot(q.SlotM, k.SlotM) })
}

// sameSlot reports whether two slots are one: printed widths are rounded.
func sameSlot(a, b float64) bool { return math.Abs(a-b) < slotSlackM }

const slotSlackM = 2e-6

// Name is what figures of the quality are called, ending in their unit, and In a
// figure in that unit.
func (q Quality) Name() string { return string(q.Factor) + "_" + q.form().ends }

// In is a figure in the unit that Name ends in.
//
// Definition.
func (q Quality) In(x float64) float64 {
	if q.Factor == intake.DON {
		return x * microgramsPerKg
	}
	return x
}

const microgramsPerKg = 1e9

// figure is a figure of the quality under a name that ends in its unit.
func (q Quality) figure(name string, x float64) finding.Figure {
	return figure(name+"_"+q.form().ends, q.In(x))
}

// FromPrinted is a limit of the quality, printed in the unit of its contract, in
// the unit of the package.
//
// Definition.
func (q Quality) FromPrinted(l intake.Limit) float64 {
	switch l.In {
	case intake.PerCent:
		return l.At / 100
	case intake.MgPerKg:
		return l.At / 1e6
	case intake.MicroG:
		return l.At / microgramsPerKg
	case intake.LbPerBu:
		return l.At / poundsPerBushel(1)
	}
	return l.At
}
