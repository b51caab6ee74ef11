package steep_test

import (
	"math"
	"reflect"
	"testing"

	"awn/barley"
	"awn/bed"
	"awn/programme"
	"awn/steep"
)

func startBed(t testing.TB, s steep.Setup, columns []barley.Column) *steep.Bed {
	t.Helper()
	b, err := steep.StartBed(s, columns, cast(t, 0.12, 14))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func walkBed(t testing.TB, b *steep.Bed, steps ...programme.SteepStep) {
	t.Helper()
	at := 0.0
	for _, s := range steps {
		if err := b.Begin(s); err != nil {
			t.Fatal(err)
		}
		at += s.Until.LatestH
		if err := b.To(at); err != nil {
			t.Fatal(err)
		}
	}
}

func readBed(b *steep.Bed) programme.Values {
	var v programme.Values
	b.Read(&v)
	return v
}

// A bed of columns that are all alike is a level bed. Tolerance: rounding over
// some hundred steps.
func TestColumnsAlikeAreALevelBed(t *testing.T) {
	slow := usual(t)
	slow.StepS = 900 // the step of columns
	run := start(t, slow, cast(t, 0.12, 14))
	walk(t, run, 0, twoDays...)
	alike := startBed(t, usual(t), []barley.Column{{Share: 0.3, Depth: 1, Packing: 1}, {Share: 0.7, Depth: 1, Packing: 1}})
	walkBed(t, alike, twoDays...)
	want, got := read(run), readBed(alike)
	for r := programme.None + 1; r < programme.Readings; r++ {
		if math.IsNaN(want[r]) != math.IsNaN(got[r]) || math.Abs(want[r]-got[r]) > 1e-9*max(1, math.Abs(want[r])) {
			t.Errorf("%s is %g, level %g", r.Key(), got[r], want[r])
		}
	}
	level := startBed(t, usual(t), []barley.Column{{Share: 1, Depth: 1, Packing: 1}})
	walkBed(t, level, twoDays...)
	run = start(t, usual(t), cast(t, 0.12, 14))
	walk(t, run, 0, twoDays...)
	if !reflect.DeepEqual(run.Lines(nil), level.Lines(nil)) {
		t.Error("one column keeps another account than a run")
	}
}

// Suction is shared as bed.Split shares it, and the thick spot, which gets less
// of it, is the warmer for it and holds more carbon dioxide.
func TestThickSpotGetsLessAir(t *testing.T) {
	b := startBed(t, usual(t), barley.Uneven(0.2, 1.25))
	slow := rest(14, 12)
	slow.SuctionM3HT = 20
	walkBed(t, b, wet(8, 16), slow)
	level := startBed(t, usual(t), []barley.Column{{Share: 1, Depth: 1, Packing: 1}})
	walkBed(t, level, wet(8, 16), slow)
	v, even := readBed(b), readBed(level)
	if !(v[programme.TempHigh] > even[programme.TempMean] && v[programme.TempLow] < even[programme.TempMean]) {
		t.Errorf("spots of %.2f to %.2f °C, level %.2f", v[programme.TempLow], v[programme.TempHigh], even[programme.TempMean])
	}
	if !(v[programme.CarbonDioxideMost] > even[programme.CarbonDioxideMost]) {
		t.Errorf("carbon dioxide %.4f, level %.4f", v[programme.CarbonDioxideMost], even[programme.CarbonDioxideMost])
	}
	air := make([]float64, 3)
	bed.Split(air, []bed.Spot{{Share: 0.25, DepthM: 1.6, Factor: 1}, {Share: 0.5, DepthM: 2, Factor: 1}, {Share: 0.25, DepthM: 2.4, Factor: 1.25}}, 0.005)
	if ratio := air[2] / air[0]; ratio > 0.6 {
		t.Errorf("the thick spot gets %.2f of the thin one's air", ratio)
	}
}

// Whatever lies beside each other, nothing is made or lost.
func TestColumnsClose(t *testing.T) {
	b := startBed(t, usual(t), barley.Uneven(0.15, 1.25))
	before := b.Shape()
	b.Grain(before)
	walkBed(t, b, twoDays...)
	after := b.Shape()
	b.Grain(after)
	sum := map[barley.Good]float64{}
	for _, l := range b.Lines(nil) {
		sum[l.Good] += l.Amount
	}
	for good, moved := range map[barley.Good]float64{
		barley.Dry: after.TotalDryKg() - before.TotalDryKg(), barley.Water: after.TotalWaterKg() - before.TotalWaterKg(),
	} {
		if math.Abs(moved-sum[good]) > 1e-9*before.TotalDryKg() {
			t.Errorf("good %d moves by %.9g, its lines by %.9g", good, moved, sum[good])
		}
	}
	number := 0.0
	for _, c := range after.Classes {
		number += c.Number
	}
	if math.Abs(number-1) > 1e-12 {
		t.Errorf("the classes are %.15g of the kernels", number)
	}
}

func TestBedClonesGoOnAlike(t *testing.T) {
	b := startBed(t, usual(t), barley.Uneven(0.1, 1.25))
	walkBed(t, b, twoDays[:2]...)
	twin := b.Clone()
	reset := startBed(t, usual(t), barley.Uneven(0.1, 1.25))
	reset.Reset(b)
	for _, x := range []*steep.Bed{b, twin, reset} {
		if err := x.Begin(twoDays[2]); err != nil {
			t.Fatal(err)
		}
		if err := x.To(28); err != nil {
			t.Fatal(err)
		}
	}
	if readBed(b) != readBed(twin) && !reflect.DeepEqual(b.Lines(nil), twin.Lines(nil)) || !reflect.DeepEqual(b.Lines(nil), reset.Lines(nil)) {
		t.Error("a copy went on otherwise")
	}
}

// Water that has been used brings no oxygen, and an immersion ends before the
// vessel is full where it is shorter than its filling.
func TestUsedWaterAndShortImmersions(t *testing.T) {
	chit := func(reused float64) float64 {
		run := start(t, usual(t), cast(t, 0.12, 14))
		first, second := wet(7, 16), wet(8, 16)
		first.AerationM3HT, second.AerationM3HT = 0, 0
		second.Reused = reused
		walk(t, run, 0, first, rest(16, 16), second)
		return read(run)[programme.Chit]
	}
	if fresh, used := chit(0), chit(1); used >= fresh {
		t.Errorf("chit %.4f in used water, %.4f in fresh", used, fresh)
	}
	s := usual(t)
	s.Vessel.FillH = 2
	for hours, told := range map[float64]int{1: 1, 3: 0} {
		run := start(t, s, cast(t, 0.12, 14))
		walk(t, run, 0, wet(hours, 14), rest(4, 14))
		if codes(run)["steep.immersion.short"] != told {
			t.Errorf("%g h of a vessel that fills in two: %v", hours, codes(run))
		}
	}
}
