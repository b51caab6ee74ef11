package intake

import (
	"math"

	"awn/odds"
)

// Slots of the United States tables. 7 CFR 810.202 prints the middle one as
// 0.0895 in; 5.5/64 in is 0.0859 in, and that is the sieve.
var (
	slot5  = Slot64(5)
	slot55 = Slot64(5.5)
)

var none = math.NaN()

// tenths is a column in per cent, rounded to a tenth.
func tenths(f Factor) Column { return Column{Key: Of(f), In: PerCent, Decimals: 1} }

func thin(slotM float64) Column {
	return Column{Key: Key{Through, slotM}, In: PerCent, Decimals: 1}
}

var (
	testWeight = Column{Key: Of(TestWeight), Least: true, In: LbPerBu, Decimals: 1}
	suitable   = Column{Key: Of(Suitable), Least: true, In: PerCent, Decimals: 1}
	sound      = Column{Key: Of(Sound), Least: true, In: PerCent, Decimals: 1}
	infested   = Limit{Column{Key: Of(Infested), In: Plain}, 0}
)

// blighted, ergoty, garlicky and smutty are the special grades. A limit is the
// last figure that is still free of the word; a share is rounded to as many
// decimals as the rule prints.
//
// Source: 7 CFR 810.207. Assumed: the decimals.
var specials = []Special{
	{"infested", infested},
	{"blighted", Limit{Column{Key: Of(FungusDamaged), In: PerCent, Decimals: 1}, 4.0}},
	{"ergoty", Limit{Column{Key: Of(Ergot), In: PerCent, Decimals: 2}, 0.10}},
	{"garlicky", Limit{Column{Key: Of(Bulblets), In: Plain}, 2}},
	{"smutty", Limit{Column{Key: Of(SmutBalls), In: PerCent, Decimals: 2}, 0.20}},
}

// sample are the conditions that make Sample grade whatever the factors say.
var sample = []Limit{
	{Column{Key: Of(Stones), In: Plain}, 7},
	{Column{Key: Of(StonesMass), In: PerCent, Decimals: 1}, 0.2},
	{Column{Key: Of(Glass), In: Plain}, 1},
	{Column{Key: Of(Odour), In: Plain}, 0},
	{Column{Key: Of(Heating), In: Plain}, 0},
}

// injured are the ceilings of the malting subclasses.
func injured(mould bool) []Limit {
	out := []Limit{
		{suitable, 95},
		{tenths(InjuredByFrost), 1.9}, {tenths(FrostDamaged), 0.4},
		{tenths(InjuredByHeat), 0.2}, {tenths(HeatDamaged), 0.1},
	}
	if mould {
		out = append(out, Limit{tenths(InjuredByMould), 1.9}, Limit{tenths(MouldDamaged), 0.4})
	}
	return out
}

// entry is what a malting subclass asks of a load before its grades.
func entry(mould bool) []Limit {
	out := append(injured(mould), sample...)
	for _, s := range specials {
		out = append(out, s.Limit)
	}
	return out
}

// classBarley grades what is not of a malting subclass.
var classBarley = &Table{
	Key: "us-barley", Name: "US Barley", Edition: "7 CFR 810.206", Whole: true,
	Columns: []Column{testWeight, sound, tenths(Damaged), tenths(HeatDamaged), tenths(ForeignMaterial), tenths(Broken), thin(slot5)},
	Entry:   sample,
	Rungs: []Rung{
		{"US No. 1 Barley", []float64{47, 97, 2, 0.2, 1, 4, 10}},
		{"US No. 2 Barley", []float64{45, 94, 4, 0.3, 2, 8, 15}},
		{"US No. 3 Barley", []float64{43, 90, 6, 0.5, 3, 12, 25}},
		{"US No. 4 Barley", []float64{40, 85, 8, 1, 4, 18, 35}},
		{"US No. 5 Barley", []float64{36, 75, 10, 3, 5, 28, 75}},
	},
	Last: "US Sample grade Barley", Special: specials, Source: "7 CFR 810.206", Mark: odds.Sourced,
}

// The editions meet on 3 May 2017.
const (
	lastOld  = "2017-05-02"
	firstNew = "2017-05-03"
)

func usTables() []*Table {
	columns := func(slotM float64) []Column {
		return []Column{
			testWeight, suitable, sound, tenths(Damaged), tenths(WildOats), tenths(ForeignMaterial),
			tenths(OtherGrains), tenths(SkinnedBroken), thin(slotM),
		}
	}
	grade := func(class string, rows ...[]float64) []Rung {
		names := []string{"US No. 1 ", "US No. 2 ", "US No. 3 ", "US No. 4 "}
		out := make([]Rung, len(rows))
		for i, limits := range rows {
			out[i] = Rung{names[i] + class, limits}
		}
		return out
	}
	const twoRow, sixRow = "Two-rowed Malting barley", "Six-rowed Malting barley"
	return []*Table{
		{
			Key: "us-two-row", Name: twoRow, Edition: "2017", From: firstNew, Rows: 2, Whole: true,
			Columns: columns(slot55), Entry: entry(true), Below: classBarley,
			Rungs: grade(twoRow,
				[]float64{50, 97, 98, 2, 1, 0.5, 2, 4, 5},
				[]float64{48, 97, 98, 3, 1, 1, 3, 6, 7},
				[]float64{48, 95, 96, 4, 2, 2, 5, 8, 10},
				[]float64{48, 95, 93, 5, 3, 3, 5, 10, 10}),
			Source: "7 CFR 810.205", Mark: odds.Sourced,
		},
		{
			Key: "us-two-row", Name: twoRow, Edition: "1996", To: lastOld, Rows: 2, Whole: true,
			Columns: columns(slot55), Entry: entry(true), Below: classBarley,
			Rungs: grade(twoRow,
				[]float64{50, 97, 98, none, 1, 0.5, none, 5, 5},
				[]float64{48, 97, 98, none, 1, 1, none, 7, 7},
				[]float64{48, 95, 96, none, 2, 2, none, 10, 10},
				[]float64{48, 95, 93, none, 3, 3, none, 10, 10}),
			Source: "7 CFR 810.205", Mark: odds.Sourced,
		},
		{
			Key: "us-six-row", Name: sixRow, Edition: "2017", From: firstNew, Rows: 6, Whole: true,
			Columns: columns(slot5), Entry: entry(true), Below: classBarley,
			Rungs: grade(sixRow,
				[]float64{47, 97, 98, 2, 1, 0.5, 2, 4, 7},
				[]float64{45, 97, 98, 3, 1, 1, 3, 6, 10},
				[]float64{43, 95, 96, 4, 2, 2, 5, 8, 15},
				[]float64{43, 95, 93, 5, 3, 3, 5, 10, 15}),
			Source: "7 CFR 810.204", Mark: odds.Sourced,
		},
		{
			Key: "us-six-row", Name: sixRow, Edition: "1996", To: lastOld, Rows: 6, Whole: true,
			Columns: columns(slot5), Entry: entry(false), Below: classBarley,
			Rungs: grade(sixRow,
				[]float64{47, 95, 97, 2, none, 0.5, 2, 4, 7},
				[]float64{45, 95, 94, 3, none, 1, 3, 6, 10},
				[]float64{43, 95, 90, 4, none, 2, 5, 8, 15},
				[]float64{43, 95, 87, 5, none, 3, 5, 10, 15}),
			Source: "7 CFR 810.204", Mark: odds.Sourced,
		},
		classBarley,
	}
}
