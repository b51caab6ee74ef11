package reckon

import (
	"strings"

	"awn/unit"
)

// Fault is one thing that is wrong with what was asked, with its place in the
// line: the words joined by single spaces.
type Fault struct {
	Code    string // a key of Sentences or of unit.Sentences
	At      int    // characters before the place
	Width   int    // characters of the place; 0 if it has none
	Got     string
	Allowed []string
	Nearest string

	// Refused says that the line could be read but has no answer.
	Refused bool
}

// Error returns the sentence of the code, filled in.
func (f *Fault) Error() string {
	sentence, ok := Sentences[f.Code]
	if !ok {
		sentence = unit.Sentences[f.Code]
	}
	return unit.Fill(sentence, f.Got, f.Allowed, f.Nearest)
}

// Faults are all that is wrong with a line.
type Faults []*Fault

// Error lists the sentences.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Refused reports whether the line could be read and has no answer.
func (f Faults) Refused() bool { return len(f) > 0 && f[0].Refused }

// Sentences holds the English sentence of each code of Fault that is not one
// of unit.Sentences.
var Sentences = map[string]string{
	"reckon.entry.unknown":      `{got} is not in the pocket tables{nearest}. “awn reckon” lists what is.`,
	"reckon.units.unknown":      `{got} is no quantity and no unit that is read here{nearest}. “awn reckon --units” lists all.`,
	"reckon.word.unknown":       `{got} means nothing here{nearest}; the names are {allowed}.`,
	"reckon.input.missing":      `{got} is missing; write it as {allowed}.`,
	"reckon.input.twice":        `{got} is given twice.`,
	"reckon.input.value":        `{got} has no value behind it; write {allowed}.`,
	"reckon.input.place":        `{got} has no place here; what is still wanted: {allowed}.`,
	"reckon.input.name":         `{got} could be more than one thing; put its name in front: {allowed}.`,
	"reckon.unit.asked":         `{got} is a unit of no answer here{nearest}; there are {allowed}.`,
	"reckon.answer.range":       `There is no answer: what was given lies outside the range of the formula. {allowed}`,
	"reckon.count.looks":        `{got} cannot be: each must be later than the one before, its running total may not fall, and no more can germinate than were laid out.`,
	"reckon.units.mixed":        `{got} stand in different units; write all of them in one.`,
	"reckon.precision.none":     `No published precision is known for {got} there; give your own, as “within” and how far two laboratories may differ.`,
	"reckon.plan.impossible":    `{got} is no rule of acceptance: some kernels must be laid out, and not every count be taken.`,
	"reckon.replicates.whole":   `{got} cannot be: 2 to 100 replicates of whole kernels.`,
	"reckon.weigh.impossible":   `{got}: with that nothing can be reckoned.`,
	"reckon.weigh.open":         `The readings do not fix how much grain there is: there must be two parts at least, some part a mass, and, where grain is dried or malted, a moisture before it.`,
	"reckon.air.two":            `Moist air is fixed by two properties, no more and no fewer; here stands {got}. They are {allowed}.`,
	"reckon.air.pressure":       `Both altitude and pressure are given; give one.`,
	"reckon.airflow.needs":      `{got} alone cannot be turned into another way of counting air; give {allowed} too.`,
	"reckon.count.impossible":   `{got} cannot have been counted.`,
	"reckon.sieves.between":     `{got} does not lie between the slots that were used ({allowed}); nothing is guessed beyond them.`,
	"reckon.sieves.order":       `The coarser slot holds {got} and the finer one less; that cannot be. Look which share belongs to which slot.`,
	"reckon.blend.parts":        `{got} wants {allowed}.`,
	"reckon.blend.shares":       `{got} is no share of a blend; give {allowed}.`,
	"reckon.kolbach.basis":      `{got} are on different bases; give both on one.`,
	"reckon.extract.asis":       `{got} is extract on dry matter; this sum wants it as-is (“% asis”).`,
	"air.pressure.out-of-range": `{got} is no pressure that air is reckoned at: {allowed}.`,
	"air.given.out-of-range":    `{got} is beyond what is reckoned for air: {allowed}.`,
	"air.pair.same":             `{got} say the same thing of air; give another property in place of one of them.`,
	"air.pair.ambiguous":        `{got} are so nearly the same that no air is fixed by them; give another property in place of one.`,
	"air.pair.impossible":       `No air has {got} together.`,
}
