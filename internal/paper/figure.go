package paper

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"awn/malt"
	"awn/unit"
)

// found is a figure beside those of a malt analysis that is read off grain or
// in a laboratory: its dimension, the unit it is kept in, over how much, and the
// name it is kept under.
type found struct {
	dimension unit.Dimension
	symbol    string
	over      float64
	key       string
}

var founds = map[string]found{
	"temperature":        {unit.Temperature, "°C", 1, "temperature_c"},
	"chit":               {unit.Percent, "%", 100, "chit"},
	"acrospire":          {unit.Ratio, "", 1, "acrospire_x"},
	"test_weight":        {unit.TestWeight, "kg/hL", 1, "test_weight_kg_hl"},
	"germination_energy": {unit.Percent, "%", 100, "germination_energy"},
	"capacity":           {unit.Percent, "%", 100, "capacity"},
	"falling_number":     {unit.Duration, "s", 1, "falling_number_s"},
	"don":                {unit.Concentration, "mg/kg", 1, "don_mg_kg_asis"},
	"ochratoxin":         {unit.Concentration, "mg/kg", 1, "ochratoxin_mg_kg_asis"},
	"ndma":               {unit.Concentration, "mg/kg", 1, "ndma_mg_kg_asis"},
}

// FigureError says that a figure has a name that is not known.
type FigureError struct {
	Name, Nearest string
	Names         []string
}

// Error names the figures that there are.
func (e *FigureError) Error() string {
	hint := "."
	if e.Nearest != "" {
		hint = "; was " + e.Nearest + " meant?"
	}
	return "“" + e.Name + "” is not a figure here" + hint + " They are " + strings.Join(e.Names, ", ")
}

// FigureNames lists the figures that ReadFigure knows.
func FigureNames() []string {
	names := slices.Collect(maps.Keys(founds))
	for _, p := range malt.Parameters() {
		names = append(names, string(p))
	}
	slices.Sort(names)
	return names
}

// ReadFigure reads a result such as "don 1.6 mg/kg" or "extract_fine 81.1 % dm"
// and returns it under the name that its basis and unit belong to.
func ReadFigure(text string) (key string, value float64, err error) {
	name, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	if f, ok := founds[name]; ok {
		q, err := f.dimension.Parse(rest)
		if err != nil {
			return "", 0, err
		}
		v, err := f.dimension.In(q.Value, f.symbol)
		return f.key, v / f.over, err
	}
	p := malt.Parameter(name)
	if !p.Known() {
		names := FigureNames()
		return "", 0, &FigureError{name, unit.Nearest(name, names), names}
	}
	limits := reflect.TypeFor[Limits]()
	for i := range limits.NumField() {
		if limits.Field(i).Tag.Get("key") == name {
			return reflect.New(limits.Field(i).Type.Elem()).Interface().(figure).figure(p, rest)
		}
	}
	return "", 0, &FigureError{name, "", FigureNames()}
}

// figure is a limit of any dimension, asked to read one value.
type figure interface {
	figure(malt.Parameter, string) (string, float64, error)
}

func (*Limit[D]) figure(p malt.Parameter, text string) (string, float64, error) {
	var of D
	d := of.dimension()
	q, err := d.Parse(text)
	if err != nil {
		return "", 0, err
	}
	l := Limit[D]{AtLeast: &quantity[D]{q}}.limit(p)
	if !p.Takes(l.Basis) {
		return "", 0, &FigureError{string(p) + " " + text, "", []string{"stated on another basis"}}
	}
	return p.Key(l.Basis), l.Min, nil
}
