package intake

import (
	"math"
	"slices"
	"testing"

	"awn/finding"
	"awn/odds"
)

func hasCode(fs []finding.Finding, code string) bool {
	return slices.ContainsFunc(fs, func(f finding.Finding) bool { return f.Code == code })
}

// Pounds of the ticket below.
const lb = 0.45359237

// A ticket worked by hand: 60 000 lb net of tare, dockage 1.74 % (recorded as
// 1.5), moisture 15.8 %, basis 13.5, rule 1.4 % a point.
func TestTicket(t *testing.T) {
	l := &Load{NetKg: 60000 * lb, Dockage: 0.0174, GrainC: math.NaN(), Readings: map[Factor]Reading{Moisture: Read(0.158)}}
	c := &Contract{Dockage: DockageHalfDown, Shrink: Shrink{Basis: 0.135, PerPoint: 0.014}}
	s := c.settle(l)
	near(t, "recorded dockage", s.Mass.Dockage, 0.015, 1e-15)
	near(t, "clean", s.Mass.CleanKg/lb, 59100, 1e-6)
	near(t, "by dry matter, lb", s.Mass.ByDryKg/lb, 57528.6, 0.05)
	near(t, "by dry matter, bu", s.Mass.ByDryKg/lb/48, 1198.51, 0.005)
	near(t, "by the rule, bu", s.Mass.PayableKg/lb/48, 1191.60, 0.005)
	i := slices.IndexFunc(s.Findings, func(f finding.Finding) bool { return f.Code == "intake.mass.shrink-gap" })
	if i < 0 {
		t.Fatal("the gap is not shown")
	}
	near(t, "gap, bu", s.Findings[i].Figures[0].Value/lb/48, 6.91, 0.005)
	near(t, "gap of the net", s.Findings[i].Figures[1].Value, 0.0056, 0.00005)
}

// 25 000 kg from 16 to 13.5 %: 24 277.5 kg by dry matter, 24 152.5 with half a
// per cent for handling, 24 125 by 1.4 % a point. Worked by hand.
func TestShrink(t *testing.T) {
	for _, c := range []struct {
		shrink Shrink
		want   float64
	}{
		{Shrink{Basis: 0.135, PerPoint: math.NaN()}, 24277.5},
		{Shrink{Basis: 0.135, PerPoint: math.NaN(), Handling: 0.005}, 24152.5},
		{Shrink{Basis: 0.135, PerPoint: 0.014}, 24125},
		{Shrink{Basis: math.NaN()}, 25000},
		{Shrink{Basis: 0.17, PerPoint: math.NaN()}, 25000},
		{Shrink{Basis: 0.17, PerPoint: math.NaN(), Credit: true}, 25000 * 0.84 / 0.83},
	} {
		m := Weigh(25000, 0, 0.16, DockageExact, c.shrink)
		near(t, "payable", m.PayableKg, c.want, 0.05)
	}
}

// Corn from 25 to 15.5 % loses 11.24 %: a check value in common use.
func TestShrinkCheckValue(t *testing.T) {
	m := Weigh(100, 0, 0.25, DockageExact, Shrink{Basis: 0.155, PerPoint: math.NaN()})
	near(t, "shrink", m.ShrinkKg, 11.24, 0.005)
}

// The five forms of price rule, each worked by hand.
func TestRules(t *testing.T) {
	inf := math.Inf(1)
	tiers := Tiers{From: 5, Part: PartShare, Tier: []Tier{{7, 1, -2}, {inf, 1, -4}}}
	bands := Ranges{{0, 3, 0}, {3, 5, -1}, {5, 8, -2.5}}
	protein := Scale{Base: 11, Step: 0.2, Below: 1.5, Above: -2, Part: PartNothing, MostBelow: 5}
	for _, c := range []struct {
		name     string
		rule     Rule
		x        float64
		boundary Boundary
		want     float64
	}{
		{"per step, at threshold", PerStep{From: 3, Step: 0.5, Amount: -1}, 3, ForSeller, 0},
		{"per step, part dropped", PerStep{From: 3, Step: 0.5, Amount: -1}, 4.2, ForSeller, -2},
		{"per step, part counts", PerStep{From: 3, Step: 0.5, Amount: -1, Part: PartWhole}, 4.2, ForSeller, -3},
		{"per step, share", PerStep{From: 3, Step: 0.5, Amount: -1, Part: PartShare}, 4.2, ForSeller, -2.4},
		{"per step, whole steps count once", PerStep{From: 3, Step: 0.1, Amount: -1, Part: PartWhole}, 3.3, ForSeller, -3},
		{"per step, below", PerStep{From: 62, Below: true, Step: 1, Amount: -3, Part: PartWhole}, 60.4, ForSeller, -6},
		{"tiers, first", tiers, 6.5, ForSeller, -3},
		{"tiers, add up", tiers, 8, ForSeller, -8},
		{"tiers, under", tiers, 4, ForSeller, 0},
		{"ranges, inside", bands, 4, ForSeller, -1},
		{"ranges, tie for the seller", bands, 5, ForSeller, -1},
		{"ranges, tie for the buyer", bands, 5, ForBuyer, -2.5},
		{"ranges, outside", bands, 9, ForSeller, math.NaN()},
		{"protein, premium", protein, 10.5, ForSeller, 3},
		{"protein, base", protein, 11, ForSeller, 0},
		{"protein, discount", protein, 11.6, ForSeller, -6},
		{"protein, most premium", protein, 9, ForSeller, 7.5},
		{"tiers, beyond the last", Tiers{From: 5, Tier: []Tier{{7, 1, -2}}}, 8, ForSeller, math.NaN()},
	} {
		got := c.rule.Adjust(c.x, c.boundary)
		if math.IsNaN(got) != math.IsNaN(c.want) || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g, want %g", c.name, got, c.want)
		}
	}
}

// ukContract is a merchant's spring barley contract of 2020 as published,
// with invented prices.
func ukContract() *Contract {
	pc := func(f Factor, least, most float64) Term {
		return Term{Column: Column{Key: Of(f), In: PerCent, Decimals: 1}, Least: least, Most: most}
	}
	nan := math.NaN()
	moisture := pc(Moisture, nan, 19)
	moisture.Rule = PerStep{From: 14.5, Step: 0.5, Amount: -1.2, Part: PartWhole}
	protein := pc(Protein, 9.5, 11.5)
	protein.Rule = Scale{Base: 10.5, Step: 0.2, Below: 0.5, Above: -0.5}
	held := pc(Held, 90, nan)
	held.Key = Key{Held, 0.0025}
	through := pc(Through, nan, 3)
	through.Key = Key{Through, 0.0022}
	return &Contract{
		Name: "spring barley", Currency: "GBP", PriceT: 200, Shrink: Shrink{Basis: 0.145, PerPoint: nan},
		Terms: []Term{moisture, protein, held, through, pc(Admixture, nan, 2), pc(Capacity, 98, nan)},
	}
}

func goodLoad() *Load {
	sieve := func(mm, held float64) Sieve { return Sieve{mm / 1000, odds.Alone(held, odds.Measured)} }
	return &Load{
		NetKg: 29000, Variety: "Ellerdine Gold", TrueToType: Yes, PreviousCargo: "barley", Arrived: "2026-08-20", GrainC: 22,
		Sieves: []Sieve{sieve(2.8, 0.60), sieve(2.5, 0.94), sieve(2.2, 0.985)},
		Readings: map[Factor]Reading{
			Moisture: Read(0.14), Protein: Read(0.105), Admixture: Read(0.01), Capacity: Counted(298, 300), Viscosity: Read(150),
		},
	}
}

func TestDecisions(t *testing.T) {
	c := ukContract()
	check := func(name string, change func(*Load), want Decision, deciding ...Factor) Judgement {
		t.Helper()
		l := goodLoad()
		change(l)
		j := c.Judge(l)
		if j.Decision != want {
			t.Errorf("%s: %s, want %s (%v)", name, j.Decision, want, j.Deciding)
		}
		var got []Factor
		for _, k := range j.Deciding {
			got = append(got, k.Factor)
		}
		if !slices.Equal(got, deciding) {
			t.Errorf("%s: decided by %v, want %v", name, got, deciding)
		}
		return j
	}
	j := check("good", func(*Load) {}, Accept)
	near(t, "price", j.Settlement.Total, 5800, 1e-9)
	if !(j.Confidence > 0.5 && j.Confidence < 1) {
		t.Errorf("confidence %g: 298 of 300 are no certainty of 98 %%", j.Confidence)
	}
	j = check("damp", func(l *Load) { l.Readings[Moisture] = Read(0.157) }, AcceptDiscount, Moisture)
	// 1.2 points over are three half points begun: 3.60 off a tonne; the mass at
	// 14.5 % is 29 000 × 0.843/0.855 = 28 592.98 kg. Worked by hand.
	near(t, "damp: price", j.Settlement.PriceT, 196.4, 1e-9)
	near(t, "damp: amount", j.Settlement.Total, 5718.60-102.93, 1e-9)
	check("wet", func(l *Load) { l.Readings[Moisture] = Read(0.193) }, Refuse, Moisture)
	check("high protein", func(l *Load) { l.Readings[Protein] = Read(0.118) }, Refuse, Protein)
	check("rounds in", func(l *Load) { l.Readings[Protein] = Read(0.11549) }, AcceptDiscount, Protein)
	check("rounds out", func(l *Load) { l.Readings[Protein] = Read(0.1155) }, Refuse, Protein)
	j = check("no capacity", func(l *Load) { delete(l.Readings, Capacity) }, Hold, Capacity)
	if !slices.Equal(j.Missing, []Key{Of(Capacity)}) {
		t.Errorf("missing %v", j.Missing)
	}
	check("other variety", func(l *Load) { l.TrueToType = No }, Refuse, "")
	check("fumigated", func(l *Load) { l.FumigantClear = "2026-08-22" }, Hold, "")
	check("aired", func(l *Load) { l.FumigantClear = "2026-08-20" }, Accept)
	check("thin", func(l *Load) { l.Sieves[2].Held.Mid = 0.969 }, Refuse, Through)
	// Nothing known at all: a hold, and no figure that is not a number's place.
	if j := c.Judge(&Load{NetKg: math.NaN(), Dockage: math.NaN()}); j.Decision != Hold || !math.IsNaN(j.Settlement.Total) {
		t.Errorf("an unknown load: %s at %g", j.Decision, j.Settlement.Total)
	}
}

func TestToleranceCallAndWantedChance(t *testing.T) {
	c := ukContract()
	c.Terms[2].Tolerance = 2
	l := goodLoad()
	l.Sieves[1].Held.Mid = 0.88
	if j := c.Judge(l); j.Decision != Accept || !hasCode(j.Findings, "intake.factor.within-tolerance") {
		t.Errorf("within tolerance: %s", j.Decision)
	}
	l.Sieves[1].Held.Mid = 0.879
	if j := c.Judge(l); j.Decision != Refuse {
		t.Errorf("beyond tolerance: %s", j.Decision)
	}
	c.Terms[2].Call = true
	if j := c.Judge(l); j.Decision != Hold {
		t.Errorf("call: %s", j.Decision)
	}
	l = goodLoad()
	c.Wanted = 0.9
	l.Readings[Capacity] = Counted(98, 100)
	if j := c.Judge(l); j.Decision != Hold {
		t.Errorf("98 of 100 against 98 %%, 9 in 10 wanted: %s", j.Decision)
	}
}

func TestAsIs(t *testing.T) {
	term := Term{Column: Column{Key: Of(Protein), In: PerCent, Decimals: 1}, AsIs: true, Least: math.NaN(), Most: 10}
	l := goodLoad() // 10.5 % of dry matter at 14 % moisture is 9.03 % as is
	if v := term.judge(l, term.limits()[0]); v.Outcome != Meets || v.Rounded != 9.0 {
		t.Errorf("%+v", v)
	}
	delete(l.Readings, Moisture)
	if v := term.judge(l, term.limits()[0]); v.Outcome != Unsaid {
		t.Errorf("as is without moisture: %+v", v)
	}
}

// 61 % over 7/64 and 92 % over 6/64 in, and a buyer who wants 90 % over 2.5
// mm. 6/64 in is 2.381 mm; between the slots 85.7 % (normal) or 82.7 (even)
// are to be expected. Worked by hand.
func TestSievesOfAnotherSeries(t *testing.T) {
	near(t, "6/64 in", Slot64(6), 0.002381, 5e-7)
	l := goodLoad()
	l.Sieves = []Sieve{{Slot64(7), odds.Alone(0.61, odds.Measured)}, {Slot64(6), odds.Alone(0.92, odds.Measured)}}
	guess, ok := l.HeldBetween(0.0025)
	if !ok {
		t.Fatal("no guess")
	}
	near(t, "normal", guess.Normal, 0.857, 0.0005)
	near(t, "even", guess.Linear, 0.827, 0.0005)
	c := ukContract()
	c.Terms = c.Terms[2:3]
	j := c.Judge(l)
	if j.Decision != Hold || !hasCode(j.Findings, "intake.sieve.other-slots-fails") || j.Verdicts[0].Outcome != Unsaid {
		t.Errorf("%s %v", j.Decision, j.Findings)
	}
	if _, ok := l.HeldBetween(0.0022); ok {
		t.Error("a guess beyond the slots used")
	}
}

// Two lots of 100 kernels: X looks dead and is dormant, Y looks well and is
// severely sprouted.
func TestDeadDormantSprouted(t *testing.T) {
	x := &Load{Readings: map[Factor]Reading{Energy: Counted(72, 100), Energy8: Counted(41, 100), Capacity: Counted(99, 100), Viscosity: Read(165)}}
	d := Diagnose(x)
	near(t, "X dead", d.Dead.Mid, 0.01, 1e-12)
	near(t, "X dormant", d.Dormant.Mid, 0.27, 1e-12)
	near(t, "X sensitive", d.Sensitive.Mid, 0.31, 1e-12)
	if d.Sprout != SproutNone || !hasCode(d.Findings, "intake.dormancy.present") || !hasCode(d.Findings, "intake.water.sensitive") {
		t.Errorf("X: %v %v", d.Sprout, d.Findings)
	}
	y := &Load{Readings: map[Factor]Reading{Energy: Counted(96, 100), Energy8: Counted(90, 100), Capacity: Counted(97, 100), Viscosity: Read(42)}}
	e := Diagnose(y)
	if e.Sprout != SproutSevere || hasCode(e.Findings, "intake.dormancy.present") || e.Findings[0].Act != "act.intake.use-first" {
		t.Errorf("Y: %v %v", e.Sprout, e.Findings)
	}
	low, high := limits95(y, Energy)
	near(t, "Y low", low, 0.90, 0.005)
	near(t, "Y high", high, 0.99, 0.005)
	// A contract on germinative energy holds X for a test and does not refuse it.
	c := &Contract{PriceT: 200, Shrink: Shrink{Basis: math.NaN()}, Terms: []Term{
		{Column: Column{Key: Of(Energy), In: PerCent, Decimals: 0}, Least: 95, Most: math.NaN()},
	}}
	x.NetKg, y.NetKg = 1, 1
	if j := c.Judge(x); j.Decision != Hold {
		t.Errorf("X: %s", j.Decision)
	}
	if j := c.Judge(y); j.Decision != Accept || !hasCode(j.Findings, "intake.sprout.severe") {
		t.Errorf("Y: %s", j.Decision)
	}
}

func TestSum(t *testing.T) {
	c := ukContract()
	refused := goodLoad()
	refused.Readings[Moisture] = Read(0.2)
	unweighed := goodLoad()
	unweighed.NetKg = math.NaN()
	total := Sum([]Judgement{c.Judge(goodLoad()), c.Judge(goodLoad()), c.Judge(refused), c.Judge(unweighed)})
	near(t, "amount", total.Amount, 11600, 1e-9)
	near(t, "payable", total.PayableKg, 58000, 1e-6)
	if total.Loads[Accept] != 3 || total.Loads[Refuse] != 1 || total.Unpriced != 1 {
		t.Errorf("%+v", total)
	}
}

func TestFits(t *testing.T) {
	nan := math.NaN()
	bin := func(name, variety string, held, free, protein float64) Bin {
		return Bin{
			Name: name, Variety: variety, HeldKg: held, FreeKg: free, Protein: [2]float64{nan, nan},
			MostMoisture: nan, LeastLiving: nan, MostDON: nan, HeldProtein: protein,
		}
	}
	low := bin("low protein", "Ellerdine Gold", 300e3, 200e3, 0.102)
	low.Protein = [2]float64{0.095, 0.108}
	near1 := bin("near", "Ellerdine Gold", 300e3, 200e3, 0.106)
	other := bin("other", "Saltmarsh", 100e3, 400e3, 0.105)
	full := bin("full", "Ellerdine Gold", 500e3, 1e3, 0.105)
	sprouted := bin("sprouted", "", 0, 500e3, nan)
	sprouted.ForSprouted = true
	toxin := bin("clean", "", 0, 500e3, nan)
	toxin.MostDON = 1e-6
	fits := Fits(goodLoad(), []Bin{other, low, full, near1, sprouted, toxin})
	if fits[0].Bin.Name != "near" || fits[1].Bin.Name != "low protein" || len(fits[1].Bars) != 0 {
		t.Errorf("order %v, %v", fits[0].Bin.Name, fits[1].Bin.Name)
	}
	near(t, "mean protein", fits[0].MeanProtein, (300*0.106+29*0.105)/329, 1e-12)
	bars := map[string][]Bar{"other": {OtherVariety}, "full": {NoRoom}, "sprouted": {SproutedApart}, "clean": {NotKnown}}
	for _, f := range fits[2:] {
		if !slices.Equal(f.Bars, bars[f.Bin.Name]) {
			t.Errorf("%s: %v", f.Bin.Name, f.Bars)
		}
	}
	if Placed(fits) != nil || len(Placed(fits[2:])) != 1 {
		t.Error("the word on no silo that fits")
	}
	// Grain that sprouted goes to its own silo and to no other.
	l := goodLoad()
	l.Readings[Viscosity] = Read(60)
	fits = Fits(l, []Bin{near1, sprouted})
	if fits[0].Bin.Name != "sprouted" || !slices.Equal(fits[1].Bars, []Bar{SproutedApart}) {
		t.Errorf("%v", fits)
	}
}

func TestPapers(t *testing.T) {
	l := &Load{GrainC: 3}
	var codes []string
	for _, p := range l.papers("") {
		codes = append(codes, p.Code)
	}
	want := []string{"intake.variety.not-tested", "intake.cargo.unknown", "intake.meter.cold"}
	if !slices.Equal(codes, want) {
		t.Errorf("%v", codes)
	}
	for _, a := range []Act{Tipping, Probing} {
		if c := Cautions(a); len(c) != 1 || c[0].Source == "" {
			t.Errorf("%s: %v", a, c)
		}
	}
}
