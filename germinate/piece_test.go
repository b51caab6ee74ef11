package germinate

import (
	"math"
	"testing"

	"awn/barley"
	"awn/bed"
	"awn/kernel"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// The house of the tests: one tonne of barley on the floor that the trade
// loads with it.
const (
	testCastT  = 1.0
	testAreaM2 = 1 / 0.575
	testDryKg  = 870.0
)

func constants(t testing.TB) (*Constants, *kernel.Constants, *bed.Constants) {
	t.Helper()
	var c Constants
	var k kernel.Constants
	var b bed.Constants
	for _, err := range []error{odds.Fill(&c, Parameters, nil), odds.Fill(&k, kernel.Parameters, nil), odds.Fill(&b, bed.Parameters, nil)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return &c, &k, &b
}

func isotherm(t testing.TB) barley.ChungPfost {
	t.Helper()
	var c barley.Constants
	if err := odds.Fill(&c, barley.Parameters, nil); err != nil {
		t.Fatal(err)
	}
	return barley.BarleyIsotherm(c)
}

// setup is a plain box with everything an air handler can have.
func setup(t testing.TB, layers int) Setup {
	c, k, b := constants(t)
	return Setup{
		Constants: c, Kernel: k, Bed: b, Isotherm: isotherm(t),
		Vessel: plant.Germinator{
			Name: "box", AreaM2: testAreaM2, CapacityT: testCastT, MixesTurn: 1,
			Air: plant.AirHandler{
				Fan:        plant.Fan{ShutOffPa: 1500, FreeM3S: 1, Efficiency: 0.63, LossPa: 100},
				FanPlace:   plant.FanBeforeConditioning,
				LeastFresh: 0.1, Humidifier: 1, CoolingKW: 20, COP: 3, HeatingKW: 50,
			},
		},
		CastT: testCastT, ChitCH: 380, PressurePa: 101325,
		Outside: Outside{MeanC: 10, RH: 0.8}, WaterC: 12, Layers: layers,
	}
}

// classes are four sieve fractions crossed with five quantiles of vigour, and
// the idle corns of each fraction.
func classes() []barley.Class {
	sieve := []float64{0.52, 0.32, 0.12, 0.04}
	mg := []float64{44, 36, 27, 18}
	var out []barley.Class
	for i, n := range sieve {
		for _, v := range []float64{-1.2816, -0.5244, 0, 0.5244, 1.2816} {
			out = append(out, barley.Class{Sieve: i, Vigour: v, Number: n * 0.98 / 5, KernelDryMg: mg[i]})
		}
		out = append(out, barley.Class{Sieve: i, Idle: true, Number: n * 0.02, KernelDryMg: mg[i]})
	}
	return out
}

// steeped is a piece at steep-out: one column, evenly wet, every waking corn of
// the same thermal time.
func steeped(cs []barley.Class, layers int, wb, tempC, thermalCH, ageD float64) *barley.Grain {
	g := barley.NewGrain(cs, []barley.Column{{Share: 1, Depth: 1, Packing: 1}}, layers)
	mass := 0.0
	for _, c := range cs {
		mass += c.Number * c.KernelDryMg
	}
	for cell := range g.Cells() {
		g.TempC[cell], g.Heat[cell] = tempC, barley.Green()
		dry, hours, ages := g.Of(g.DryKg, cell), g.Of(g.ThermalTimeCH, cell), g.Of(g.AgeD, cell)
		sum := 0.0
		for i, c := range cs {
			dry[i] = testDryKg / float64(layers) * c.Number * c.KernelDryMg / mass
			hours[i], ages[i] = thermalCH, ageD
			if c.Idle {
				ages[i] = 0
			}
			sum += dry[i]
		}
		g.WaterKg[cell] = sum * wb / (1 - wb)
	}
	return g
}

// even is a piece of one class of corns that have all chitted.
func even(layers int, wb, tempC, ageD float64) *barley.Grain {
	return steeped([]barley.Class{{Number: 1, KernelDryMg: 40}}, layers, wb, tempC, 1e6, ageD)
}

func per(tonne float64) programme.Airflow {
	return programme.Airflow{Value: tonne, Per: programme.PerTonne}
}

// plain is a day of ordinary germination.
func plain(hours float64) programme.GerminateStep {
	return programme.GerminateStep{
		Until: programme.Until{LatestH: hours}, AirOnC: 14, AirOnRH: 0.98, Flow: per(500), Fresh: 0.1, TurnEvH: 12, SprayToWB: 0.45,
	}
}

func start(t testing.TB, s Setup, g *barley.Grain) *Run {
	t.Helper()
	r, err := Start(s, g)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// run goes through steps one after the other, each to its latest time.
func run(t testing.TB, r *Run, steps ...programme.GerminateStep) {
	t.Helper()
	at := r.now.atH
	for _, s := range steps {
		if err := r.Begin(s); err != nil {
			t.Fatal(err)
		}
		at += s.Until.LatestH
		if err := r.To(at); err != nil {
			t.Fatal(err)
		}
	}
}

func read(r *Run) (v programme.Values) {
	r.Read(&v)
	return v
}

var nan = math.NaN()

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.6g, want %.6g within %.3g", what, got, want, tolerance)
	}
}
