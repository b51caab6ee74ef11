package intake

import "awn/odds"

// asPrinted is a column in per cent that is compared as it was read.
func asPrinted(f Factor) Column { return Column{Key: Of(f), In: PerCent, Decimals: unrounded} }

// canadaTables hold the rows of the Canadian schedules that were read. The
// rest was not, so that they can refuse a load but never grade it.
func canadaTables() []*Table {
	columns := []Column{asPrinted(Fireburnt), asPrinted(FrostCanada), asPrinted(FusariumDamaged), asPrinted(Heated), asPrinted(Mildewed)}
	limits := []float64{0, 2.0, 0.2, 0.1, 0}
	return []*Table{
		{
			Key: "canada-select-two-row", Name: "Canada Select Malting two-row", Edition: "2008", Rows: 2,
			Columns: columns, Rungs: []Rung{{"Select Malting two-row", limits}}, Last: "below Select",
			Source: "CGC 2008", Mark: odds.Sourced,
		},
		{
			Key: "canada-select-six-row", Name: "Canada Select Malting six-row", Edition: "2008", Rows: 6,
			Columns: columns, Rungs: []Rung{{"Select Malting six-row", limits}}, Last: "below Select",
			Source: "CGC 2008", Mark: odds.Sourced,
		},
		{
			Key: "canada-export", Name: "Canada, barley for export", Edition: "undated",
			Columns: []Column{asPrinted(SmallSeeds), asPrinted(SeedsAndDust)},
			Rungs:   []Rung{{"clean for export", []float64{0.1, 0.3}}}, Last: "not clean for export",
			Source: "CGC export undated", Mark: odds.Sourced,
		},
	}
}

// euTables hold the minimum quality at which the European Union buys barley
// into intervention: a floor for feed, not a malting standard.
func euTables() []*Table {
	return []*Table{{
		Key: "eu-intervention", Name: "EU intervention, barley", Edition: "2016/1238", Whole: true,
		Columns: []Column{
			asPrinted(Moisture), asPrinted(NotSound), asPrinted(BrokenGrains), asPrinted(GrainImpurities), asPrinted(OtherCereals),
			asPrinted(Overheated), asPrinted(Sprouted), asPrinted(MiscImpurities), asPrinted(NoxiousSeeds),
			{Key: Of(TestWeight), Least: true, In: KgPerHL, Decimals: unrounded},
		},
		Rungs: []Rung{{"intervention quality", []float64{14.5, 12, 5, 12, 5, 3, 6, 3, 0.1, 62}}}, Last: "below intervention quality",
		Source: "EU intervention 2016", Mark: odds.Sourced,
	}}
}
