package steep_test

import (
	"math"
	"testing"

	"awn/barley"
	"awn/kernel"
	"awn/odds"
	"awn/plant"
	"awn/programme"
	"awn/steep"
)

// fill returns constants at their defaults.
func fill[T any](t testing.TB, table []odds.Parameter) *T {
	t.Helper()
	c := new(T)
	if err := odds.Fill(c, table, nil); err != nil {
		t.Fatal(err)
	}
	return c
}

// usual is ten tonnes of the usual lot in a usual vessel.
func usual(t testing.TB) steep.Setup {
	t.Helper()
	return steep.Setup{
		Constants: fill[steep.Constants](t, steep.Parameters),
		Kernel:    fill[kernel.Constants](t, kernel.Parameters),
		Barley:    fill[barley.Constants](t, barley.Parameters),
		Vessel: plant.Steep{
			Name: "S1", CapacityT: 10, VolumeM3: 26, DepthM: 2, FillH: 1, DrainH: 0.5,
			AerationM3H: 40, SuctionM3H: 1500, WaterM3T: 1.0, LossWM2K: 1,
		},
		CastT: 10, ChitCH: 380, Uptake: 1, WaterSensitivity: 0.1,
		PressurePa: 101325, AirC: 15, AirRH: 0.8, WaterC: 14,
	}
}

// failer is a test of either kind.
type failer interface {
	Helper()
	Fatal(args ...any)
}

// cast is ten tonnes of barley at a moisture, in columns.
func cast(t failer, moisture, tempC float64, columns ...barley.Column) *barley.Grain {
	t.Helper()
	lot, _ := barley.Lot{
		Moisture: odds.Exact(moisture, odds.Measured), Protein: barley.Unknown(), KernelMassMg: barley.Unknown(),
		TestWeightKgHL: barley.Unknown(), Capacity: odds.Exact(0.985, odds.Measured), Dormant: odds.Exact(0.01, odds.Measured),
		WaterSensitivity: barley.Unknown(), ChitThermalTimeCH: barley.Unknown(), BetaGlucan: barley.Unknown(),
		Uptake: barley.Unknown(), GreenSMM: barley.Unknown(),
	}.Complete()
	if columns == nil {
		columns = []barley.Column{{Share: 1, Depth: 1, Packing: 1}}
	}
	g, err := barley.Cast(&lot, barley.UsualQuantiles, columns, 10000, tempC)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

var house = math.NaN() // the house's own water or air

func wet(hours, waterC float64) programme.SteepStep {
	return programme.SteepStep{Kind: programme.Immersion, Until: programme.Until{LatestH: hours}, WaterC: waterC, AirC: house, AerationM3HT: 2}
}

func rest(hours, airC float64) programme.SteepStep {
	return programme.SteepStep{Kind: programme.AirRest, Until: programme.Until{LatestH: hours}, WaterC: house, AirC: airC, SuctionM3HT: 50}
}

// start puts the grain into the vessel.
func start(t testing.TB, s steep.Setup, g *barley.Grain) *steep.Run {
	t.Helper()
	run, err := steep.Start(s, g)
	if err != nil {
		t.Fatal(err)
	}
	return run
}

// walk takes a run through the steps and returns the hours.
func walk(t testing.TB, run *steep.Run, atH float64, steps ...programme.SteepStep) float64 {
	t.Helper()
	for _, s := range steps {
		if err := run.Begin(s); err != nil {
			t.Fatal(err)
		}
		atH += s.Until.LatestH
		if err := run.To(atH); err != nil {
			t.Fatal(err)
		}
	}
	return atH
}

func read(run *steep.Run) programme.Values {
	var v programme.Values
	run.Read(&v)
	return v
}
