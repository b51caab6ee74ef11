package reckon

import (
	"slices"

	"awn/unit"
)

// countInput is a number of kernels that is read behind its name.
func countInput(key, doc string, words ...string) Input {
	return Input{Key: key, Words: words, Doc: doc, Least: 0, Most: 1e6, Named: true}
}

// ofInput is how many kernels were laid out.
var ofInput = Input{Key: "of", Doc: "kernels laid out", Least: 1, Most: 1e6, Once: true, Named: true, Default: "100"}

// ofKind is a dimension with the units of one kind only.
func ofKind(d unit.Dimension, kind string) unit.Dimension {
	d.Units = slices.DeleteFunc(slices.Clone(d.Units), func(u unit.Unit) bool { return u.Kind != kind })
	return d
}

var (
	perTonne = ofKind(unit.Airflow, unit.KindPerTonne)
	perMass  = ofKind(unit.Concentration, unit.KindPerMass)
)

// lives are the entries on what is alive: corns, stores and beds.
var lives = []Entry{
	{
		Name: "life", Aliases: []string{"dormancy", "dormant", "dead", "sprout"}, Subject: "Life", Title: "Dead, dormant, sensitive to water or sprouted",
		Inputs: []Input{
			countInput("ge4", "germinated in 4 mL at 72 h", "GE4", "ge", "GE", "energy"),
			countInput("ge8", "germinated in 8 mL at 72 h", "GE8"),
			countInput("gc", "alive by the capacity test", "GC", "capacity"),
			ofInput,
			{Key: "rvu", Words: []string{"RVU", "viscosity"}, Doc: "viscosity of the slurry, RVU", Least: 0, Most: 1000, Named: true},
			{Key: "falling", Words: []string{"FN", "falling-number"}, Doc: "falling number", In: []unit.Dimension{unit.Duration}, Named: true},
			{Key: "confidence", Doc: "chance that the limits hold the lot", In: []unit.Dimension{unit.Percent}, Named: true, Default: "95 %"},
		},
		Note: "Dead is what the capacity test does not wake; dormant is capacity less energy; sensitive is 4 mL less 8 mL. Sampling alone can make a " +
			"difference negative. A count does not show sprout before harvest: that takes the viscosity or the falling number.",
		Examples: []string{"life GE4 72 GE8 41 GC 99 RVU 165", "life GE4 96 GE8 90 GC 97 RVU 42", "life GE4 470 GC 492 of 500"},
		compute:  life,
	},
	{
		Name: "vigour", Aliases: []string{"index", "homogeneity", "vigor"}, Subject: "Life", Title: "Energy, index, mean time and homogeneity from daily counts",
		Inputs: []Input{
			{Key: "count", Words: []string{"n"}, Doc: "germinated", Least: 0, Most: 1e6, Must: true},
			{Key: "at", Doc: "time since wetting", In: []unit.Dimension{unit.Duration}, Must: true},
			{Key: "counting", Doc: "way of counting", Choices: []string{"running", fresh}, Once: true, Default: "running"},
			ofInput,
		},
		Again: "then",
		Note: "“running” is the total so far at each look, “fresh” the newly germinated alone. In brackets the limits of sampling, 90 in 100. The energy is read at 72 h, the index at 24, 48 and 72 h. A corn counts at the look " +
			"that found it, so the mean time is late by about half the time between looks.",
		Examples: []string{"vigour 60 at 24 h then 92 at 48 h then 97 at 72 h", "vigour fresh 236 at 24 h then 156 at 48 h then 4 at 72 h of 400"},
		compute:  vigour,
	},
	{
		Name: "bin", Aliases: []string{"clock", "safe-days", "storage"}, Subject: "Life", Title: "Safe days in a bin, by a clock that never starts again",
		Inputs: []Input{
			{Key: "days", Words: []string{"for"}, Doc: "time it has lain so", In: []unit.Dimension{unit.Duration}},
			moistureInput("moisture", "moisture"),
			{Key: "t", Words: []string{"temperature"}, Doc: "temperature of the grain", In: []unit.Dimension{unit.Temperature}, Must: true},
			{Key: "keep", Words: []string{"buyer"}, Doc: "time it must still keep", In: []unit.Dimension{unit.Duration}, Once: true, Named: true},
			{Key: "cooled", Doc: "what it would have left if it were cooled to", In: []unit.Dimension{unit.Temperature}, Once: true, Named: true},
		},
		Again: "then",
		Note: wetNote + " Give the conditions in their order; the last are those of now, and need no time. Days count to 95 % germination, and a plan takes 70 % " +
			"of them. The printed chart holds for 13 to 18 % and 60 to 80 °F; at 17 % it says 25 to 30 days, and both are worked.",
		Examples: []string{"bin 15 d at 17 % 70 °F then 13 % 70 °F keep 150 d", "bin 15 d at 17 % 70 °F then 13 % 70 °F cooled 60 °F", "bin 40 d at 14.5 % 20 °C"},
		compute:  bin,
	},
	{
		Name: "germinating", Aliases: []string{"box", "piece"}, Subject: "Life", Title: "What a germinating bed tells: air that passes, hours to a limit",
		Inputs: []Input{
			{Key: "on", Words: []string{"air-on"}, Doc: "air-on", In: []unit.Dimension{unit.Temperature}, Must: true},
			{Key: "top", Words: []string{"warmest"}, Doc: "warmest layer", In: []unit.Dimension{unit.Temperature}, Must: true},
			{Key: "rise", Doc: "how fast it warms", In: []unit.Dimension{unit.Warming}, Default: "0 K/h"},
			{Key: "heat", Doc: "heat of growth", In: []unit.Dimension{unit.GrowthHeat}, Default: "2 W/kg dm"},
			{Key: "asked", Words: []string{"fan", "air"}, Doc: "air that the fan is asked for", In: []unit.Dimension{perTonne}},
			{Key: "limit", Doc: "limit for the warmest layer", In: []unit.Dimension{unit.Temperature}, Named: true, Default: "24 °C"},
			{Key: "rh", Words: []string{"humidity"}, Doc: "humidity of the air-on", In: []unit.Dimension{unit.Percent}, Named: true, Default: "98 %"},
			{Key: "moisture", Doc: "moisture of the bed", In: []unit.Dimension{unit.Moisture}, Also: wetPercent, Named: true, Default: "44 % wb"},
			{Key: "barley", Doc: "moisture of the barley as cast", In: []unit.Dimension{unit.Moisture}, Also: wetPercent, Named: true, Default: "12 % wb"},
			{Key: "altitude", Doc: "altitude above the sea", In: []unit.Dimension{unit.Altitude}, Named: true, Default: "0 m"},
		},
		Note: "Growth gives off about 2 W/kg dm at its height and half of that on the first and the last day (common practice, no source). The air is " +
			"taken to leave saturated at the warmest layer, and the whole bed to warm as fast as that. Air counts by the tonne of barley as cast, at 20 °C and 1013 hPa.",
		Examples: []string{"germinating air-on 14 °C top 18 °C", "germinating air-on 14 °C top 21 °C rise 0.5 K/h asked 500 m3/h/t", "germinating air-on 57 °F top 66 °F rise 1 °F/h asked 12 cfm/bu"},
		compute:  germinating,
	},
}
