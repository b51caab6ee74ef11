package reckon

import (
	"slices"

	"awn/unit"
)

// only is a dimension of which some units have no place in a sum.
func only(d unit.Dimension, symbols ...string) unit.Dimension {
	d.Units = slices.DeleteFunc(slices.Clone(d.Units), func(u unit.Unit) bool { return !slices.Contains(symbols, u.Symbol) })
	return d
}

// behindWort are the inputs that say how much malt stands behind a wort.
func behindWort() []Input {
	return []Input{
		{Key: "wort", Words: []string{"p"}, Doc: "strength of the wort", In: []unit.Dimension{unit.Gravity}, Must: true},
		{Key: "extract", Words: []string{"e"}, Doc: "extract of the malt", In: []unit.Dimension{unit.MassFraction}},
		{Key: "moisture", Doc: "moisture of the malt", In: []unit.Dimension{unit.Moisture}, Also: wetPercent},
	}
}

const behindNote = "Extract on dry matter needs no moisture; as-is it does. Left out, it is that of a Congress wort of this strength, and moisture is needed."

// worts are the entries on what a laboratory wort holds, and on blends.
var worts = []Entry{
	{
		Name: "fan", Aliases: []string{"amino"}, Subject: "Malt", Title: "Free amino nitrogen in the wort and in the malt",
		Inputs:   append([]Input{{Key: "fan", Doc: "free amino nitrogen", In: []unit.Dimension{unit.AminoNitrogen}, Must: true}}, behindWort()...),
		Note:     behindNote + " Methods differ: compare only figures of one.",
		Examples: []string{"fan 150 mg/L 8.65 °P 79.768 % dm", "fan 134 mg/100g dm 8.65 °P moisture 4.5 %"},
		compute:  fan,
	},
	{
		Name: "soluble", Aliases: []string{"soluble-nitrogen", "tsn"}, Subject: "Malt", Title: "Soluble nitrogen and protein of the malt from its wort, and the Kolbach index",
		Inputs: append(append([]Input{{Key: "nitrogen", Words: []string{"n"}, Doc: "nitrogen in the wort", In: []unit.Dimension{only(unit.AminoNitrogen, "mg/L")}, Must: true}}, behindWort()...),
			Input{Key: "total", Words: []string{"tn"}, Doc: "total nitrogen of the malt", In: []unit.Dimension{only(unit.MassFraction, "% dm")}, Named: true}),
		Note:     behindNote,
		Examples: []string{"soluble 720 mg/L 8.65 °P 79.768 % dm", "soluble 720 mg/L 8.65 °P moisture 4.5 % total 1.664 % dm"},
		compute:  soluble,
	},
	{
		Name: "hwe", Aliases: []string{"hot-water-extract"}, Subject: "Malt", Title: "Hot water extract from its gravity, and the Congress extract to expect",
		Inputs: []Input{
			{Key: "gravity", Words: []string{"sg"}, Doc: "gravity of 50 g made up to 515 mL", Least: 1, Most: 1.083},
			{Key: "hwe", Words: []string{"l"}, Doc: "hot water extract, if it is known", In: []unit.Dimension{only(unit.Extract, "L°/kg dm", "L°/kg asis")}},
			{Key: "moisture", Doc: "moisture of the malt", In: []unit.Dimension{unit.Moisture}, Also: wetPercent},
		},
		Note:     "Two mashes that differ: the Congress figure is estimated by a regression of the trade over pale malts, and the change of unit alone (“awn reckon extract”) gives some 1.7 points less. A contract names its mash.",
		Examples: []string{"hwe 1.0298 moisture 4.5 %", "hwe 308 L°/kg dm"},
		compute:  hotWater,
	},
	{
		Name: "blend", Aliases: []string{"mix"}, Subject: "Malt", Title: "A blend of malts from its parts, against its limits",
		Inputs:   blendInputs(),
		Again:    "then",
		Note:     "Shares are of the mass, in “%” or as masses. A ratio is mixed in its parts and divided then. Nitrogen and extract count on dry matter, each part by its own if all moistures are given. For two malts it says which shares keep every limit. Extract and nitrogen add up; run-off, turbidity and viscosity do not.",
		Examples: []string{"blend 50 % tn 1.60 % sn 0.72 % friability 90 % wug 0.5 % then 50 % tn 1.84 % sn 0.66 % friability 81 % wug 4 % friability-min 85 % wug-max 2 % wug-guard 1.8 % st-min 38 % st-max 44 %", "blend 12 t extract 81.2 % moisture 4.2 % then 8 t extract 79 % moisture 5.1 % extract-min 80 %"},
		compute:  blend,
	},
}

// dryPercent is how people write a content of malt.
var dryPercent = map[string]string{"%": "% dm"}

// blendInputs are the figures of each part, and the limits of the blend.
func blendInputs() []Input {
	part := func(key, doc string, d unit.Dimension, also map[string]string, words ...string) Input {
		return Input{Key: key, Words: words, Doc: doc, In: []unit.Dimension{d}, Also: also, Named: true}
	}
	dm := only(unit.MassFraction, "% dm")
	out := []Input{
		{Key: "share", Doc: "share of the part, or its mass", In: []unit.Dimension{unit.Percent, unit.Mass}, Must: true},
		part("tn", "total nitrogen", dm, dryPercent),
		part("sn", "soluble nitrogen", dm, dryPercent),
		part("friability", "friability", unit.Percent, nil),
		part("wug", "wholly unmodified grains", unit.Percent, nil),
		part("extract", "fine extract", dm, dryPercent, "e"),
		part("moisture", "moisture", unit.Moisture, wetPercent),
	}
	for _, l := range blendLimits {
		d, also := unit.Percent, map[string]string(nil)
		switch l.figure {
		case "extract":
			d, also = dm, dryPercent
		case "moisture":
			d, also = unit.Moisture, wetPercent
		}
		in := part(l.key, l.doc, d, also)
		in.Once = true
		out = append(out, in)
	}
	return out
}
