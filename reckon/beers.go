package reckon

import "awn/unit"

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
			{Key: "wort", Words: []string{"p"}, Doc: "its strength", In: []unit.Dimension{unit.Gravity}},
			{Key: "sg", Words: []string{"gravity"}, Doc: "its gravity, in place of the strength", Least: 1, Most: 1.083},
			{Key: "extract", Words: []string{"e"}, Doc: "fine extract of the malt", In: []unit.Dimension{unit.MassFraction}, Must: true},
			{Key: "yield", Doc: "brewhouse yield over the laboratory", In: []unit.Dimension{unit.Percent}, Default: "95 %"},
		},
		Note:     "The extract must be as-is (“% asis”): “awn reckon extract” turns a dry one. A yield of 95 % is common practice, no source.",
		Examples: []string{"grist 100 hL 12 °P 76.18 % asis yield 95 %", "grist 500 gal sg 1.048 76.18 % asis yield 90 %"},
		compute:  grist,
	},
	{
		Name: "alcohol", Aliases: []string{"abv", "attenuation"}, Subject: "Brewing", Title: "Alcohol and attenuation of a beer",
		Inputs: []Input{
			{Key: "original", Words: []string{"from", "oe"}, Doc: "original extract", In: []unit.Dimension{unit.Gravity}},
			{Key: "final", Words: []string{"to", "ae"}, Doc: "apparent extract now", In: []unit.Dimension{unit.Gravity}},
			{Key: "og", Doc: "original gravity, in place of the extract", Least: 1, Most: 1.083},
			{Key: "fg", Doc: "gravity now", Least: 1, Most: 1.083},
		},
		Note:     "Balling's account. A hydrometer reads low in alcohol: what it shows is apparent, the real extract is what is left.",
		Examples: []string{"alcohol from 12 °P to 2.5 °P", "alcohol og=1.048 fg=1.010"},
		compute:  alcohol,
	},
	{
		Name: "original", Aliases: []string{"original-extract"}, Subject: "Brewing", Title: "Original extract of a beer from what is in it",
		Inputs: []Input{
			{Key: "alcohol", Words: []string{"abw"}, Doc: "alcohol by mass", In: []unit.Dimension{unit.Percent}, Must: true},
			{Key: "real", Words: []string{"re"}, Doc: "real extract", In: []unit.Dimension{unit.Gravity}, Must: true},
		},
		Note:     "Alcohol by mass, not by volume; real extract, not what a hydrometer shows in the beer.",
		Examples: []string{"original 4.0146 % and 4.2176 °P"},
		compute:  original,
	},
	{
		Name: "fermented", Aliases: []string{"co2", "products"}, Subject: "Brewing", Title: "What fermented extract becomes: alcohol, carbon dioxide, yeast",
		Inputs:   []Input{{Key: "extract", Words: []string{"e"}, Doc: "extract that ferments", In: []unit.Dimension{unit.Mass}, Must: true}},
		Note:     "Balling's account. Carbon dioxide lies in cellars and pits and kills unseen: measure with a calibrated meter before anyone enters, and keep to local rules.",
		Examples: []string{"fermented 2.0665 kg", "fermented 1000 lb"},
		compute:  fermented,
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
