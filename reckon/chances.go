package reckon

import "awn/unit"

// analyses are the dimensions in which a laboratory's figure may stand.
var analyses = []unit.Dimension{
	unit.Percent, unit.Moisture, unit.MassFraction, perMass, unit.Trace, unit.Colour, unit.DiastaticPower, unit.AlphaAmylase,
	unit.AminoNitrogen, unit.TestWeight, unit.KernelWeight, unit.Viscosity, unit.SpiritYield,
}

// readInput is a laboratory's figure.
func readInput(key, doc string, words ...string) Input {
	return Input{Key: key, Words: words, Doc: doc, In: analyses, Must: true}
}

// limitInput is a limit for a laboratory's figure.
func limitInput(key, doc string, words ...string) Input {
	return Input{Key: key, Words: words, Doc: doc, In: analyses, Named: true}
}

// precisionInputs name a method whose precision is published, or give it.
var precisionInputs = []Input{
	{Key: "within", Words: []string{"r95", "R95"}, Doc: "what two laboratories may differ by, 19 times in 20", In: analyses, Named: true},
	{Key: "figure", Doc: "figure whose published precision is taken", Choices: []string{"moisture", "nitrogen", "soluble-nitrogen", "diastatic-power", "alpha-amylase"}},
	{Key: "matrix", Doc: "what was analysed", Choices: []string{"barley", "malt"}},
	{Key: "method", Doc: "by which method, if several are published", Choices: []string{"near-infrared", "combustion"}},
}

const precisionNote = "Write all figures in one unit. Without “within”, name the figure and its published precision is taken; extract, friability, viscosity and " +
	"beta-glucan have none that was found."

// chances are the entries on how sure one can be.
var chances = []Entry{
	{
		Name: "counted", Aliases: []string{"met"}, Subject: "Odds", Title: "Chance that a lot truly meets a limit, from a count of kernels",
		Inputs: []Input{
			{Key: "count", Words: []string{"n"}, Doc: "kernels that did it", Least: 0, Most: 1e6, Must: true},
			{Key: "of", Doc: "kernels laid out", Least: 1, Most: 1e6, Must: true},
			{Key: "least", Words: []string{"at-least", "over"}, Doc: "limit, at least", In: []unit.Dimension{unit.Percent}},
			{Key: "most", Words: []string{"at-most", "under"}, Doc: "limit, at most", In: []unit.Dimension{unit.Percent}, Named: true},
		},
		Note:     "Sampling alone, and nothing else known of the lot: if most lots that come are good, the chance is better than it says.",
		Examples: []string{"counted 97 of 100 at-least 98 %", "counted 3 of 200 at-most 4 %"},
		compute:  counted,
	},
	{
		Name: "measured", Aliases: []string{"verdict"}, Subject: "Odds", Title: "Chance that a lot truly meets a limit, from a laboratory's figure",
		Inputs: append([]Input{
			readInput("read", "what the laboratory found"),
			limitInput("least", "limit, at least", "at-least", "over"),
			limitInput("most", "limit, at most", "at-most", "under"),
		}, precisionInputs...),
		Note:     precisionNote + " The truth is the mean of many laboratories; how the sample stands for the lot comes on top.",
		Examples: []string{"measured malt moisture 4.2 % wb at-most 5 % wb", "measured 4.6 % wb at-most 5 % wb within 0.8 % wb", "measured barley nitrogen combustion 1.6 % dm at-most 1.7 % dm"},
		compute:  measured,
	},
	{
		Name: "labs", Aliases: []string{"laboratories", "differ"}, Subject: "Odds", Title: "Two laboratories that differ",
		Inputs:   append([]Input{readInput("one", "one laboratory found"), readInput("other", "the other found")}, precisionInputs...),
		Note:     precisionNote,
		Examples: []string{"labs malt moisture 4.0 % wb and 4.3 % wb", "labs 78.4 % dm and 80.1 % dm within 1.2 % dm", "labs barley nitrogen combustion 1.52 % dm and 1.71 % dm"},
		compute:  labs,
	},
	{
		Name: "plan", Aliases: []string{"accept", "operating-curve", "oc"}, Subject: "Odds", Title: "What a rule on a count lets in and keeps out",
		Inputs: []Input{
			{Key: "least", Words: []string{"at-least", "n"}, Doc: "kernels that must germinate", Least: 0, Most: 1e6, Must: true},
			{Key: "of", Doc: "kernels laid out", Least: 1, Most: 1e6, Must: true},
			{Key: "truth", Words: []string{"true"}, Doc: "what the lot truly germinates", In: []unit.Dimension{unit.Percent}},
		},
		Note:     "Kernels drawn fairly from a lot so large that drawing them does not change it.",
		Examples: []string{"plan 95 of 100 true 93 %", "plan 98 of 100 true 98 %", "plan 380 of 400"},
		compute:  accepted,
	},
	{
		Name: "replicates", Aliases: []string{"tolerance", "range"}, Subject: "Odds", Title: "How far the replicates of a germination test may lie apart",
		Inputs: []Input{
			{Key: "mean", Doc: "mean of the replicates", In: []unit.Dimension{unit.Percent}, Must: true},
			{Key: "replicates", Doc: "how many", Least: 2, Most: 100, Default: "4"},
			{Key: "kernels", Words: []string{"by"}, Doc: "kernels in each", Least: 1, Most: 1e5, Default: "100"},
			{Key: "range", Words: []string{"spread"}, Doc: "best less worst", In: []unit.Dimension{unit.Percent}, Named: true},
		},
		Note:     "Beyond the tolerated range, which sampling passes once in forty tests, the test is repeated.",
		Examples: []string{"replicates 96 %", "replicates 93 % 4 by 100 range 11 %", "replicates mean 95 % replicates 3"},
		compute:  replicates,
	},
	{
		Name: "don", Aliases: []string{"toxin", "DON", "deoxynivalenol"}, Subject: "Odds", Title: "What a sample can say of deoxynivalenol in a lot",
		Inputs: []Input{
			{Key: "truth", Words: []string{"true"}, Doc: "what the lot truly holds", In: []unit.Dimension{perMass}, Named: true},
			{Key: "read", Doc: "what the analysis read", In: []unit.Dimension{perMass}, Named: true},
			{Key: "limit", Doc: "limit", In: []unit.Dimension{perMass}, Named: true},
			{Key: "sample", Doc: "ground sample", In: []unit.Dimension{unit.Mass}, Named: true, Default: "454 g"},
			{Key: "portion", Doc: "portion of it that is extracted", In: []unit.Dimension{unit.Mass}, Named: true, Default: "25 g"},
			{Key: "analyses", Doc: "analyses of that portion", Least: 1, Most: 100, Named: true, Default: "1"},
		},
		Note: "The law was found on wheat and stands in for barley. Malting can raise or lower what barley holds. How a lot may be sampled, and what may " +
			"be done with one over its limit, is for the law of the place: this replaces no official sample.",
		Examples: []string{"don true 1.2 mg/kg limit 1 mg/kg", "don read 0.9 mg/kg limit 1 mg/kg sample 2.27 kg portion 50 g", "don true 0.9 ppm limit 1 ppm sample 10 lb portion 100 g analyses 2"},
		compute:  toxin,
	},
	{
		Name: "weigh", Aliases: []string{"scales", "reconcile"}, Subject: "Odds", Title: "What scales and moistures imply when they disagree",
		Inputs: []Input{
			{Key: "at", Doc: "at", Choices: []string{"truck", "hopper", "belt", "silo", "lab", "dryer", "barley", "malt"}, Default: "silo"},
			{Key: "mass", Words: []string{"m"}, Doc: "mass as it stood", In: []unit.Dimension{unit.Mass}},
			{Key: "moisture", Doc: "moisture", In: []unit.Dimension{unit.Moisture}, Also: wetPercent},
			{Key: "off", Words: []string{"culms", "screenings"}, Doc: "weighed and taken out since the part before", In: []unit.Dimension{unit.Mass}, Named: true},
			{Key: "lost", Doc: "share of the dry matter gone unweighed since then", In: []unit.Dimension{unit.Percent}, Named: true},
			{Key: "scale", Doc: "deviation of the scale, a share of its reading", In: []unit.Dimension{unit.Percent}, Named: true},
			{Key: "tester", Doc: "deviation of the moisture, in points", In: []unit.Dimension{unit.Percent}, Named: true},
		},
		Again: "then",
		Note: wetNote + " Each part is a place where the same grain was weighed, tested or both; “dryer” and “malt” say that its moisture changed on the way, " +
			"and “malt” that 6 ± 1.2 % of the dry matter was leached and respired unless “lost” says otherwise. A scale is taken to " +
			"deviate by 0.3 % of its reading and a moisture by 0.3 points, one standard deviation, unless “scale” and “tester” say otherwise. " +
			"One balance can say that something is wrong but not what: give every scale and tester that the grain has passed.",
		Examples: []string{
			"weigh truck 25.3 t 14 % then silo 24.9 t scale 1 %",
			"weigh truck 25.3 t 16 % then dryer 24.5 t 13.4 % then silo 23.9 t",
			"weigh barley 205 t 12.3 % then malt 168.5 t 4.6 % culms 7.1 t",
		},
		compute: scales,
	},
}
