package variety

import (
	"math"
	"strings"
)

// Direction says which way a trait is wanted.
type Direction string

// The directions.
const (
	Higher  Direction = "higher"
	Lower   Direction = "lower"
	Window  Direction = "window" // between Low and High
	Neither Direction = "neither"
)

// Scale says what kind of figure a trait is.
type Scale string

// The scales.
const (
	Measure Scale = "measure" // a quantity with a unit
	Percent Scale = "percent" // a share of area, plants or kernels, 0 to 100
	Graded  Scale = "graded"  // given by eye, in steps
)

// Trait is one thing measured or scored on entries.
type Trait struct {
	Name      string
	Unit      string // as in the trial, for print
	Direction Direction
	Low, High float64 // ends of a Window; NaN if open
	Scale     Scale
}

// better is how good a figure is in the direction of the trait: the larger the
// better. In a window all figures are equally good.
func (t Trait) better(x float64) float64 {
	switch t.Direction {
	case Higher:
		return x
	case Lower:
		return -x
	case Window:
		out := 0.0
		if x < t.Low {
			out = x - t.Low
		}
		if x > t.High {
			out = t.High - x
		}
		return out
	}
	return 0
}

// sign is 1 if more is better, -1 if less is, 0 if neither.
func (t Trait) sign() float64 {
	switch t.Direction {
	case Higher:
		return 1
	case Lower:
		return -1
	}
	return 0
}

// common lists traits by the words under which they stand in trials. The
// windows are those of malting barley at large; a house sets its own.
var common = []struct {
	words []string
	Trait
}{
	{[]string{"yield", "grain_yield"}, Trait{"yield", "t/ha", Higher, math.NaN(), math.NaN(), Measure}},
	{[]string{"protein", "grain_protein"}, Trait{"protein", "% dm", Window, 9.5, 11.5, Measure}},
	{[]string{"extract", "malt", "malt_extract"}, Trait{"extract", "% dm", Higher, math.NaN(), math.NaN(), Measure}},
	{[]string{"diastatic_power", "dp", "diapow"}, Trait{"diastatic_power", "", Higher, math.NaN(), math.NaN(), Measure}},
	{[]string{"alpha_amylase", "amylase"}, Trait{"alpha_amylase", "", Higher, math.NaN(), math.NaN(), Measure}},
	{[]string{"beta_glucan", "wort_beta_glucan"}, Trait{"beta_glucan", "mg/l", Lower, math.NaN(), math.NaN(), Measure}},
	{[]string{"fan"}, Trait{"fan", "mg/l", Window, 140, 210, Measure}},
	{[]string{"kolbach", "s_t"}, Trait{"kolbach", "%", Window, 38, 45, Measure}},
	{[]string{"fermentability", "attenuation_limit"}, Trait{"fermentability", "%", Higher, math.NaN(), math.NaN(), Percent}},
	{[]string{"plump"}, Trait{"plump", "%", Higher, math.NaN(), math.NaN(), Percent}},
	{[]string{"screenings", "thin"}, Trait{"screenings", "%", Lower, math.NaN(), math.NaN(), Percent}},
	{[]string{"test_weight", "hectolitre_weight"}, Trait{"test_weight", "kg/hl", Higher, math.NaN(), math.NaN(), Measure}},
	{[]string{"lodging"}, Trait{"lodging", "%", Lower, math.NaN(), math.NaN(), Percent}},
	{[]string{"height"}, Trait{"height", "cm", Lower, math.NaN(), math.NaN(), Measure}},
	{[]string{"heading", "hddate"}, Trait{"heading", "d", Neither, math.NaN(), math.NaN(), Measure}},
	{[]string{"germination"}, Trait{"germination", "%", Higher, math.NaN(), math.NaN(), Percent}},
	{[]string{"disease", "leaf_blotch", "mildew", "scald", "net_blotch", "rust"}, Trait{"disease", "%", Lower, math.NaN(), math.NaN(), Percent}},
}

// CommonTrait returns what is usual for a trait of that name, under its own
// name and unit; a trait that is not known is a measure wanted neither way.
func CommonTrait(name, unit string) Trait {
	key := plain(name)
	for _, c := range common {
		for _, word := range c.words {
			if word == key {
				t := c.Trait
				t.Name = name
				if unit != "" {
					t.Unit = unit
				}
				return t
			}
		}
	}
	return Trait{name, unit, Neither, math.NaN(), math.NaN(), Measure}
}

// plain is a word in lower case with one underscore for every break.
func plain(word string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(word), func(r rune) bool {
		return r == ' ' || r == '-' || r == '_' || r == '.' || r == '/' || r == ':'
	}), "_")
}
