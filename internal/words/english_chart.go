package words

// chartPhrases are the words of origins and of what sensors read in time.
var chartPhrases = map[string]string{
	"origin.part":        "part",
	"origin.figure":      "{share} ({band})",
	"origin.more":        "{count} more",
	"origin.says.behind": "An arm for each part, as thick as its share: dark the least that it can be, edged the likeliest, pale the most.",
	"origin.says.ahead":  "An arm for each place that holds some of it, as thick as its share of what is found: dark the least that it can be, edged the likeliest, pale the most.",
}
