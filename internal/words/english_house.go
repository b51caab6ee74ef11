package words

// Sentences of what a house does before the steep, after the kiln and with its
// water, and of what lies outside the model.
var houseFindings = map[string]string{
	"lot.screenings.high": "{lost_tenths} of the barley as received goes in screenings, dust and foreign matter: {screenings_kg} of screenings from {received_t}.",
	"malt.rest.short":     "the malt is to rest {rest_d} before it is sent out, where {usual_d} are usual; fresh malt runs off slowly.",
	"malt.store.damp":     "the malt goes from {stripped_wb} to {sent_wb} in {rest_d} of rest in moving air; malt that lies open to that air settles at {outer_wb}.",
	"malt.store.sweats":   "the air between the corns has its dew point at {dew_c} and it is {wall_c} outside: it sweats on the walls of the silo.",
}

var houseActs = map[string]string{
	"act.lot.plumper-or-narrower-slot": "Buy plumper barley, pay for what the screens leave, or screen at a narrower slot.",
	"act.malt.rest-longer":             "Let the malt rest longer, or agree a shorter rest with whoever mashes it.",
	"act.malt.close-store":             "Close the silo, or send the malt out sooner.",
}

var housePhrases = map[string]string{
	"rest.line":              "After {rest} at rest in a closed silo it is sent out at {moisture}.",
	"rest.line-aired":        "After {rest} at rest in a ventilated silo it is sent out at {moisture}.",
	"rest.none":              "It is sent out as it is stripped.",
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
