package reckon

import (
	"math"
	"strings"

	"awn/unit"
)

// The scales on which numbers are shown.
var (
	massScale     = scale{unit.Mass, []string{"kg~6", "t~6", "lb~6", "bu~6"}}
	moistureScale = scale{unit.Moisture, []string{"% wb:2", "% db:2"}}
	shareScale    = scale{unit.Percent, []string{"%:2"}}
	pressureScale = scale{unit.Pressure, []string{"Pa~5", "inH2O~4"}}
)

// Titles of the tables of measures by the dimension of what is given.
var measures = []Entry{
	{
		Name: "temperature", Aliases: []string{"temp"}, Subject: "Measures", Title: "A temperature on every scale",
		Inputs:   []Input{{Key: "t", Doc: "temperature", In: []unit.Dimension{unit.Temperature}, Must: true}},
		Examples: []string{"temperature 62 °F"},
		compute:  changed,
	},
	{
		Name: "mass", Aliases: []string{"bushels", "weight"}, Subject: "Measures", Title: "A mass in tonnes, pounds and bushels",
		Inputs:   []Input{{Key: "m", Doc: "mass", In: []unit.Dimension{unit.Mass}, Must: true}},
		Note:     "A bushel here is a mass: 48 lb of barley, 34 lb of malt (“bu malt”).",
		Examples: []string{"mass 1000 bu", "mass 25 t in bu"},
		compute:  changed,
	},
	{
		Name: "slot", Aliases: []string{"sieve", "length"}, Subject: "Measures", Title: "The slot of a sieve, or any length",
		Inputs:   []Input{{Key: "l", Words: []string{"length"}, Doc: "length", In: []unit.Dimension{unit.Length}, Must: true}},
		Note:     "Two slots that are nearly alike do not pass the same share: sieve again, do not convert the result.",
		Examples: []string{"slot 6/64 in", "slot 2.5 mm in /64 in"},
		compute:  slot,
	},
	{
		Name: "convert", Aliases: []string{"units"}, Subject: "Measures", Title: "Any other measure in its other units",
		Inputs: []Input{{Key: "x", Doc: "quantity", Must: true, In: []unit.Dimension{
			unit.Temperature, unit.TemperatureDifference, unit.Mass, unit.Length, unit.Area, unit.Volume, unit.Duration, unit.Speed,
			unit.TestWeight, unit.Density, unit.SpecificEnthalpy, unit.SpecificVolume, unit.VolumeFlow, unit.Pressure, unit.Power, unit.Energy,
			unit.Conductance, unit.Transmittance, unit.WaterDose, unit.Concentration, unit.GrainVolume, unit.Ground, unit.Vapour,
			unit.AreaLoad, unit.Viscosity, unit.AlphaAmylase, unit.AminoNitrogen, unit.Trace, unit.SpiritYield, unit.KernelWeight,
			unit.Acidity, unit.Turbidity,
		}}},
		Note:     "Units are exact by definition; “K” alone is an absolute temperature, “5 °F diff” a difference; “bu measure” is the volume of a bushel, “bu” the 48 lb of barley. “awn reckon --units” lists all.",
		Examples: []string{"convert 300 kWh", "convert 2 inH2O in Pa", "convert 450 L/t", "convert 40 acre", "convert 100 bu measure in hL"},
		compute:  changed,
	},
}

// slot gives a length in the units that sieves are stamped with.
func slot(g *given) ([]Result, error) {
	s := scale{unit.Length, []string{"mm~6", "/64 in~6", "in~6"}}
	return []Result{s.result("length_m", "length", g.at("l"), "", "")}, nil
}

// A number beyond these is better read in another unit.
const (
	tooSmall = 1e-4
	tooLarge = 1e7
)

// changed gives what was given in all units that convert into each other, but
// for those in which nobody would write it. One quantity is one result.
func changed(g *given) ([]Result, error) {
	f := g.filled[0]
	s := scale{in: f.In}
	for _, u := range f.In.Units {
		if u.Kind != f.Quantity.Kind {
			continue
		}
		x, err := f.In.In(f.Value, u.Symbol)
		if err != nil {
			return nil, err
		}
		if a := math.Abs(x); u.Symbol == f.Quantity.Symbol || a == 0 || a >= tooSmall && a < tooLarge {
			s.units = append(s.units, u.Symbol+"~6")
		}
	}
	if len(s.units) == 0 { // it has no other unit, or none in which anyone would write it
		s.units = []string{f.Quantity.Symbol + "~6"}
	}
	r := s.result(keyOf(f), f.In.Name, f.Value, "", "")
	return []Result{r}, nil
}

// keyOf is the name of an input with the unit of its value behind it, as JSON
// wants it.
func keyOf(f Filled) string {
	name := strings.ReplaceAll(f.In.Name, " ", "_")
	if f.Input.Key != "x" && len(f.Input.Key) > 1 {
		name = strings.ReplaceAll(f.Input.Key, "-", "_")
	}
	return name + suffixOf(f.Quantity.Kind, f.In)
}

// Key is the name of the input in JSON: with the unit of its value behind it.
func (f Filled) Key() string {
	switch {
	case f.Word != "" || f.Input.plain():
		return strings.ReplaceAll(f.Input.Key, "-", "_")
	}
	return keyOf(f)
}

// suffixOf is the ending that names the unit inside.
func suffixOf(kind string, d unit.Dimension) string {
	for _, u := range d.Units {
		if u.Kind == kind {
			return suffix.Replace("_" + strings.ToLower(u.Inside))
		}
	}
	return ""
}

// suffix writes a unit as the end of a name.
var suffix = strings.NewReplacer(
	"_°c", "_c", "_kg/kg wb", "_wb", "_kg/kg dm", "_dm", "_kg/kg as-is", "_asis", "_kg dm", "_kg_dm", "_kg as-is", "_kg_asis",
	"_1", "", "_°p", "_plato", "/", "_", " ", "_", ".", "", "as-is", "asis",
)
