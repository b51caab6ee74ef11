package paper

import (
	"maps"
	"slices"

	"awn/unit"
)

// Level says who can find a fault.
type Level string

// The levels.
const (
	OfText  Level = "text"  // of the text itself: a schema never sees it
	OfShape Level = "shape" // of keys and values: reader and schema give the same verdict
	OfSense Level = "sense" // of values that do not agree: only the reader
)

// Code is one kind of fault.
type Code struct {
	Code     string
	Level    Level
	Sentence string // with places for {got}, {allowed} and {nearest}
}

// Codes lists every fault of a document, in alphabetical order.
var Codes = codes()

func codes() []Code {
	all := slices.Clone(ownCodes)
	for _, code := range slices.Sorted(maps.Keys(unit.Sentences)) {
		all = append(all, Code{code, OfShape, unit.Sentences[code]})
	}
	slices.SortFunc(all, func(a, b Code) int {
		if a.Code < b.Code {
			return -1
		}
		return 1
	})
	return all
}

var ownCodes = []Code{
	{"trial.trait.window", OfSense, `A window must say where it begins or ends: low, high, or both.`},
	{"trial.trait.ends", OfSense, `{got} has no ends: low and high belong to a window.`},
	{"trial.trait.crossed", OfSense, `{got} lies below where the window begins.`},
	{"trial.limit.crossed", OfSense, `{got} lies below the least value.`},
	{"trial.candidate.years", OfSense, `{got} is not after the year of the cross or of the step before.`},
	{"trial.fact.check-missing", OfSense, `A figure of a candidate and that of the check (found, of_check) stand together.`},
	{"trial.stage.years", OfSense, `{got} lies before the year in which the stage begins.`},
	{"survey.column.unknown", OfSense, `{got} is nothing that a column of samples holds{nearest}.`},
	{"survey.price.currency", OfSense, `This contract counts in {got}, another price here in {allowed}; a survey counts in one currency.`},
	{"document.text.empty", OfText, `The document is empty.`},
	{"document.text.size", OfText, `The document is too large: {allowed}.`},
	{"document.text.encoding", OfText, `The document is not UTF-8 text.`},
	{"document.text.depth", OfText, `The document is nested too deeply: {allowed}.`},
	{"document.text.syntax", OfText, `This is not YAML: {got}.`},
	{"document.text.many", OfText, `One file holds one document; a second begins here.`},
	{"document.text.reference", OfText, `{got}: anchors, aliases, merges, tags and directives are not read; write the value out.`},
	{"document.kind.first", OfText, `The first key must be awn, as in {allowed}.`},
	{"document.kind.missing", OfShape, `The document does not say what it is; begin it with {allowed}.`},
	{"document.kind.wrong", OfShape, `{got} is not read here{nearest}; it should be {allowed}.`},
	{"document.key.unknown", OfShape, `{got} is not a key here{nearest}; the keys are {allowed}.`},
	{"document.key.duplicate", OfText, `{got} stands here twice.`},
	{"document.key.form", OfText, `A key must be a plain word.`},
	{"document.key.missing", OfShape, `{got} is missing.`},
	{"document.rule.one", OfShape, `Exactly one of {allowed} must stand here.`},
	{"document.rule.some", OfShape, `At least one of {allowed} must stand here.`},
	{"document.value.missing", OfShape, `{got} has no value; leave the key out if it is not known.`},
	{"document.value.type", OfShape, `{got} cannot stand here; {allowed} is wanted.`},
	{"document.value.word", OfShape, `{got} is not a word for this{nearest}; the words are {allowed}.`},
	{"document.value.match", OfShape, `{got} does not have the right form: {allowed}.`},
	{"document.value.length", OfShape, `{got} is too short or too long: {allowed}.`},
	{"document.value.range", OfShape, `{got} is beyond what is possible here: {allowed}.`},
	{"document.number.notation", OfText, `{got} is not a plain decimal number.`},
	{"document.list.length", OfShape, `The number of entries is {got}; {allowed} are wanted.`},
	{"document.condition.unknown", OfShape, `{got} is nothing that a step can wait for{nearest}; it can wait for {allowed}.`},
	{"document.hold.form", OfShape, `{got} does not say what to hold within which limits; write it as {allowed}.`},
	{"document.time.form", OfShape, `{got} is not a time; write it as {allowed}.`},
	{"document.time.day", OfSense, `{got}: the month has no such day.`},
	{"document.file.name", OfSense, `{got} does not lie beside or below this document.`},
	{"document.file.missing", OfSense, `{got} cannot be read.`},
	{"lot.sieves.two-series", OfSense, `Sieves of two series; keep the one that was used, they do not convert into each other.`},
	{"lot.sieves.over-100", OfSense, `The sieve fractions sum to {got}; more than all.`},
	{"lot.sieves.under-100", OfSense, `The sieve fractions sum to {got}; less than all.`},
	{"lot.uptake.twice", OfSense, `The uptake follows from the measured first immersion; leave one of them out.`},
	{"lot.dormant.over-capacity", OfSense, `More kernels are dormant than are alive.`},
	{"lot.moisture.needed", OfSense, `{got} can only be turned to the basis used here with the moisture of the lot; give it.`},
	{"lot.count.of-changes", OfSense, `This look counts another number of kernels laid out than the one before it.`},
	{"lot.count.hours-fall", OfSense, `This look is not later than the one before it.`},
	{"lot.count.total-falls", OfSense, `Fewer kernels have germinated than at the look before; enter running totals.`},
	{"lot.count.too-many", OfSense, `More kernels have germinated than were laid out.`},
	{"plant.zone.unknown", OfSense, `{got} is not the name of a time zone, such as Europe/Dublin.`},
	{"plant.vessel.same-name", OfSense, `{got} is the name of another vessel too.`},
	{"plant.decks.linked-mixes", OfSense, `Linked kilns do not move the piece and cannot mix it.`},
	{"plant.columns.not-whole", OfSense, `The spots take {got} of the floor; they must be all of it.`},
	{"plant.air.missing", OfSense, `A vessel that is a {got} needs a fan: give air.`},
	{"plant.params.unknown", OfSense, `{got} is not in the parameter tables{nearest}.`},
	{"plant.prices.two-currencies", OfSense, `{got} is a second currency; the first is {allowed}.`},
	{"programme.steps.none", OfSense, `The programme has no steps.`},
	{"programme.until.not-here", OfSense, `In {got} there is no such reading to wait for.`},
	{"programme.air.not-per-tonne", OfSense, `{got} does not say how much air that is per barley; write {allowed}.`},
	{"programme.spray.twice", OfSense, `Spray by amount or to a moisture, not both.`},
	{"programme.spray.no-turn", OfSense, `Spray goes on at the turns; give turn_every.`},
	{"programme.flow.missing", OfSense, `How much air goes through the bed is not said; give flow, or fan_off: true.`},
	{"programme.hold.not-by-this", OfSense, `This setting does not move that reading; it can hold {allowed}.`},
	{"programme.hold.limits", OfSense, `The lower limit must be below the upper one, and counted in the same way.`},
	{"programme.dampers.fan-on", OfSense, `The dampers are set by hand only while the fan is off; give fan_off: true.`},
	{"programme.flow.fan-off", OfSense, `There is no flow while the fan is off.`},
	{"specification.limit.two-bases", OfSense, `{got} is on another basis than the least value, {allowed}.`},
	{"specification.limit.crossed", OfSense, `The least value is above the greatest.`},
	{"specification.limit.basis", OfSense, `{got} is not judged on that basis.`},
	{"specification.limits.none", OfSense, `The specification limits nothing.`},
	{"contract.prices.two-currencies", OfSense, `{got} is a second currency; the base price is in {allowed}.`},
	{"contract.terms.none", OfSense, `The contract asks nothing.`},
	{"contract.term.crossed", OfSense, `The least value is above the greatest.`},
	{"contract.term.two-rules", OfSense, `One factor has more than one price rule.`},
	{"contract.term.two-bases", OfSense, `The figures of one factor stand on several bases, or on one that does not fit.`},
	{"contract.term.tiers", OfSense, `The first band says where it begins, and no other does; only the last may have no end.`},
	{"load.moisture.twice", OfSense, `Moisture is given as one figure and by probes; keep one of them.`},
	{"load.sieve.twice", OfSense, `One slot stands here twice.`},
	{"load.sieve.not-running", OfSense, `A coarser slot holds more than a finer one; give running totals, coarser fractions included.`},
	{"load.toxin.per-mass", OfSense, `{got} is not per mass of grain.`},
	{"load.probe.outside", OfSense, `A probe lies outside the vehicle.`},
	{"load.toxin.portion", OfSense, `The portion is larger than the sample it was taken from.`},
	{"load.silo.dry-matter", OfSense, `{got}: give it of dry matter.`},
	{"silo.days.order", OfSense, `{got} is earlier than the day before it in the life of the store.`},
	{"silo.readings.twice", OfSense, `Readings stand here and in a file; keep one of them.`},
	{"silo.weather.twice", OfSense, `The weather is given month by month and in a file; keep one of them.`},
	{"silo.weather.gap", OfSense, `Too many hours of weather are missing before {got}.`},
	{"silo.weather.past", OfSense, `The weather ends before today.`},
	{"silo.params.unknown", OfSense, `{got} is not in the parameter table{nearest}.`},
	{"map.field.unknown", OfSense, `{got} is not a field of such a row{nearest}; the fields are {allowed}.`},
	{"map.field.twice", OfSense, `{got} is filled twice.`},
	{"map.field.missing", OfSense, `No column fills {allowed}; name one for it (or for one of them), or fix it.`},
	{"map.field.both", OfSense, `{got} says already what {allowed} would say; keep one.`},
	{"points.limit.unread", OfSense, `{got}.`},
	{"map.form.incomplete", OfSense, `{got} does not say once where {allowed} stands.`},
	{"csv.text.size", OfText, `The file is too large: {allowed}.`},
	{"csv.text.encoding", OfText, `The file is not UTF-8 text.`},
	{"csv.text.syntax", OfText, `This is not CSV: {got}.`},
	{"csv.head.unknown", OfText, `{got} is not a column here{nearest}; the columns are {allowed}.`},
	{"csv.head.twice", OfText, `{got} says again what another column says.`},
	{"csv.head.time", OfText, `There is no column time; the columns are {allowed}.`},
	{"csv.rows.none", OfText, `The file has no rows.`},
	{"csv.cell.time", OfText, `{got} is not a time; write it as {allowed}.`},
	{"csv.cell.number", OfText, `{got} is not a plain decimal number; leave the cell empty if it is not known.`},
	{"csv.cell.range", OfText, `{got} is beyond what is possible here: {allowed}.`},
	{"programme.cast.suction-wet", OfSense, `No air is drawn through grain that is cast in water; leave suction out, or cast it dry.`},
	{"programme.reuse.last", OfSense, `The last immersion gives the water that is used again; it cannot take it.`},
	{"piece.kiln.until-on-decks", OfSense, `On {got} two pieces change places together, so every kiln step ends by its time; a step of this programme waits for a reading: leave its until out.`},
	{"lot.grain.needs-factors", OfSense, `{got} has no husk or another, drinks otherwise and loses otherwise than barley, whose model this is; give factor with what your house has measured, or keep {got} out of the course.`},
	{"lot.factor.unknown", OfSense, `{got} is not in the parameter table{nearest}.`},
	{"programme.kiln.roasts", OfSense, `{got}: above 110 °C malt is roasted, and no physics here reaches that far; kiln to 110 °C at most and record what follows as a route.`},
	{"plant.cleaning.grade", OfSense, `The second grade must be cut at a wider slot than the screen: what passes the screen is gone.`},
	{"piece.vessel.combined", OfSense, `{got} has another floor than {allowed}, in which the piece grows and is kilned; name the kiln that is the same vessel.`},
	{"piece.vessel.unknown", OfSense, `{got} is not a vessel of the house{nearest}; there are {allowed}.`},
}

// find returns the entry of a code.
func find(code string) Code {
	i := slices.IndexFunc(Codes, func(c Code) bool { return c.Code == code })
	if i < 0 {
		return Code{Code: code}
	}
	return Codes[i]
}
