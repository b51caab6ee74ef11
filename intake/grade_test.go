package intake

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"awn/finding"
)

// printedColumn says which factor a column of the tables in testdata is.
type printedColumn struct {
	head  string
	key   Key
	least bool
}

// tableCase is one grade table as published beside the one built in.
type tableCase struct {
	file, edition string
	table         func() *Table
	columns       []printedColumn
}

func mustFind(key string, on Day) func() *Table {
	return func() *Table {
		t, ok := FindTable(key, on)
		if !ok {
			panic(key)
		}
		return t
	}
}

func malting(slotM float64) []printedColumn {
	return []printedColumn{
		{"min_test_weight_lb_per_winchester_bu", Of(TestWeight), true}, {"min_suitable_malting_type_pct", Of(Suitable), true},
		{"min_sound_barley_pct", Of(Sound), true}, {"max_damaged_kernels_pct", Of(Damaged), false}, {"max_wild_oats_pct", Of(WildOats), false},
		{"max_foreign_material_pct", Of(ForeignMaterial), false}, {"max_other_grains_pct", Of(OtherGrains), false},
		{"max_skinned_broken_pct", Of(SkinnedBroken), false}, {"max_thin_pct", Key{Through, slotM}, false},
	}
}

var tableCases = []tableCase{
	{"us_two_row.csv", "2017", mustFind("us-two-row", "2026-08-01"), malting(slot55)},
	{"us_two_row.csv", "1996-2017 (superseded)", mustFind("us-two-row", "2017-05-02"), malting(slot55)},
	{"us_six_row.csv", "2017", mustFind("us-six-row", "2017-05-03"), malting(slot5)},
	{"us_six_row.csv", "1996-2017 (superseded)", mustFind("us-six-row", "2010-01-01"), malting(slot5)},
	{"us_barley.csv", "", mustFind("us-barley", ""), []printedColumn{
		{"min_test_weight_lb_bu", Of(TestWeight), true}, {"min_sound_pct", Of(Sound), true}, {"max_damaged_pct", Of(Damaged), false},
		{"max_heat_damaged_pct", Of(HeatDamaged), false}, {"max_foreign_material_pct", Of(ForeignMaterial), false},
		{"max_broken_pct", Of(Broken), false}, {"max_thin_pct", Key{Through, slot5}, false},
	}},
}

// perfect is a load with which nothing is wrong.
func perfect() *Load {
	l := &Load{NotedAll: true, NetKg: 25e3, GrainC: 15, Readings: map[Factor]Reading{}}
	for _, f := range []Factor{Damaged, WildOats, ForeignMaterial, OtherGrains, SkinnedBroken, Broken} {
		l.Readings[f] = Read(0)
	}
	l.Readings[TestWeight] = Read(LbPerBu.inside(60))
	l.Readings[Suitable], l.Readings[Sound] = Read(1), Read(1)
	for _, n := range []float64{5, 5.5} {
		s := Sieve{SlotM: Slot64(n)}
		s.Held.Mid, s.Held.Low, s.Held.High = 1, math.NaN(), math.NaN()
		l.Sieves = append(l.Sieves, s)
	}
	return l
}

// set writes a printed figure into a load.
func (l *Load) set(k Key, printed float64) {
	switch {
	case k.Factor == TestWeight:
		l.Readings[TestWeight] = Read(LbPerBu.inside(printed))
	case k.Factor == Through:
		for i := range l.Sieves {
			if l.Sieves[i].SlotM == k.SlotM {
				l.Sieves[i].Held.Mid = 1 - printed/100
			}
		}
	default:
		l.Readings[k.Factor] = Read(printed / 100)
	}
}

// TestEveryRowAtItsEdges takes each factor of each row of each United States
// table just inside its limit, on it, just outside, and to where rounding to a
// tenth brings it back in. The grade wanted is read off the published table in
// whole tenths, apart from the program's own tables.
func TestEveryRowAtItsEdges(t *testing.T) {
	for _, c := range tableCases {
		var published []map[string]string
		for _, row := range rows(t, c.file) {
			if row["edition"] == c.edition {
				published = append(published, row)
			}
		}
		table := c.table()
		if len(published) != len(table.Rungs) {
			t.Fatalf("%s: %d rows published, %d built in", c.file, len(published), len(table.Rungs))
		}
		tried := 0
		for i := range published {
			for _, column := range c.columns {
				limit := num(t, published[i][column.head])
				if math.IsNaN(limit) {
					continue
				}
				for _, hundredths := range []int{-10, -6, -5, -4, 0, 4, 5, 6, 10} {
					l := perfect()
					x := math.Round(100*limit+float64(hundredths)) / 100
					if x < 0 || x > 100 {
						continue
					}
					l.set(column.key, x)
					want := publishedGrade(t, published, column, int(math.Round(100*limit))+hundredths)
					got := table.Grade(l)
					tried++
					if want >= 0 && got.Name != table.Rungs[want].Name {
						t.Errorf("%s: %v at %.2f gives %q, want %q", table.Key, column.key, x, got.Name, table.Rungs[want].Name)
					}
					if want < 0 && slices.ContainsFunc(table.Rungs, func(r Rung) bool { return r.Name == got.Name }) {
						t.Errorf("%s: %v at %.2f gives %q, want none of the class", table.Key, column.key, x, got.Name)
					}
				}
			}
		}
		t.Logf("%s %s: %d edges", table.Key, table.Edition, tried)
	}
}

// publishedGrade is the best row that a figure in hundredths meets in one
// column, rounded half up to tenths; -1 if none.
func publishedGrade(t *testing.T, published []map[string]string, c printedColumn, hundredths int) int {
	tenths := (hundredths + 5) / 10
	for i, row := range published {
		limit := num(t, row[c.head])
		if math.IsNaN(limit) {
			return 0
		}
		at := int(math.Round(10 * limit))
		if c.least && tenths >= at || !c.least && tenths <= at {
			return i
		}
	}
	return -1
}

// The ceilings of the subclass and of the special grades: 7 CFR 810.202(c)
// and 810.207, edges by hand.
func TestSubclassAndSpecialGrades(t *testing.T) {
	table, _ := FindTable("us-two-row", "2026-08-01")
	for _, c := range []struct {
		f       Factor
		in, out float64 // inside figures
		words   []string
	}{
		{Suitable, 0.9695, 0.9494, nil},
		{InjuredByFrost, 0.0194, 0.0195, nil},
		{FrostDamaged, 0.0044, 0.0045, nil},
		{InjuredByHeat, 0.0024, 0.0025, nil},
		{HeatDamaged, 0.0014, 0.0015, nil},
		{InjuredByMould, 0.0194, 0.0195, nil},
		{MouldDamaged, 0.0044, 0.0045, nil},
		{FungusDamaged, 0.0404, 0.0405, []string{"blighted"}},
		{Ergot, 0.00104, 0.00105, []string{"ergoty"}},
		{Bulblets, 2, 3, []string{"garlicky"}},
		{SmutBalls, 0.00204, 0.00205, []string{"smutty"}},
		{Infested, 0, 1, []string{"infested"}},
	} {
		l := perfect()
		l.Readings[c.f] = Read(c.in)
		if g := table.Grade(l); g.Name != table.Rungs[0].Name {
			t.Errorf("%s at %g: %q, want the best malting grade", c.f, c.in, g.Name)
		}
		l.Readings[c.f] = Read(c.out)
		g := table.Grade(l)
		if g.Name != "US No. 1 Barley" || !slices.Equal(g.Words, c.words) {
			t.Errorf("%s at %g: %q %v, want US No. 1 Barley %v", c.f, c.out, g.Name, g.Words, c.words)
		}
		if len(g.Deciding) != 1 || g.Deciding[0].Limit.Factor != c.f {
			t.Errorf("%s at %g: deciding %v", c.f, c.out, g.Deciding)
		}
	}
	// Between 95 and 97 % suitable a load is of the subclass, but not No. 1 or 2.
	l := perfect()
	l.Readings[Suitable] = Read(0.96)
	if g := table.Grade(l); g.Name != table.Rungs[2].Name {
		t.Errorf("96 %% suitable: %q", g.Name)
	}
}

// Stones, glass, odour and heating make Sample grade: 7 CFR 810.206(b) to (d).
func TestSampleGrade(t *testing.T) {
	table, _ := FindTable("us-six-row", "")
	for f, x := range map[Factor][2]float64{Stones: {7, 8}, StonesMass: {0.0024, 0.0025}, Glass: {1, 2}, Odour: {0, 1}, Heating: {0, 1}} {
		l := perfect()
		l.Readings[f] = Read(x[0])
		if g := table.Grade(l); g.Name != table.Rungs[0].Name {
			t.Errorf("%s at %g: %q", f, x[0], g.Name)
		}
		l.Readings[f] = Read(x[1])
		if g := table.Grade(l); g.Name != "US Sample grade Barley" {
			t.Errorf("%s at %g: %q", f, x[1], g.Name)
		}
	}
}

// EU and Canadian rows, at the limit and just beyond.
func TestOtherTablesAtTheirEdges(t *testing.T) {
	eu := map[string]Factor{
		"moisture max": Moisture, "total matter not basic cereal of unimpaired quality max": NotSound, "broken grains max": BrokenGrains,
		"grain impurities max": GrainImpurities, "of which other cereals max": OtherCereals, "of which overheated in drying max": Overheated,
		"sprouted max": Sprouted, "miscellaneous impurities max": MiscImpurities, "noxious extraneous seeds max": NoxiousSeeds, "specific weight min": TestWeight,
	}
	table, _ := FindTable("eu-intervention", "")
	clean := func() *Load {
		l := &Load{Readings: map[Factor]Reading{}}
		for _, f := range eu {
			l.Readings[f] = Read(0)
		}
		l.Readings[TestWeight] = Read(70)
		return l
	}
	read := rows(t, "eu_intervention.csv")
	if len(read) != len(table.Columns) {
		t.Errorf("%d rows published, %d built in", len(read), len(table.Columns))
	}
	for _, row := range read {
		f, ok := eu[row["factor"]]
		if !ok {
			t.Fatalf("no factor for %q", row["factor"])
		}
		at, step := num(t, row["limit"])/100, 0.0001
		if f == TestWeight {
			at, step = 100*at, -0.01
		}
		l := clean()
		l.Readings[f] = Read(at)
		if g := table.Grade(l); g.Name != "intervention quality" {
			t.Errorf("%s at its limit: %q", f, g.Name)
		}
		l.Readings[f] = Read(at + step)
		if g := table.Grade(l); g.Name != "below intervention quality" {
			t.Errorf("%s beyond its limit: %q", f, g.Name)
		}
		delete(l.Readings, f)
		if g := table.Grade(l); g.Name != "" || len(g.Missing) != 1 || g.Missing[0].Factor != f {
			t.Errorf("%s missing: %q, missing %v", f, g.Name, g.Missing)
		}
	}
	testCanada(t)
}

func testCanada(t *testing.T) {
	t.Helper()
	names := map[string]Factor{
		"fireburnt": Fireburnt, "frost": FrostCanada, "fusarium damage": FusariumDamaged, "heated": Heated, "rotted/severely mildewed": Mildewed,
		"export: small seeds": SmallSeeds, "export: total small seeds+attrition+dust+chaff": SeedsAndDust,
	}
	for _, row := range rows(t, "canada_select.csv") {
		f := names[row["factor"]]
		at := 0.0
		if row["select_two_row"] != "nil" {
			at = num(t, row["select_two_row"]) / 100
		}
		keys := []string{"canada-select-two-row", "canada-select-six-row"}
		if f == SmallSeeds || f == SeedsAndDust {
			keys = []string{"canada-export"}
		}
		for _, key := range keys {
			table, _ := FindTable(key, "")
			l := &Load{Readings: map[Factor]Reading{}}
			for _, c := range table.Columns {
				l.Readings[c.Factor] = Read(0)
			}
			l.Readings[f] = Read(at)
			if g := table.Grade(l); g.Name != "" || g.Best != table.Rungs[0].Name || g.Worst != table.Last {
				t.Errorf("%s: %s at its limit: %q (%q to %q): what was read of this schedule cannot grade", key, f, g.Name, g.Best, g.Worst)
			}
			l.Readings[f] = Read(at + 0.0001)
			if g := table.Grade(l); g.Name != table.Last {
				t.Errorf("%s: %s beyond its limit: %q", key, f, g.Name)
			}
		}
	}
}

func TestMissingFactorsWithholdTheGrade(t *testing.T) {
	table, _ := FindTable("us-two-row", "")
	l := perfect()
	l.Readings[TestWeight] = Read(LbPerBu.inside(49)) // No. 2 at best
	delete(l.Readings, Sound)
	g := table.Grade(l)
	if g.Name != "" || g.Best != table.Rungs[1].Name || g.Worst != "US Sample grade Barley" || !slices.Equal(g.Missing, []Key{Of(Sound)}) {
		t.Errorf("%q, %q to %q, missing %v", g.Name, g.Best, g.Worst, g.Missing)
	}
	// A factor that can change nothing any more does not withhold it.
	l = perfect()
	l.Readings[Odour] = Read(1)
	delete(l.Readings, Sound)
	if g := table.Grade(l); g.Name != "US Sample grade Barley" || len(g.Missing) != 0 {
		t.Errorf("%q, missing %v", g.Name, g.Missing)
	}
	// Of a load of which nothing is known nothing is said.
	g = table.Grade(&Load{})
	if g.Best != table.Rungs[0].Name || g.Worst != "US Sample grade Barley" || g.Odds != nil {
		t.Errorf("unknown load: %q to %q", g.Best, g.Worst)
	}
	// A reading below what the method sees meets a limit above that, and says nothing of one below it.
	eu, _ := FindTable("eu-intervention", "")
	low := Read(0.002)
	low.Below = true
	if v := (&Load{Readings: map[Factor]Reading{NoxiousSeeds: low}}).Judge(eu.limits(0)[8]); v.Outcome != Unsaid {
		t.Errorf("below detection: %v", v)
	}
}

// A banded reading on a limit is of either side with equal odds; grades sum to 1.
func TestOddsOfGrades(t *testing.T) {
	table, _ := FindTable("us-two-row", "")
	l := perfect()
	r := Read(0.98 - 0.0005) // the edge of No. 2 and No. 3 in sound barley, after rounding
	r.Value.Low, r.Value.High = r.Value.Mid-0.005, r.Value.Mid+0.005
	l.Readings[Sound] = r
	g := table.Grade(l)
	sum := 0.0
	for _, o := range g.Odds {
		sum += o.Chance
	}
	near(t, "sum of odds", sum, 1, 1e-12)
	near(t, "odds of the best", g.Odds[0].Chance, 0.5, 1e-9)
	near(t, "odds of No. 3", g.Odds[2].Chance, 0.5, 1e-6)
	if !slices.ContainsFunc(g.Findings, func(f finding.Finding) bool { return f.Code == "intake.factor.near-limit" }) {
		t.Error("no word on a reading at its limit")
	}
}

func TestRounding(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     float64
	}{{1.95, 1, 2.0}, {1.94, 1, 1.9}, {97.95, 1, 98}, {0.125, 2, 0.13}, {2.5, 0, 3}, {1.234, unrounded, 1.234}} {
		near(t, fmt.Sprint(c.x), HalfUp(c.x, c.decimals), c.want, 1e-12)
	}
	near(t, "dockage", HalfPercentDown(0.0174), 0.015, 1e-15)
	near(t, "dockage on the half", HalfPercentDown(0.015), 0.015, 1e-15)
	// Bands of plump barley as printed: below 50, 50-55, 56-60, 61-65.
	for x, want := range map[float64][2]float64{0.494: {0, 0.49}, 0.50: {0.50, 0.55}, 0.554: {0.50, 0.55}, 0.556: {0.56, 0.60}, 0.61: {0.61, 0.65}, 1: {0.96, 1}} {
		low, high := PlumpBand(x)
		near(t, fmt.Sprint(x), low, want[0], 1e-12)
		near(t, fmt.Sprint(x), high, want[1], 1e-12)
	}
	if low, _ := PlumpBand(math.NaN()); !math.IsNaN(low) {
		t.Error("a band of what is not known")
	}
}
