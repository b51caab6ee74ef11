package words

import (
	"math"
	"strings"

	"awn/unit"
)

// measure says how a figure is written whose name ends in a unit.
type measure struct {
	suffix    string
	dimension *unit.Dimension
	inside    float64 // one of the name's unit in the dimension's own
	metric    string  // symbol
	american  string  // symbol; empty where it is the same
	decimals  int
	bushel    string           // symbol for who counts in bushels; empty where it is not a grain's
	choice    func(Units) bool // which readers want the other symbol; customary if nil
}

// measures is the closed list of units that the names of figures and the keys
// of JSON end in, the longer before the shorter that they end in.
var measures = []measure{
	{suffix: "mg_100g_dm", metric: "mg/100 g dm"},
	{suffix: "ndma_mg_kg_asis", metric: "µg/kg as-is", inside: 1000, decimals: 1},
	{suffix: "mg_kg_asis", metric: "mg/kg as-is", decimals: 1},
	{suffix: "mg_kg_dm", metric: "mg/kg dm", decimals: 1},
	{suffix: "l_t_asis", metric: "L/t as-is"},
	{suffix: "l_t_dm", metric: "L/t dm"},
	{suffix: "du_asis", metric: "DU as-is"},
	{suffix: "du_dm", metric: "DU dm"},
	{suffix: "hl_t", metric: "hL/t", decimals: 1},
	{suffix: "kg_m2_s", metric: "kg/m²s", decimals: 2},
	{suffix: "m3_h", dimension: &unit.VolumeFlow, inside: 1. / 3600, metric: "m3/h", american: "cfm"},
	{suffix: "m3_h_t", dimension: &unit.Airflow, inside: 1 / 3.6e6, metric: "m3/h/t", american: "cfm/bu"},
	{suffix: "g_kg_h", metric: "g/kg·h", decimals: 2},
	{suffix: "kwh_t", metric: "kWh/t"},
	{suffix: "co2e_kg", dimension: &unit.Mass, inside: 1, metric: "kg", american: "lb", choice: pounds},
	{suffix: "kg_dm", dimension: &unit.Mass, inside: 1, metric: "kg", american: "lb", choice: pounds},
	{suffix: "kg_hl", dimension: &unit.TestWeight, inside: 10, metric: "kg/hL", american: "lb/bu", decimals: 1, choice: winchester},
	{suffix: "kg_t", metric: "kg/t"},
	{suffix: "m3_t", dimension: &unit.WaterDose, inside: 1e-3, metric: "m3/t", american: "gal/bu", decimals: 1},
	{suffix: "mg_kg", metric: "mg/kg"},
	{suffix: "ug_kg", metric: "µg/kg"},
	{suffix: "mg_m3", metric: "mg/m³"},
	{suffix: "mg_l", metric: "mg/L"},
	{suffix: "g_m3", metric: "g/m³", decimals: 1},
	{suffix: "mpas", metric: "mPa·s", decimals: 2},
	{suffix: "lintner", metric: "°Lintner"},
	{suffix: "lovibond", metric: "°L", decimals: 1},
	{suffix: "ebc", dimension: &unit.Colour, inside: 1, metric: "EBC", american: "SRM", decimals: 1, choice: asbc},
	{suffix: "srm", metric: "SRM", decimals: 1},
	{suffix: "kwh", dimension: &unit.Energy, inside: 3.6e6, metric: "kWh"},
	{suffix: "asis", metric: "% as-is", inside: 100, decimals: 1},
	{suffix: "plato", metric: "°P", decimals: 1},
	{suffix: "ch", metric: "°C·h"},
	{suffix: "wb", metric: "% wb", inside: 100, decimals: 1},
	{suffix: "db", metric: "% db", inside: 100, decimals: 1},
	{suffix: "dm", metric: "% dm", inside: 100, decimals: 1},
	{suffix: "rh", metric: "%", inside: 100},
	{suffix: "du", metric: "DU"},
	{suffix: "wk", dimension: &unit.DiastaticPower, inside: 1, metric: "WK", american: "°Lintner", choice: asbc},
	{suffix: "mg", metric: "mg", decimals: 1},
	{suffix: "mm", metric: "mm", decimals: 1},
	{suffix: "min", metric: "min"},
	{suffix: "pa", dimension: &unit.Pressure, inside: 1, metric: "Pa", american: "inH2O"},
	{suffix: "kw", metric: "kW"},
	{suffix: "hl", dimension: &unit.Volume, inside: 0.1, metric: "hL", american: "gal"},
	{suffix: "m3", dimension: &unit.Volume, inside: 1, metric: "m3", american: "gal"},
	{suffix: "barley_kg", dimension: &unit.Mass, inside: 1, metric: "kg", american: "lb", bushel: "bu", choice: pounds},
	{suffix: "malt_kg", dimension: &unit.Mass, inside: 1, metric: "kg", american: "lb", bushel: "bu malt", choice: pounds},
	{suffix: "kg", dimension: &unit.Mass, inside: 1, metric: "kg", american: "lb", choice: pounds},
	{suffix: "c", dimension: &unit.Temperature, inside: 1, metric: "°C", american: "°F", decimals: 1, choice: fahrenheit},
	{suffix: "k", dimension: &unit.TemperatureDifference, inside: 1, metric: "K", american: "°F diff", decimals: 1, choice: fahrenheit},
	{suffix: "ms", metric: "ms"},
	{suffix: "h", metric: "h", decimals: 1},
	{suffix: "d", metric: "d", decimals: 1},
	{suffix: "t", dimension: &unit.Mass, inside: 1000, metric: "t", american: "ston", bushel: "bu", decimals: 1, choice: pounds},
	{suffix: "m", dimension: &unit.Length, inside: 1, metric: "m", american: "ft", decimals: 2},
	{suffix: "l", metric: "L"},
	{suffix: "j", dimension: &unit.Energy, inside: 1, metric: "kWh"},
	{suffix: "s", metric: "s"},
	{suffix: "ppm", metric: "ppm"},
	{suffix: "rvu", metric: "RVU"},
	{suffix: "n", metric: ""}, // a count
	{suffix: "x", metric: "", decimals: 2},

	// Fractions that the trade gives to a tenth of a per cent.
	{suffix: "kolbach", metric: "%", inside: 100, decimals: 1},
	{suffix: "pug", metric: "%", inside: 100, decimals: 1},
	{suffix: "wug", metric: "%", inside: 100, decimals: 1},
	{suffix: "attenuation_limit", metric: "%", inside: 100, decimals: 1},
	{suffix: "screenings", metric: "%", inside: 100, decimals: 1},
	{suffix: "abv", metric: "% vol", inside: 100, decimals: 1},
	{suffix: "loss", metric: "%", inside: 100, decimals: 1},
	{suffix: "tenths", metric: "%", inside: 100, decimals: 1},
}

func fahrenheit(u Units) bool { return u.Fahrenheit }
func pounds(u Units) bool     { return u.Mass != Tonnes }
func winchester(u Units) bool { return u.Winchester }
func asbc(u Units) bool       { return u.ASBC }

// share is how a figure is written whose name ends in no unit: it is a
// fraction of one.
var share = measure{metric: "%", inside: 100}

// measureOf finds how a figure is written by the end of its name.
func measureOf(name string) measure {
	for _, m := range measures {
		if name == m.suffix || strings.HasSuffix(name, "_"+m.suffix) {
			return m
		}
	}
	return share
}

// HasUnit reports whether a key ends in a unit of the closed list.
func HasUnit(key string) bool { return measureOf(key).suffix != "" }

// symbol is the unit as the reader knows it.
func (m measure) symbol(u Units) string {
	if m.bushel != "" && u.Mass == Bushels {
		return m.bushel
	}
	other := u.Customary
	if m.choice != nil {
		other = m.choice(u)
	}
	if other && m.american != "" {
		return m.american
	}
	return m.metric
}

// in is the value in the reader's unit. A dimension writes a number and its
// symbol; the number is read back off it at full length.
func (m measure) in(x float64, u Units) float64 {
	switch {
	case m.dimension == nil && m.inside == 0:
		return x
	case m.dimension == nil:
		return x * m.inside
	}
	v, err := m.dimension.In(x*m.inside, m.symbol(u))
	if err != nil {
		return math.NaN()
	}
	return v
}

// decimalsIn is how many decimals the reader sees: numbers in pounds and
// inches of water need others than those in kilograms and pascals.
func (m measure) decimalsIn(u Units) int {
	switch m.symbol(u) {
	case "inH2O":
		return 1
	case "gal", "bu":
		return 0
	}
	return m.decimals
}

// printed is how a symbol is set in print.
var printed = strings.NewReplacer("m3", "m³", "inH2O", "in H₂O", " diff", "", "ston", "short\u00a0tons", " ", "\u00a0")

// wholeDays is from how many days on their tenths are left out.
const wholeDays = 10

// Figure writes a figure by the unit that its name ends in, with its unit, in
// the reader's form: "44.2 % wb", "61.5 °F". What has no unit is a fraction
// and is written in per cent.
func Figure(name string, x float64, u Units) string {
	return figureBeside(name, x, x, u)
}

// figureBeside is a figure with as many decimals, up to three more, as tell it
// from another that it is held against.
func figureBeside(name string, x, other float64, u Units) string {
	m := measureOf(name)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return unknown
	}
	decimals := m.decimalsIn(u)
	if m.suffix == "d" && math.Abs(x) >= wholeDays {
		decimals = 0
	}
	for most := decimals + 3; x != other && decimals < most; decimals++ {
		if u.Number(m.in(x, u), decimals) != u.Number(m.in(other, u), decimals) {
			break
		}
	}
	return strings.TrimSpace(u.Number(m.in(x, u), decimals) + "\u00a0" + Symbol(name, u))
}

// Value is a figure in the reader's unit, as a number.
func Value(name string, x float64, u Units) float64 { return measureOf(name).in(x, u) }

// Values turns figures of one name into the reader's unit, where they stand.
func Values(name string, xs []float64, u Units) {
	m := measureOf(name)
	for i, x := range xs {
		xs[i] = m.in(x, u)
	}
}

// Symbol is the reader's unit of a figure, by the end of its name.
func Symbol(name string, u Units) string { return printed.Replace(measureOf(name).symbol(u)) }

// Decimals is how many decimals a figure is written with, by its name.
func Decimals(name string, u Units) int { return measureOf(name).decimalsIn(u) }
