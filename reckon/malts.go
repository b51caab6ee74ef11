package reckon

import "awn/unit"

// malts are the entries on malt and its analysis.
var malts = []Entry{
	{
		Name: "extract", Subject: "Malt", Title: "Extract as-is and dry, in per cent, L°/kg and points; fine less coarse",
		Inputs: []Input{
			{Key: "extract", Words: []string{"e"}, Doc: "extract of the fine grist", In: []unit.Dimension{unit.Extract}, Must: true},
			moistureInput("moisture", "moisture of the malt"),
			{Key: "coarse", Doc: "extract of the coarse grist", In: []unit.Dimension{unit.Extract}, Named: true},
		},
		Note:     "A change of units, not of mash: hot water extract by its own mash is not the Congress figure in L°/kg. " + wetNote,
		Examples: []string{"extract 80.5 % dm 4.5 %", "extract 76.2 % asis moisture 4.5 %", "extract 308 L°/kg dm 4.5 %", "extract 79.77 % dm 4.5 % coarse 78.4 % dm"},
		compute:  extract,
	},
	{
		Name: "congress", Subject: "Malt", Title: "Extract from the strength of a Congress wort",
		Inputs: []Input{
			{Key: "wort", Words: []string{"p"}, Doc: "strength of the wort", In: []unit.Dimension{unit.Gravity}, Must: true},
			moistureInput("moisture", "moisture of the malt"),
			{Key: "coarse", Doc: "strength of the wort of the coarse grist", In: []unit.Dimension{unit.Gravity}, Named: true},
		},
		Note:     wetNote,
		Examples: []string{"congress 8.65 °P 4.5 %", "congress 8.65 °P 4.5 % coarse 8.5 °P"},
		compute:  congress,
	},
	{
		Name: "colour", Aliases: []string{"color"}, Subject: "Malt", Title: "Colour of wort on the three scales",
		Inputs: []Input{
			{Key: "colour", Words: []string{"color"}, Doc: "colour", In: []unit.Dimension{unit.Colour}},
			{Key: "absorbance", Words: []string{"a430"}, Doc: "absorbance at 430 nm in 1 cm", Least: 0, Most: 200, Named: true},
		},
		Note:     "°L is by eye against glasses and estimated here; sheets from the United States often print SRM as “Lovibond”.",
		Examples: []string{"colour 3.5 EBC", "colour 2 SRM", "colour 40 °L", "colour a430 0.2"},
		compute:  colour,
	},
	{
		Name: "diastatic", Aliases: []string{"dp", "power"}, Subject: "Malt", Title: "Diastatic power on both scales",
		Inputs:   []Input{{Key: "dp", Words: []string{"power"}, Doc: "diastatic power", In: []unit.Dimension{unit.DiastaticPower}, Must: true}},
		Note:     "The line is the trade's; another, 0.3 WK + 4, is in print and differs by 4 % at 250 WK.",
		Examples: []string{"diastatic 100 Lintner", "diastatic 250 WK"},
		compute:  diastatic,
	},
	{
		Name: "kolbach", Aliases: []string{"s/t", "snr"}, Subject: "Malt", Title: "Kolbach index from its two parts",
		Inputs: []Input{
			{Key: "soluble", Words: []string{"s"}, Doc: "soluble protein or nitrogen", In: []unit.Dimension{unit.MassFraction}, Must: true},
			{Key: "total", Words: []string{"t"}, Doc: "total protein or nitrogen", In: []unit.Dimension{unit.MassFraction}, Must: true},
		},
		Note:     "Both protein or both nitrogen. Of a blend, mix the parts first and divide then.",
		Examples: []string{"kolbach 0.643 % dm of 1.664 % dm", "kolbach soluble=4.3 % dm total=10.8 % dm"},
		compute:  kolbach,
	},
}
