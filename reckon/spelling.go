package reckon

import (
	"slices"

	"awn/unit"
)

// Spelling is a unit under its codes in the lists by which programs exchange
// quantities, and as tables of the trade spell it out.
type Spelling struct {
	Symbol string // as it is read and printed here
	UCUM   string // Unified Code for Units of Measure; in braces what that list does not know
	Rec20  string // UN/ECE Recommendation 20
	Also   []string
}

// Spellings are the other names under which units are read.
//
// Recalled: UCUM 2.2 and UN/ECE Rec 20; most of the first list was read.
var Spellings = []Spelling{
	{"°C", "Cel", "CEL", []string{"deg C"}},
	{"°F", "[degF]", "FAH", []string{"deg F"}},
	{"kg", "kg", "KGM", nil},
	{"t", "t", "TNE", nil},
	{"lb", "[lb_av]", "LBR", nil},
	{"ston", "[ston_av]", "STN", nil},
	{"bu measure", "[bu_us]", "BUA", nil},
	{"%", "%", "P1", nil},
	{"mg/kg", "[ppm]", "", nil},
	{"ug/kg", "[ppb]", "", nil},
	{"L", "L", "LTR", nil},
	{"hL", "hL", "HLT", nil},
	{"m3", "m3", "MTQ", nil},
	{"gal", "[gal_us]", "GLL", nil},
	{"mPa.s", "mPa.s", "C24", nil},
	{"Pa", "Pa", "PAL", nil},
	{"bar", "bar", "BAR", nil},
	{"pH", "[pH]", "Q30", nil},
	{"NTU", "[NTU]", "NTU", nil},
	{"in", "[in_i]", "INH", nil},
	{"acre us", "[acr_us]", "ACR", nil},
	{"are", "ar", "", nil},
	{"ha", "har", "HAR", nil},
	{"kWh", "kW.h", "KWH", nil},
	{"h", "h", "HUR", nil},
	{"g/m3", "g/m3", "A93", nil},
	{"°P", "{Plato}", "", []string{"deg P", "deg Plato"}},
	{"Lintner", "{Lintner}", "", []string{"deg Lintner", "deg ASBC"}},
	{"WK", "{WK}", "", []string{"deg WK"}},
	{"EBC", "{EBC}", "", []string{"deg EBC"}},
	{"SRM", "{SRM}", "", nil},
	{"°L", "", "", []string{"deg Lovibond"}},
	{"DU dm", "{DU}", "", []string{"DU"}},
	{"L°/kg dm", "{Lodeg/kg}", "", []string{"L deg/kg dm"}},
	{"L°/kg asis", "", "", []string{"L deg/kg asis", "L deg/kg"}},
	{"lb/bu", "", "", []string{"lb/Winchester bu"}},
	{"lb/bu imperial", "", "", []string{"lb/Avery bu", "lb/imperial bu"}},
	{"ppg asis", "", "", []string{"points lb/gal", "ppg"}},
}

// spelled are the symbols of which a text is another name.
func spelled(text string) []string {
	var out []string
	for _, s := range Spellings {
		if text != "" && (text == s.UCUM || text == s.Rec20 || slices.Contains(s.Also, text)) {
			out = append(out, s.Symbol)
		}
	}
	return out
}

// Readable is a unit with all names under which it is read.
type Readable struct {
	Quantity string // name of its dimension
	unit.Unit
	Spelling Spelling
}

// Names are all under which the unit is read.
func (r Readable) Names() []string {
	out := append([]string{r.Symbol}, r.Aliases...)
	out = append(append(out, r.Spelling.Also...), r.Spelling.UCUM, r.Spelling.Rec20)
	return slices.DeleteFunc(out, func(name string) bool { return name == "" })
}

// Readables lists every unit that the pocket tables read, by quantity.
func Readables() []Readable {
	var out []Readable
	for _, d := range dimensions() {
		for _, u := range d.Units {
			r := Readable{Quantity: d.Name, Unit: u, Spelling: Spelling{Symbol: u.Symbol}}
			for _, s := range Spellings {
				if s.Symbol == u.Symbol {
					r.Spelling = s
				}
			}
			out = append(out, r)
		}
	}
	return out
}

// dimensions are those in which anything may be given, each once, in the order
// of unit.Dimensions.
func dimensions() []unit.Dimension {
	var out []unit.Dimension
	for _, d := range unit.Dimensions {
		is := func(o unit.Dimension) bool { return o.Name == d.Name }
		for _, e := range Entries() {
			for i := range e.Inputs {
				if slices.ContainsFunc(e.Inputs[i].In, is) && !slices.ContainsFunc(out, is) {
					out = append(out, d)
				}
			}
		}
	}
	return out
}
