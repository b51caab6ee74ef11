package kiln

import (
	"testing"

	"awn/barley"
	"awn/bed"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// palePlant is a kiln of 1 m² that gives whatever is asked of it.
func palePlant() plant.Kiln {
	return plant.Kiln{Name: "bench", AreaM2: 1, MostRecirc: 0.85,
		Burner: plant.Burner{MostKW: 1000, Efficiency: 1, HHVOverLHV: 1.11}}
}

func fill[T any](t testing.TB, table []odds.Parameter) *T {
	t.Helper()
	c := new(T)
	if err := odds.Fill(c, table, nil); err != nil {
		t.Fatal(err)
	}
	return c
}

// setup of a pale piece of one square metre without life in it.
func paleSetup(t testing.TB) Setup {
	return Setup{
		Constants: fill[Constants](t, Parameters), Barley: fill[barley.Constants](t, barley.Parameters),
		Bed: fill[bed.Constants](t, bed.Parameters), Kiln: palePlant(), CastT: 0.45, PressurePa: 101325,
		Outside: Outside{MeanC: 10, RH: 0.8}, StripC: 35, StripWorst: 0.06,
	}
}

// green is green malt of one class, as a layer of every depth.
func greenMalt(dryKg, moistureDB, tempC float64, columns ...barley.Column) *barley.Grain {
	if columns == nil {
		columns = []barley.Column{{Share: 1, Depth: 1, Packing: 1}}
	}
	g := barley.NewGrain([]barley.Class{{Number: 1, KernelDryMg: 38}}, columns, 1)
	for n, c := range columns {
		g.DryKg[n] = dryKg * c.Share * c.Depth
		g.WaterKg[n] = g.DryKg[n] * moistureDB
		g.TempC[n] = tempC
		g.Heat[n] = barley.Green()
	}
	return g
}

// paleSteps is the pale programme of refPale as steps: one between any two of
// its points, each a ramp.
func paleSteps() []programme.KilnStep {
	return stepsOf(refPale())
}

func stepsOf(c refCase) []programme.KilnStep {
	hours := []float64{0}
	for h := 0.0; h < c.hours; {
		next := c.hours
		for _, points := range [][][2]float64{c.tempOn, c.flow, c.recirc} {
			for _, p := range points {
				if p[0] > h {
					next = min(next, p[0])
				}
			}
		}
		hours = append(hours, next)
		h = next
	}
	steps := make([]programme.KilnStep, len(hours))
	for i, h := range hours {
		length := 0.0
		if i > 0 {
			length = h - hours[i-1]
		}
		steps[i] = programme.KilnStep{
			RampH: length, Until: programme.Until{LatestH: length}, AirOnC: refLine(c.tempOn, h),
			Flow: programme.Airflow{Value: refLine(c.flow, h) * c.flowFactor}, Recirculation: refLine(c.recirc, h),
		}
	}
	return steps
}

// kilned runs steps to their latest times and calls at with each hour asked for.
func kilned(t testing.TB, r *Run, steps []programme.KilnStep) {
	t.Helper()
	hour := r.hour
	for _, s := range steps {
		if err := r.Begin(s); err != nil {
			t.Fatal(err)
		}
		hour += s.Until.LatestH
		if err := r.To(hour); err != nil {
			t.Fatal(err)
		}
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
