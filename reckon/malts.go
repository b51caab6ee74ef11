package reckon

import "awn/unit"

// malts are the entries on malt and its analysis.
var malts = []Entry{
	{
		Name: "extract", Subject: "Malt", Title: "Extract as-is and dry, in per cent, L°/kg and points",
		Inputs: []Input{
			{Key: "extract", Words: []string{"e"}, Doc: "extract", In: []unit.Dimension{unit.MassFraction}, Must: true},
			moistureInput("moisture", "moisture of the malt"),
		},
		Note:     "A change of units, not of mash: hot water extract by its own mash is not the Congress figure in L°/kg. " + wetNote,
		Examples: []string{"extract 80.5 % dm 4.5 %", "extract 76.2 % asis moisture 4.5 %"},
		compute:  extract,
	},
	{
		Name: "congress", Subject: "Malt", Title: "Extract from the strength of a Congress wort",
		Inputs: []Input{
			{Key: "wort", Words: []string{"p"}, Doc: "strength of the wort", In: []unit.Dimension{unit.Gravity}, Must: true},
			moistureInput("moisture", "moisture of the malt"),
		},
		Note:     wetNote,
		Examples: []string{"congress 8.65 °P 4.5 %"},
		compute:  congress,
	},
	{
		Name: "colour", Aliases: []string{"color"}, Subject: "Malt", Title: "Colour of wort on the three scales",
		Inputs:   []Input{{Key: "colour", Words: []string{"color"}, Doc: "colour", In: []unit.Dimension{unit.Colour}, Must: true}},
		Note:     "°L is by eye against glasses and estimated here; sheets from the United States often print SRM as “Lovibond”.",
		Examples: []string{"colour 3.5 EBC", "colour 2 SRM", "colour 40 °L"},
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

// beers are the entries on what malt becomes.
var beers = []Entry{
	{
		Name: "wort", Aliases: []string{"plato", "gravity", "sg"}, Subject: "Brewing", Title: "Strength of a wort: Plato, gravity, extract in a litre",
		Inputs: []Input{
			{Key: "plato", Words: []string{"p"}, Doc: "strength", In: []unit.Dimension{unit.Gravity}},
			{Key: "sg", Words: []string{"gravity"}, Doc: "gravity at 20 °C", Least: 1, Most: 1.2},
		},
		Examples: []string{"wort 12 °P", "wort 1.048"},
		compute:  wort,
	},
	{
		Name: "grist", Subject: "Brewing", Title: "Malt for a volume of wort",
		Inputs: []Input{
			{Key: "volume", Words: []string{"v"}, Doc: "cold wort", In: []unit.Dimension{unit.Volume}, Must: true},
			{Key: "wort", Words: []string{"p"}, Doc: "its strength", In: []unit.Dimension{unit.Gravity}, Must: true},
			{Key: "extract", Words: []string{"e"}, Doc: "fine extract of the malt", In: []unit.Dimension{unit.MassFraction}, Must: true},
			{Key: "yield", Doc: "brewhouse yield over the laboratory", In: []unit.Dimension{unit.Percent}, Default: "95 %"},
		},
		Note:     "The extract must be as-is (“% asis”): “awn reckon extract” turns a dry one. A yield of 95 % is common practice, no source.",
		Examples: []string{"grist 100 hL 12 °P 76.18 % asis yield 95 %"},
		compute:  grist,
	},
	{
		Name: "alcohol", Aliases: []string{"abv", "attenuation"}, Subject: "Brewing", Title: "Alcohol and attenuation of a beer",
		Inputs: []Input{
			{Key: "original", Words: []string{"from", "oe"}, Doc: "original extract", In: []unit.Dimension{unit.Gravity}, Must: true},
			{Key: "final", Words: []string{"to", "ae"}, Doc: "apparent extract now", In: []unit.Dimension{unit.Gravity}, Must: true},
		},
		Examples: []string{"alcohol from 12 °P to 2.5 °P"},
		compute:  alcohol,
	},
	{
		Name: "spirit", Aliases: []string{"psy"}, Subject: "Brewing", Title: "Litres of pure alcohol from a tonne of malt",
		Inputs: []Input{
			{Key: "extract", Words: []string{"e"}, Doc: "extract of the malt", In: []unit.Dimension{unit.MassFraction}, Must: true},
			{Key: "fermentability", Words: []string{"f"}, Doc: "share of it that ferments", In: []unit.Dimension{unit.Percent}, Default: "87 %"},
		},
		Note:     "A fermentability of 87 % is common practice, no source: take the laboratory's own.",
		Examples: []string{"spirit 78.5 % asis", "spirit 78.5 % asis fermentability 86 %"},
		compute:  spirit,
	},
}
