package germinate

import (
	"math"
	"slices"
	"testing"

	"awn/air"
	"awn/barley"
	"awn/kernel"
	"awn/plant"
	"awn/programme"
	"awn/unit"

	"pgregory.net/rapid"
)

// store is what a piece of grain holds, taken from dry matter, water and
// temperature alone.
func store(g *barley.Grain) (s [barley.HeatJ + 1]float64) {
	s[barley.Dry], s[barley.Water] = g.TotalDryKg(), g.TotalWaterKg()
	for cell := range g.Cells() {
		dry := g.CellDryKg(cell)
		s[barley.HeatJ] += dry * barley.GrainEnthalpy(unit.Celsius(g.TempC[cell]), unit.DryBasis(g.WaterKg[cell]/dry))
	}
	return s
}

// A random house and programme, with every feature that changes a balance.
func randomSetup(t *rapid.T, base Setup) Setup {
	s := base
	s.Vessel.Kind = plant.GerminatorKind(rapid.IntRange(0, 4).Draw(t, "kind"))
	s.Vessel.MixesTurn = rapid.Float64Range(0, 1).Draw(t, "mixes")
	s.Vessel.LossWM2K = rapid.Float64Range(0, 15).Draw(t, "loss")
	s.Vessel.Air.FanPlace = plant.FanPlace(rapid.IntRange(0, 2).Draw(t, "place"))
	s.Vessel.Air.Humidifier = rapid.Float64Range(0, 1).Draw(t, "humidifier")
	s.Vessel.Air.CoolingKW = rapid.Float64Range(0, 10).Draw(t, "cooling")
	s.Vessel.Air.HeatingKW = rapid.Float64Range(0, 30).Draw(t, "heating")
	s.Vessel.Air.LeastFresh = rapid.Float64Range(0, 1).Draw(t, "least fresh")
	s.PressurePa = air.StandardPressure(rapid.Float64Range(0, 3000).Draw(t, "altitude"))
	s.Outside = Outside{rapid.Float64Range(-15, 40).Draw(t, "outside"), rapid.Float64Range(0.1, 1).Draw(t, "rh"), rapid.Float64Range(0, 8).Draw(t, "swing"), 6}
	s.Layers = rapid.IntRange(1, 12).Draw(t, "layers")
	if rapid.Bool().Draw(t, "uneven") {
		s.Columns = []barley.Column{{Share: 0.3, Depth: 0.9, Packing: 1}, {Share: 0.4, Depth: 1, Packing: 1}, {Share: 0.3, Depth: 1.1, Packing: 1.2}}
		s.Mix = true
	}
	return s
}

func randomStep(t *rapid.T) programme.GerminateStep {
	step := programme.GerminateStep{
		Until:  programme.Until{LatestH: rapid.Float64Range(0.1, 30).Draw(t, "hours")},
		AirOnC: rapid.Float64Range(8, 28).Draw(t, "air-on"), AirOnRH: rapid.Float64Range(0.2, 1).Draw(t, "air-on rh"),
		Flow: per(rapid.Float64Range(20, 1200).Draw(t, "flow")), Fresh: rapid.Float64Range(0, 1).Draw(t, "fresh"),
		FanOff: rapid.IntRange(0, 3).Draw(t, "fan off") == 0,
	}
	if rapid.Bool().Draw(t, "turns") {
		step.TurnEvH = rapid.Float64Range(1, 24).Draw(t, "turn every")
	}
	switch rapid.IntRange(0, 2).Draw(t, "spray") {
	case 1:
		step.SprayKgT = rapid.Float64Range(1, 80).Draw(t, "spray kg/t")
	case 2:
		step.SprayToWB = rapid.Float64Range(0.40, 0.50).Draw(t, "spray to")
	}
	return step
}

// Dry matter, water, heat, oxygen and carbon dioxide are all accounted for:
// what the grain has gained, by an inventory that knows nothing of the run, is
// the sum of the lines, within 1e-9 of what passed.
func TestAccountCloses(t *testing.T) {
	base := setup(t, 1)
	cs := classes()
	rapid.Check(t, func(t *rapid.T) {
		s := randomSetup(t, base)
		g := steeped(cs, 3, rapid.Float64Range(0.15, 0.5).Draw(t, "wet"), rapid.Float64Range(5, 30).Draw(t, "grain"), 350, 0.2)
		r, err := Start(s, g)
		if err != nil {
			t.Fatal(err)
		}
		before := store(g)
		at := 0.0
		for range 3 {
			step := randomStep(t)
			at += step.Until.LatestH
			if err := r.Begin(step); err != nil {
				t.Fatal(err)
			}
			if err := r.To(at); err != nil {
				t.Fatal(err)
			}
		}
		end := r.Shape()
		r.Grain(end)
		closes(t, r, before, store(end))
		if slices.Min(end.DryKg) < 0 || slices.Min(end.WaterKg) < 0 || slices.Min(end.AgeD) < 0 {
			t.Fatal("less than nothing of something")
		}
		for i := range r.cells {
			if r.cells[i].oxygen < 0 || r.cells[i].dioxide < 0 {
				t.Fatalf("gases of cell %d: %+v", i, r.cells[i])
			}
		}
	})
}

func closes(t *rapid.T, r *Run, before, after [barley.HeatJ + 1]float64) {
	var sum, passed [barley.HeatJ + 1]float64
	for _, line := range r.Lines(nil) {
		sum[line.Good] += line.Amount
		passed[line.Good] += math.Abs(line.Amount)
	}
	for good := range sum {
		passed[good] += math.Abs(before[good])
		if gap := math.Abs(after[good] - before[good] - sum[good]); gap > 1e-9*passed[good] {
			t.Fatalf("good %d: %g in, %g before, %g after: off by %g", good, sum[good], before[good], after[good], gap)
		}
	}
	// Oxygen, carbon dioxide and heat follow from the dry matter gone by the
	// stoichiometry of starch alone.
	b := r.now.sums.burned
	respired := b.DryKg - b.FermentedKg
	if math.Abs(b.OxygenKg-respired*kernel.OxygenPerKg) > 1e-9*b.OxygenKg {
		t.Fatalf("%g kg oxygen for %g kg respired", b.OxygenKg, respired)
	}
	voids := 0.0
	for i := range r.cells {
		voids += r.cells[i].voidKg * (r.cells[i].oxygen - freshOxygen)
	}
	if math.Abs(voids-r.now.sums.voidOxygenKg) > 1e-9*(b.OxygenKg+math.Abs(voids)) {
		t.Fatalf("voids gained %g kg of oxygen, account says %g", voids, r.now.sums.voidOxygenKg)
	}
}

// A clone goes on exactly as its original, and Reset takes a run back.
func TestCloneGoesOnAsItsOriginal(t *testing.T) {
	r := start(t, setup(t, 20), steeped(classes(), 20, 0.45, 16, 300, 0))
	stopped := plain(4)
	stopped.FanOff = true
	run(t, r, plain(26), stopped)
	copied := r.Clone()
	rest := plain(40)
	rest.SprayToWB, rest.SprayKgT = 0, 40
	run(t, r, rest)
	run(t, copied, rest)
	same(t, r, copied)

	early := copied.Clone()
	run(t, copied, plain(5))
	copied.Reset(early)
	run(t, copied, plain(7))
	run(t, r, plain(7))
	same(t, r, copied)
}

func same(t *testing.T, a, b *Run) {
	t.Helper()
	if !slices.Equal(a.cells, b.cells) || !slices.Equal(a.grain.DryKg, b.grain.DryKg) || !slices.Equal(a.grain.AgeD, b.grain.AgeD) ||
		!slices.Equal(a.grain.ThermalTimeCH, b.grain.ThermalTimeCH) || a.now.sums != b.now.sums || a.now.utilities != b.now.utilities {
		t.Error("clone and original differ")
	}
	va, vb := read(a), read(b)
	for i := range va {
		if math.Float64bits(va[i]) != math.Float64bits(vb[i]) {
			t.Errorf("%s: %g and %g", programme.Reading(i).Key(), va[i], vb[i])
		}
	}
}

func TestNothingIsAllocatedAfterStart(t *testing.T) {
	r := start(t, setup(t, 20), steeped(classes(), 20, 0.45, 16, 300, 0))
	first := r.Clone()
	var v programme.Values
	end := r.Shape()
	lines := make([]barley.Line, 0, 32)
	step := plain(48)
	if n := testing.AllocsPerRun(3, func() {
		r.Reset(first)
		if r.Begin(step) != nil || r.To(48) != nil {
			t.Error("did not run")
		}
		r.Read(&v)
		r.Grain(end)
		lines = r.Lines(lines[:0])
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// Halving steps and layers moves modification by less than half a point.
func TestFinerGridChangesLittle(t *testing.T) {
	assess := func(layers int, stepS float64) Modification {
		s := setup(t, layers)
		s.StepS = stepS
		r := start(t, s, steeped(classes(), layers, 0.455, 16, 300, 0))
		run(t, r, plain(96))
		end := r.Shape()
		r.Grain(end)
		return s.Constants.Modification(end, testLot())
	}
	usual := assess(20, 0)
	for name, fine := range map[string]Modification{"half the step": assess(20, 900), "twice the layers": assess(40, 0)} {
		near(t, name+": friability, mean", fine.Mean.Friability, usual.Mean.Friability, 0.005)
		near(t, name+": friability, worst layer", fine.Worst.Friability, usual.Worst.Friability, 0.005)
		near(t, name+": Kolbach", fine.Mean.Kolbach, usual.Mean.Kolbach, 0.005)
		near(t, name+": age", fine.Mean.AgeD, usual.Mean.AgeD, 0.02)
	}
}
