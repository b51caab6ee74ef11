package words

// Sentences of what a house does before the steep, after the kiln and with its
// water, and of what lies outside the model.
var houseFindings = map[string]string{
	"lot.screenings.high": "{lost_tenths} of the barley as received goes in screenings, dust and foreign matter: {screenings_kg} of screenings from {received_t}.",
}

var houseActs = map[string]string{
	"act.lot.plumper-or-narrower-slot": "Buy plumper barley, pay for what the screens leave, or screen at a narrower slot.",
}

var housePhrases = map[string]string{
	"row.received":           "received",
	"cleaned.lost":           "{screened} screened out{second}, {dust} dust and foreign",
	"cleaned.second":         ", {second} second grade",
	"table.cleaned":          "From the pit to the steep",
	"head.dry":               "of it dry matter, {unit}",
	"cleaned.received":       "received",
	"cleaned.dust":           "dust, drawn off",
	"cleaned.foreign":        "straw, stones and other seeds",
	"cleaned.cleaned":        "cleaned",
	"cleaned.screened":       "screenings, to feed",
	"cleaned.second-grade":   "second grade, kept apart",
	"cleaned.steeped":        "steeped",
	"cleaned.dried":          "water dried off before the steep",
	"cleaned.for":            "screenings and second grade fetch",
	"yield.extract-steeped":  "extract of a tonne of dry matter steeped",
	"yield.extract-received": "extract of a tonne of dry matter received",
	"yield.received-dry":     "dry matter of dry matter received",
	"yield.cleaned-dry":      "dry matter of dry matter cleaned",
}
