package reckon

import "awn/unit"

// wetPercent is how people write a moisture.
var wetPercent = map[string]string{"%": "% wb"}

const wetNote = "“%” alone is read as per cent of the moist grain, “% wb”."

// moistureInput is a moisture under a name.
func moistureInput(key, doc string, words ...string) Input {
	return Input{Key: key, Words: words, Doc: doc, In: []unit.Dimension{unit.Moisture}, Also: wetPercent, Must: true}
}

var grain = []Entry{
	{
		Name: "moisture", Subject: "Barley", Title: "Moisture on wet and on dry basis",
		Inputs:   []Input{moistureInput("moisture", "moisture")},
		Note:     wetNote,
		Examples: []string{"moisture 13.5 % wb", "moisture 78 % db"},
		compute:  moisture,
	},
	{
		Name: "water", Aliases: []string{"wet", "dry"}, Subject: "Barley", Title: "What grain weighs at another moisture, and the water between",
		Inputs: []Input{
			{Key: "mass", Words: []string{"m"}, Doc: "mass of the grain", In: []unit.Dimension{unit.Mass}, Must: true},
			moistureInput("from", "moisture it has"),
			moistureInput("to", "moisture it shall have"),
		},
		Note:     wetNote + " Dry matter alone: “awn reckon ticket” puts a posted rule and handling beside it.",
		Examples: []string{"water 25 t from 16 % to 13.5 %", "water 1000 bu from 12 % to 44 % in bu"},
		compute:  water,
	},
	{
		Name: "steeped", Subject: "Barley", Title: "Moisture of a steeped sample by its gain in weight",
		Inputs: []Input{
			{Key: "dry", Doc: "sample as it was laid in", In: []unit.Dimension{unit.Mass}, Must: true},
			moistureInput("moisture", "its moisture then"),
			{Key: "wet", Words: []string{"steeped", "to"}, Doc: "sample as steeped", In: []unit.Dimension{unit.Mass}, Must: true},
			{Key: "surface", Doc: "how it was dried off", Choices: []string{"blotted", "unblotted"}, Default: "blotted"},
			{Key: "leach", Doc: "share of the dry matter gone into the water", In: []unit.Dimension{unit.Percent}, Named: true, Default: "0 %"},
		},
		Note:     wetNote + " A sample that is only drained reads 1 to 2 points high (common practice, no source); in brackets what it holds blotted.",
		Examples: []string{"steeped 100 g at 12.4 % to 156.9 g", "steeped 100 g at 12.4 % to 156.9 g leach 0.8 %", "steeped 100 g at 12.4 % to 162 g unblotted"},
		compute:  steeped,
	},
	{
		Name: "test-weight", Aliases: []string{"testweight", "hectolitre", "bushel-weight"}, Subject: "Barley", Title: "Test weight on both bushels and per hectolitre",
		Inputs:   []Input{{Key: "tw", Doc: "test weight", In: []unit.Dimension{unit.TestWeight, unit.CupWeight}, Must: true}},
		Note:     "lb/bu is per Winchester bushel, the United States measure; “lb/bu imperial” is the other. The line from grams in half a litre holds for one cup; another in print, 0.1552 lb/bu a gram, gives 4 % less.",
		Examples: []string{"test-weight 48 lb/bu", "test-weight 48 lb/bu imperial", "test-weight 65 kg/hL", "test-weight 310 g/0.5 L"},
		compute:  testWeight,
	},
	{
		Name: "protein", Aliases: []string{"nitrogen"}, Subject: "Barley", Title: "Protein and nitrogen",
		Inputs: []Input{
			{Key: "protein", Words: []string{"p"}, Doc: "protein", In: []unit.Dimension{unit.MassFraction}},
			{Key: "n", Words: []string{"nitrogen"}, Doc: "nitrogen", In: []unit.Dimension{unit.MassFraction}, Named: true},
		},
		Examples: []string{"protein 11.2 % dm", "protein n=1.664 % dm"},
		compute:  protein,
	},
	{
		Name: "basis", Aliases: []string{"dm", "as-is"}, Subject: "Barley", Title: "A content as-is, on dry matter and at another moisture",
		Inputs: []Input{
			{Key: "content", Words: []string{"x"}, Doc: "content", In: []unit.Dimension{unit.MassFraction}, Must: true},
			moistureInput("moisture", "moisture of the grain"),
			{Key: "on", Words: []string{"basis"}, Doc: "moisture that it shall be told at", In: []unit.Dimension{unit.Moisture}, Also: wetPercent, Named: true},
		},
		Note:     wetNote + " Never compare two contents before both stand on one basis.",
		Examples: []string{"basis 10.12 % asis 12 %", "basis 11.5 % dm 12 % on 13.5 %"},
		compute:  basis,
	},
	{
		Name: "count", Aliases: []string{"germination", "kernels"}, Subject: "Barley", Title: "What a count of kernels says of the lot",
		Inputs: []Input{
			{Key: "count", Words: []string{"n"}, Doc: "kernels that did it", Least: 0, Most: 1e6, Must: true},
			{Key: "of", Doc: "kernels laid out", Least: 1, Most: 1e6, Must: true},
			{Key: "confidence", Doc: "chance that the limits hold the lot", In: []unit.Dimension{unit.Percent}, Named: true, Default: "95 %"},
		},
		Note:     "Sampling alone: that the sample was drawn fairly is assumed. The exact limits are never too narrow; the score limits are right on average.",
		Examples: []string{"count 97 of 100", "count 485 of 500 confidence 90 %"},
		compute:  count,
	},
	{
		Name: "emc", Aliases: []string{"equilibrium", "isotherm"}, Subject: "Barley", Title: "Barley or malt at rest with the air around it",
		Inputs: []Input{
			{Key: "grain", Doc: "grain", Choices: []string{"barley", "malt"}, Default: "barley"},
			{Key: "t", Words: []string{"temperature"}, Doc: "temperature", In: []unit.Dimension{unit.Temperature}, Must: true},
			{Key: "rh", Words: []string{"humidity"}, Doc: "relative humidity of the air", In: []unit.Dimension{unit.Percent}, Also: map[string]string{"%rh": "%", "% rh": "%"}},
			{Key: "moisture", Doc: "moisture of the grain", In: []unit.Dimension{unit.Moisture}},
		},
		Note:     "In brackets: barley, what the published isotherms span, drying grain near the top and wetting grain near the bottom; malt, 10 % of the moisture. A moisture must say its basis here, for “%” alone is the air's humidity.",
		Examples: []string{"emc barley 15 °C 65 %", "emc malt 20 °C 4.5 % wb"},
		compute:  equilibrium,
	},
}
