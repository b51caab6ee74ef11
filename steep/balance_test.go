package steep_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"awn/barley"
	"awn/kernel"
	"awn/programme"
	"awn/steep"
	"awn/unit"
)

// inventory is what a piece holds, from its state alone.
func inventory(g *barley.Grain) (stock [barley.HeatJ + 1]float64) {
	for cell := range g.Cells() {
		dry := g.CellDryKg(cell)
		stock[barley.Dry] += dry
		stock[barley.Water] += g.WaterKg[cell]
		stock[barley.HeatJ] += dry * barley.GrainEnthalpy(unit.Celsius(g.TempC[cell]), unit.DryBasis(g.WaterKg[cell]/dry))
	}
	return stock
}

// programmes draws one to three immersions with other steps between.
func programmes(t *rapid.T) []programme.SteepStep {
	kinds := []programme.SteepKind{programme.AirRest, programme.Couch, programme.Drain, programme.SteepSpray}
	tempC := rapid.Float64Range(1, 40)
	hours := rapid.Float64Range(0.05, 12)
	step := func(kind programme.SteepKind) programme.SteepStep {
		s := programme.SteepStep{
			Kind: kind, Until: programme.Until{LatestH: hours.Draw(t, "hours")},
			WaterC: tempC.Draw(t, "water"), AirC: rapid.Float64Range(-15, 40).Draw(t, "air"),
			AerationM3HT: rapid.Float64Range(0, 6).Draw(t, "aeration"), SuctionM3HT: rapid.Float64Range(0, 300).Draw(t, "suction"),
		}
		if kind == programme.SteepSpray {
			s.SprayKgT = rapid.Float64Range(0, 80).Draw(t, "spray")
		}
		return s
	}
	var steps []programme.SteepStep
	if rapid.Bool().Draw(t, "rest first") {
		steps = append(steps, step(programme.AirRest))
	}
	for range rapid.IntRange(1, 3).Draw(t, "immersions") {
		steps = append(steps, step(programme.Immersion))
		for range rapid.IntRange(0, 2).Draw(t, "rests") {
			steps = append(steps, step(rapid.SampledFrom(kinds).Draw(t, "kind")))
		}
	}
	return steps
}

func anyHouse(t *rapid.T, s steep.Setup) steep.Setup {
	s.Vessel.FillH = rapid.SampledFrom([]float64{0, 0.5, 3}).Draw(t, "fill")
	s.Vessel.DrainH = rapid.SampledFrom([]float64{0, 0.5, 2}).Draw(t, "drain")
	s.Vessel.WaterM3T = rapid.Float64Range(0.2, 2).Draw(t, "water per t")
	s.PressurePa = rapid.Float64Range(70e3, 104e3).Draw(t, "pressure")
	s.AirC = rapid.Float64Range(-15, 40).Draw(t, "outside")
	s.AirRH = rapid.Float64Range(0.1, 1).Draw(t, "humidity")
	s.WaterSensitivity = rapid.Float64Range(0, 0.6).Draw(t, "sensitivity")
	s.ChitCH = rapid.Float64Range(150, 1200).Draw(t, "vigour")
	return s
}

// The grain is weighed and its heat taken from temperature and moisture alone,
// before and after; what passed is the account. 1e-9 of what passed, the
// rounding of some thousand steps.
func TestBalancesClose(t *testing.T) {
	base := usual(t)
	rapid.Check(t, func(t *rapid.T) {
		g := castAny(t)
		before := inventory(g)
		run, err := steep.Start(anyHouse(t, base), g)
		if err != nil {
			t.Fatal(err)
		}
		atH := 0.0
		for _, s := range programmes(t) {
			if err := run.Begin(s); err != nil {
				t.Fatal(err)
			}
			atH += s.Until.LatestH
			if err := run.To(atH); err != nil {
				t.Fatal(err)
			}
			run.Grain(g)
			notNegative(t, run, g)
		}
		checkAccount(t, before, inventory(g), run)
		checkEffluent(t, run)
	})
}

func castAny(t *rapid.T) *barley.Grain {
	columns := []barley.Column{{Share: 0.3, Depth: 0.9, Packing: 1}, {Share: 0.7, Depth: 1.05, Packing: 1.1}}
	return cast(t, rapid.Float64Range(0.08, 0.18).Draw(t, "moisture"), rapid.Float64Range(-15, 40).Draw(t, "grain"), columns...)
}

func checkAccount(t *rapid.T, before, after [barley.HeatJ + 1]float64, run *steep.Run) {
	var net, passed [barley.HeatJ + 1]float64
	byCode := map[string]float64{}
	for _, l := range run.Lines(nil) {
		net[l.Good] += l.Amount
		passed[l.Good] += math.Abs(l.Amount)
		if l.Good == barley.Oxygen || l.Good == barley.Dry {
			byCode[l.Code] += l.Amount * map[barley.Good]float64{barley.Oxygen: 1 / kernel.OxygenPerKg, barley.Dry: -1}[l.Good]
		}
	}
	for good := range net {
		change := after[good] - before[good] // oxygen and carbon dioxide are not held
		if math.Abs(net[good]-change) > 1e-9*(passed[good]+math.Abs(before[good])) {
			t.Errorf("good %d: account %.9g, grain changed by %.9g", good, net[good], change)
		}
	}
	// Oxygen taken is 1.184 of the dry matter respired.
	if off := byCode["steep.respired"]; math.Abs(off) > 1e-9*before[barley.Dry] {
		t.Errorf("oxygen and respired dry matter differ by %g kg", off)
	}
}

func checkEffluent(t *rapid.T, run *steep.Run) {
	e := run.Effluent()
	if math.Abs(e.DrainM3*e.CODKgM3-e.CODKg) > 1e-9*e.CODKg && e.DrainM3 > 0 {
		t.Errorf("volume times concentration %g, load %g kg", e.DrainM3*e.CODKgM3, e.CODKg)
	}
	if e.DrainM3 < 0 || e.CODKg < 0 {
		t.Errorf("effluent %+v", e)
	}
}

func notNegative(t *rapid.T, run *steep.Run, g *barley.Grain) {
	v := read(run)
	if !(v[programme.Moisture] >= 0 && v[programme.Drained] >= v[programme.Moisture] && v[programme.Drained] < 0.6) {
		t.Errorf("bulk %g, drained %g", v[programme.Moisture], v[programme.Drained])
	}
	for _, r := range []programme.Reading{programme.OxygenLeast, programme.CarbonDioxideMost, programme.Chit} {
		if v[r] < 0 || v[r] > 1 {
			t.Errorf("%s is %g", r.Key(), v[r])
		}
	}
	number := 0.0
	for i, c := range g.Classes {
		number += c.Number
		if c.Number < 0 || g.DryKg[i] < 0 || g.CellMoistureDB(0)+g.OffsetDB[i] < 0 || g.AgeD[i] < 0 {
			t.Errorf("class %d: number %g, dry %g, age %g", i, c.Number, g.DryKg[i], g.AgeD[i])
		}
	}
	if math.Abs(number-1) > 1e-12 {
		t.Errorf("classes sum to %.15g", number)
	}
}

// All else equal, a longer immersion never leaves any class drier at steep-out.
// That holds at equal temperature and before chit, since warmth moves water
// faster and life burns: here uptake does not depend on temperature, nothing
// chits and no air dries. 1e-5 for the time steps, which fall elsewhere.
func TestLongerImmersionIsNeverDrier(t *testing.T) {
	base := usual(t)
	base.Kernel.ActivationJMol = 0
	base.Constants.DraughtM3HT = 0
	base.ChitCH = 1e5
	rapid.Check(t, func(t *rapid.T) {
		steps := programmes(t)
		var immersions []int
		for i, s := range steps {
			steps[i].SuctionM3HT = 0
			if s.Kind == programme.Immersion {
				immersions = append(immersions, i)
			}
		}
		longer := append([]programme.SteepStep(nil), steps...)
		which := rapid.SampledFrom(immersions).Draw(t, "which")
		longer[which].Until.LatestH += rapid.Float64Range(0.25, 10).Draw(t, "more")
		short, long := moistures(t, base, steps), moistures(t, base, longer)
		for i := range short {
			if long[i] < short[i]-1e-5 {
				t.Errorf("class %d: %.9f after a longer immersion, %.9f before", i, long[i], short[i])
			}
		}
	})
}

func moistures(t *rapid.T, s steep.Setup, steps []programme.SteepStep) []float64 {
	g := cast(t, 0.12, 14)
	run, err := steep.Start(s, g)
	if err != nil {
		t.Fatal(err)
	}
	atH := 0.0
	for _, step := range steps {
		if err := run.Begin(step); err != nil {
			t.Fatal(err)
		}
		atH += step.Until.LatestH
		if err := run.To(atH); err != nil {
			t.Fatal(err)
		}
	}
	run.Grain(g)
	out := make([]float64, len(g.Classes))
	for i := range out {
		out[i] = g.CellMoistureDB(0) + g.OffsetDB[i]
	}
	return out
}
