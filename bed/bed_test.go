package bed

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"awn/odds"

	"pgregory.net/rapid"
)

// The law at three flows, worked by hand from its two printed constants.
func ExampleGradient() {
	for _, v := range []float64{0.1, 0.3, 0.5} {
		fmt.Printf("%.1f m/s: %.0f Pa/m\n", v, Gradient(v))
	}
	// Output:
	// 0.1 m/s: 254 Pa/m
	// 0.3 m/s: 1203 Pa/m
	// 0.5 m/s: 2638 Pa/m
}

// An uneven bed at 0.42 m/s in the spot of 1 m: an independent computation of
// the same law gives the thin spot 1.070 and the thick spot 0.940 of that air.
// The tolerance is the last printed digit.
func TestSplitOfAnUnevenBed(t *testing.T) {
	middle := Spot{Share: 1, DepthM: 1, Factor: 0.5}
	drop := middle.Drop(0.42)
	for depth, want := range map[float64]float64{0.9: 1.070, 1.1: 0.940} {
		s := Spot{DepthM: depth, Factor: 0.5}
		if got := s.Velocity(drop) / 0.42; math.Abs(got-want) > 0.0006 {
			t.Errorf("%.1f m: %.4f of the middle's air, want %.3f", depth, got, want)
		}
	}
}

func spots(t *rapid.T) []Spot {
	n := rapid.IntRange(1, 5).Draw(t, "spots")
	out := make([]Spot, n)
	for i := range out {
		out[i] = Spot{
			Share:  1 / float64(n),
			DepthM: rapid.Float64Range(0.05, 3).Draw(t, "depth"),
			Factor: rapid.Float64Range(0.1, 1.5).Draw(t, "factor"),
		}
	}
	return out
}

// Splitting shares out exactly the air there is, at one pressure.
func TestSplitSharesAllAirAtOnePressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		beds := spots(t)
		mean := rapid.Float64Range(1e-6, 0.4).Draw(t, "mean")
		v := make([]float64, len(beds))
		drop := Split(v, beds, mean)
		if math.IsNaN(drop) {
			if beds[0].Factor*beds[0].DepthM == 0 {
				t.Fatal("no pressure for an ordinary bed")
			}
			return // a spot so thin that it would take more than MostMS
		}
		sum := 0.0
		for i, s := range beds {
			sum += s.Share * v[i]
			if math.Abs(s.Drop(v[i])/drop-1) > 1e-8 {
				t.Fatalf("spot %d has %g Pa, the plenum %g", i, s.Drop(v[i]), drop)
			}
		}
		if math.Abs(sum/mean-1) > 1e-12 {
			t.Fatalf("shared %g of %g", sum, mean)
		}
	})
}

func TestVelocityInvertsDrop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := spots(t)[0]
		v := rapid.Float64Range(1e-6, MostMS).Draw(t, "v")
		if got := s.Velocity(s.Drop(v)); math.Abs(got/v-1) > 1e-9 {
			t.Fatalf("%g came back as %g", v, got)
		}
	})
}

func TestRangeEdges(t *testing.T) {
	s := Spot{Share: 1, DepthM: 1, Factor: 0.5}
	for name, got := range map[string]float64{
		"negative velocity":  Gradient(-0.1),
		"beyond the law":     Gradient(MostMS * 1.01),
		"NaN":                Gradient(math.NaN()),
		"negative pressure":  s.Velocity(-1),
		"too much pressure":  s.Velocity(s.Drop(MostMS) * 1.01),
		"split beyond law":   Split(make([]float64, 1), []Spot{s}, MostMS*2),
		"split of NaN":       Split(make([]float64, 1), []Spot{s}, math.NaN()),
		"split of backwards": Split(make([]float64, 1), []Spot{s}, -1),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: %g, want NaN", name, got)
		}
	}
	if got := s.Velocity(0); got != 0 {
		t.Errorf("no pressure drives %g m/s", got)
	}
	v := []float64{1}
	if drop := Split(v, []Spot{s}, 0); drop != 0 || v[0] != 0 {
		t.Errorf("no air: %g Pa, %g m/s", drop, v[0])
	}
}

// At the operating point the fan gives exactly what the bed takes.
func TestFanMeetsBed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		beds := spots(t)
		f := Fan{
			ShutOffPa: rapid.Float64Range(300, 5000).Draw(t, "shut-off"),
			FreeM3S:   rapid.Float64Range(5, 200).Draw(t, "free"),
			LossPa:    rapid.Float64Range(0, 500).Draw(t, "loss"),
		}
		floor, air := 100.0, rapid.Float64Range(0.7, 1.3).Draw(t, "air")
		work := make([]float64, len(beds))
		v := f.Most(beds, floor, air, work)
		drop := Split(work, beds, v)
		if math.IsNaN(drop) || slices.Max(work) > 0.999*MostMS {
			return // held by the range of the law, not by the fan
		}
		if math.Abs(drop-f.Pressure(v*floor, air)) > 1e-5*f.ShutOffPa {
			t.Fatalf("bed takes %g Pa, fan gives %g", drop, f.Pressure(v*floor, air))
		}
	})
}

// 1.5 m of green malt at 10 000 m³/h per tonne meets 14 kPa by the full law
// against some 9 kPa of weight: such air would lift it.
func TestLift(t *testing.T) {
	wet := 330 * 1.5 / (1 - 0.45)
	if drop := (Spot{Share: 1, DepthM: 1.5, Factor: 0.5}).Drop(1.7); drop <= Lift(wet) {
		t.Errorf("%.0f Pa does not lift %.0f Pa of grain", drop, Lift(wet))
	}
	if drop := (Spot{Share: 1, DepthM: 0.2, Factor: 0.5}).Drop(0.22); drop >= Lift(wet*0.2/1.5) {
		t.Errorf("%.0f Pa lifts a thin bed", drop)
	}
}

func TestConstantsHaveParameters(t *testing.T) {
	var c Constants
	if err := odds.Fill(&c, Parameters, nil); err != nil || c.Resistance != 0.5 {
		t.Errorf("%+v, %v", c, err)
	}
}

func TestSplitAllocatesNothing(t *testing.T) {
	beds := []Spot{{0.3, 0.9, 0.5}, {0.4, 1, 0.5}, {0.3, 1.1, 0.6}}
	v := make([]float64, 3)
	if n := testing.AllocsPerRun(100, func() { Split(v, beds, 0.42) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkSplit(b *testing.B) {
	beds := []Spot{{0.3, 0.9, 0.5}, {0.4, 1, 0.5}, {0.3, 1.1, 0.6}}
	v := make([]float64, 3)
	for b.Loop() {
		Split(v, beds, 0.42)
	}
}

func BenchmarkFanMost(b *testing.B) {
	beds := []Spot{{0.3, 0.9, 0.5}, {0.4, 1, 0.5}, {0.3, 1.1, 0.6}}
	v := make([]float64, 3)
	f := Fan{ShutOffPa: 1500, FreeM3S: 60, LossPa: 200}
	for b.Loop() {
		f.Most(beds, 100, 1.1, v)
	}
}
