package course

import (
	"fmt"
	"slices"
	"strings"

	"awn/barley"
	"awn/bed"
	"awn/brew"
	"awn/dress"
	"awn/germinate"
	"awn/kernel"
	"awn/kiln"
	"awn/odds"
	"awn/steep"
	"awn/unit"
)

// constants are the uncertain constants of all that a course uses.
type constants struct {
	barley    barley.Constants
	kernel    kernel.Constants
	bed       bed.Constants
	steep     steep.Constants
	germinate germinate.Constants
	kiln      kiln.Constants
	dress     dress.Constants
	brew      brew.Constants
	house     houseConstants
	own       ownConstants
}

// ownConstants belong to no stage.
type ownConstants struct {
	HoursPerStep float64 `param:"course.labour.step"`
	BrewedPlato  float64 `param:"course.wort.strength"`
	GreenEBC     float64 `param:"course.colour.green"`
}

var ownParameters = []odds.Parameter{
	{Key: "course.labour.step", Unit: "h of work per step of the programme", Default: 0.5, Low: 0.2, High: 1,
		Distribution: odds.LogNormal, Source: "common practice, no source", Mark: odds.Weak},
	{Key: "course.colour.green", Unit: "EBC, of green malt", Default: 2, Low: 1.5, High: 3,
		Distribution: odds.Normal, Source: "common practice, no source", Mark: odds.Weak},
	{Key: "course.wort.strength", Unit: "°P", Default: 12, Low: 11, High: 13,
		Distribution: odds.Uniform, Source: "common practice, no source", Mark: odds.Practice},
}

// Parameters is the whole parameter table of a course, in grain order.
func Parameters() []odds.Parameter {
	return slices.Concat(barley.Parameters, kernel.Parameters, bed.Parameters, steep.Parameters,
		germinate.Parameters, kiln.Parameters, dress.Parameters, brew.Parameters, houseParameters, ownParameters)
}

// newConstants fills all constants, with the house's own values where it has
// them. A key that the table lacks is an error.
func newConstants(values map[string]float64) (*constants, error) {
	table := Parameters()
	if err := checkKeys(table, values); err != nil {
		return nil, err
	}
	c := &constants{}
	for _, part := range []any{&c.barley, &c.kernel, &c.bed, &c.steep, &c.germinate, &c.kiln, &c.dress, &c.brew, &c.house, &c.own} {
		if err := odds.Fill(part, table, values); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// checkKeys refuses a key that is not in the table.
func checkKeys(table []odds.Parameter, values map[string]float64) error {
	known := make([]string, len(table))
	for i, p := range table {
		known[i] = p.Key
	}
	var unknown []string
	for key := range values {
		if !slices.Contains(known, key) {
			unknown = append(unknown, fmt.Sprintf("%s (the nearest is %s)", key, unit.Nearest(key, known)))
		}
	}
	if len(unknown) == 0 {
		return nil
	}
	slices.Sort(unknown)
	return fmt.Errorf("the house sets parameters that the model does not have: %s", strings.Join(unknown, ", "))
}
