package steep_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"awn/barley"
	"awn/odds"
	"awn/programme"
	"awn/steep"
)

var twoDays = []programme.SteepStep{wet(8, 15), rest(14, 16), wet(7, 15), rest(12, 16), wet(2, 15), rest(5, 16)}

func TestCloneGoesOnBitEqual(t *testing.T) {
	run := start(t, usual(t), cast(t, 0.12, 12))
	walk(t, run, 0, twoDays[:2]...)
	if err := run.Begin(twoDays[2]); err != nil {
		t.Fatal(err)
	}
	if err := run.To(24.3); err != nil { // in the middle of a step
		t.Fatal(err)
	}
	twin := run.Clone()
	reset := start(t, usual(t), cast(t, 0.12, 12))
	reset.Reset(run)
	var ends [3]*barley.Grain
	for i, r := range []*steep.Run{run, twin, reset} {
		if err := r.To(29); err != nil {
			t.Fatal(err)
		}
		walk(t, r, 29, twoDays[3:]...)
		ends[i] = cast(t, 0.12, 12)
		r.Grain(ends[i])
	}
	for i := 1; i < 3; i++ {
		if !reflect.DeepEqual(ends[0], ends[i]) {
			t.Error("a copy of the run ended elsewhere")
		}
	}
	if !reflect.DeepEqual(run.Lines(nil), twin.Lines(nil)) || !reflect.DeepEqual(run.Lines(nil), reset.Lines(nil)) {
		t.Error("a copy of the run keeps other accounts")
	}
}

func TestHalfTheStepChangesLittle(t *testing.T) {
	ends := [2]programme.Values{}
	for i, stepS := range []float64{600, 300} {
		s := usual(t)
		s.StepS = stepS
		run := start(t, s, cast(t, 0.12, 12))
		walk(t, run, 0, twoDays...)
		ends[i] = read(run)
	}
	for _, c := range []struct {
		of    programme.Reading
		limit float64
	}{{programme.Moisture, 0.0005}, {programme.Drained, 0.0005}, {programme.Chit, 0.005}, {programme.Age, 0.005}, {programme.TempMean, 0.05}} {
		d := math.Abs(ends[0][c.of] - ends[1][c.of])
		t.Logf("%s %.6f", c.of.Key(), d)
		if d > c.limit {
			t.Errorf("%s moves by %g with half the step", c.of.Key(), d)
		}
	}
}

func TestToAllocatesNothing(t *testing.T) {
	run := start(t, usual(t), cast(t, 0.12, 12))
	from := run.Clone()
	var v programme.Values
	g := cast(t, 0.12, 12)
	if n := testing.AllocsPerRun(10, func() {
		run.Reset(from)
		walk(t, run, 0, twoDays...)
		run.Read(&v)
		run.Grain(g)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func TestCastKeepsColumnsAndOffsets(t *testing.T) {
	columns := []barley.Column{{Share: 0.25, Depth: 0.9, Packing: 1}, {Share: 0.75, Depth: 1.1, Packing: 1.2}}
	g := cast(t, 0.12, 12, columns...)
	run := start(t, usual(t), g)
	walk(t, run, 0, twoDays...)
	run.Grain(g)
	if ratio := g.CellDryKg(0) / g.TotalDryKg(); math.Abs(ratio-0.25*0.9/(0.25*0.9+0.75*1.1)) > 1e-12 {
		t.Errorf("the thin column holds %.4f of the piece", ratio)
	}
	v := read(run)
	if wb := g.TotalWaterKg() / (g.TotalWaterKg() + g.TotalDryKg()); math.Abs(wb-v[programme.Drained]) > 1e-12 {
		t.Errorf("cast at %.4f, drained reads %.4f", wb, v[programme.Drained])
	}
	sum := 0.0
	for i, m := range g.Of(g.DryKg, 0) {
		sum += m * g.OffsetDB[i]
		if i > 0 && g.OffsetDB[i] < g.OffsetDB[i-1]-1e-12 {
			t.Errorf("class %d of smaller kernels is drier", i)
		}
	}
	if math.Abs(sum/g.CellDryKg(0)) > 1e-12 {
		t.Errorf("offsets sum to %g", sum)
	}
	if g.OffsetDB[0] == g.OffsetDB[len(g.OffsetDB)-1] {
		t.Error("large and small kernels are equally wet")
	}
}

func TestSlowFillingWetsLess(t *testing.T) {
	quick, slow := usual(t), usual(t)
	quick.Vessel.FillH, quick.Vessel.DrainH = 0, 0
	slow.Vessel.FillH, slow.Vessel.DrainH = 3, 0
	var got [2]float64
	for i, s := range []steep.Setup{quick, slow} {
		run := start(t, s, cast(t, 0.12, 14))
		walk(t, run, 0, wet(6, 14))
		got[i] = read(run)[programme.Moisture]
	}
	if got[1] >= got[0] {
		t.Errorf("three hours of filling give %.3f, none %.3f", got[1], got[0])
	}
}

func TestRefusals(t *testing.T) {
	run := start(t, usual(t), cast(t, 0.12, 14))
	for what, s := range map[string]programme.SteepStep{
		"hot water": wet(4, 46), "ice": wet(4, -1), "hot air": rest(4, 80),
		"negative aeration": {Kind: programme.Immersion, WaterC: house, AirC: house, AerationM3HT: -1},
		"a gale":            {Kind: programme.AirRest, WaterC: house, AirC: house, SuctionM3HT: 1e5},
		"endless spray":     {Kind: programme.SteepSpray, WaterC: house, AirC: house, SprayKgT: 5},
	} {
		if err := run.Begin(s); err == nil || !strings.HasPrefix(err.Error(), "steep: ") {
			t.Errorf("%s: %v", what, err)
		}
	}
	if err := run.To(-1); err == nil {
		t.Error("time runs backwards")
	}
	if err := run.To(math.NaN()); err == nil {
		t.Error("time is not a number")
	}
	for what, change := range map[string]func(*steep.Setup){
		"no vessel": func(s *steep.Setup) { s.Vessel.VolumeM3 = 0 }, "no water": func(s *steep.Setup) { s.WaterC = math.NaN() },
		"no vigour": func(s *steep.Setup) { s.ChitCH = math.NaN() }, "a long step": func(s *steep.Setup) { s.StepS = 1e5 },
	} {
		s := usual(t)
		change(&s)
		if _, err := steep.Start(s, cast(t, 0.12, 14)); err == nil {
			t.Errorf("%s is accepted", what)
		}
	}
}

func TestADeadLotIsSaidToBeDead(t *testing.T) {
	lot, _ := barley.Lot{
		Moisture: odds.Exact(0.12, odds.Measured), Protein: barley.Unknown(), KernelMassMg: barley.Unknown(),
		TestWeightKgHL: barley.Unknown(), Capacity: odds.Exact(0, odds.Measured), Dormant: odds.Exact(0, odds.Measured),
		WaterSensitivity: barley.Unknown(), ChitThermalTimeCH: barley.Unknown(), BetaGlucan: barley.Unknown(),
		Uptake: barley.Unknown(), GreenSMM: barley.Unknown(),
	}.Complete()
	g, err := barley.Cast(&lot, 5, []barley.Column{{Share: 1, Depth: 1, Packing: 1}}, 10000, 14)
	if err != nil {
		t.Fatal(err)
	}
	run := start(t, usual(t), g)
	walk(t, run, 0, twoDays...)
	v := read(run)
	if v[programme.Chit] != 0 || math.IsNaN(v[programme.Drained]) {
		t.Errorf("chit %g, drained %g", v[programme.Chit], v[programme.Drained])
	}
	if codes(run)["steep.chit.impossible"] == 0 {
		t.Error("nothing is said of a dead lot")
	}
}

// The cut test: after a short steep the middle of the kernels is still dry.
func TestDryCore(t *testing.T) {
	run := start(t, usual(t), cast(t, 0.12, 14))
	walk(t, run, 0, wet(6, 14))
	if got := run.DryCore(0.25); math.Abs(got-1) > 1e-12 {
		t.Errorf("after 6 h %.2f have a dry core", got)
	}
	walk(t, run, 6, rest(14, 15), wet(8, 14), rest(20, 15))
	if got := run.DryCore(0.25); got != 0 {
		t.Errorf("after two days %.2f have a dry core", got)
	}
}

func BenchmarkTwoDays(b *testing.B) {
	run := start(b, usual(b), cast(b, 0.12, 12))
	from := run.Clone()
	b.ReportAllocs()
	for b.Loop() {
		run.Reset(from)
		walk(b, run, 0, twoDays...)
	}
}
