package words

// sumFindings and sumActs are what single sums have to say.
var (
	sumFindings = map[string]string{
		"intake.sieve.guessed":        "what the slots beside it let expect is no result of a sieving.",
		"steep.sample.not-blotted":    "the sample was weighed with the water on its skin: {moisture_wb} is 1 to 2 points too much, blotted it would hold {low_wb} to {high_wb}.",
		"malt.*.meets":                "{parameter} comes to {found} and keeps the limit of {limit-of}.",
		"malt.kolbach.mean-of-ratios": "S/T of a blend is its soluble over its total nitrogen, {kolbach}; the mean of the parts' own S/T, {mean_kolbach}, is not it.",
		"malt.blend.lots":             "this is {lots_n} lots under one name; extract and nitrogen add up, how it runs off does not.",
		"malt.blend.room":             "every limit is kept with {least_tenths} to {most_tenths} of the second malt.",
		"malt.blend.no-room":          "no blend of these two keeps every limit.",
	}
	sumActs = map[string]string{
		"act.steep.blot":       "Blot the sample and weigh it again before you judge the steep.",
		"act.malt.blend-again": "Take less of the malt that misses it, and analyse the blend before it goes out.",
		"act.malt.disclose":    "Tell the brewer of each.",
		"act.malt.third":       "Use them apart, or bring in a third malt.",
	}
)
