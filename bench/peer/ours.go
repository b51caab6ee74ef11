package main

import (
	"slices"
	"time"

	"awn/barley"
	"awn/bed"
	"awn/kiln"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// The case: a metre of green malt on a square metre of floor, and what is
// asked of the kiln, in straight lines between points. The same figures stand
// in cvode/kiln.c.
const (
	dryKg, startMoistureDB, startC = 330, 0.8182, 18
	hours, tenths                  = 19.0, 190
)

type point struct{ hour, value float64 }

var (
	airOnC = []point{{0, 50}, {1, 55}, {4, 55}, {5, 60}, {8.5, 60}, {9.5, 65}, {11, 68}, {13.5, 82}, {14, 84}, {18, 84},
		{18.25, 10}, {hours, 10}}
	airKgM2S = []point{{0, .50}, {8.5, .50}, {9.5, .38}, {11, .33}, {14, .28}, {18, .28}, {18.25, .45}, {hours, .45}}
	recirc   = []point{{0, 0}, {9, 0}, {10, .20}, {11, .45}, {14, .75}, {18, .75}, {18.1, 0}, {hours, 0}}
)

// at is the height of a line at an hour.
func at(line []point, hour float64) float64 {
	for i := 1; i < len(line); i++ {
		if a, b := line[i-1], line[i]; hour <= b.hour {
			return a.value + (b.value-a.value)*(hour-a.hour)/(b.hour-a.hour)
		}
	}
	return line[len(line)-1].value
}

// corners are the hours at which one of the lines bends.
func corners() []float64 {
	var out []float64
	for _, line := range [][]point{airOnC, airKgM2S, recirc} {
		for _, p := range line {
			out = append(out, p.hour)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// steps are the lines as a programme: one step from corner to corner.
func steps() []programme.KilnStep {
	var out []programme.KilnStep
	before := 0.0
	for _, h := range corners() {
		out = append(out, programme.KilnStep{
			RampH: h - before, Until: programme.Until{LatestH: h - before}, AirOnC: at(airOnC, h),
			Flow: programme.Airflow{Value: at(airKgM2S, h)}, Recirculation: at(recirc, h),
		})
		before = h
	}
	return out
}

// ours is the kiln of awn.
type ours struct {
	setup kiln.Setup
	green *barley.Grain
	steps []programme.KilnStep
}

func newOurs() (ours, error) {
	k, g, b := new(kiln.Constants), new(barley.Constants), new(bed.Constants)
	for _, err := range []error{
		odds.Fill(k, kiln.Parameters, nil), odds.Fill(g, barley.Parameters, nil), odds.Fill(b, bed.Parameters, nil),
	} {
		if err != nil {
			return ours{}, err
		}
	}
	green := barley.NewGrain([]barley.Class{{Number: 1, KernelDryMg: 38}}, []barley.Column{{Share: 1, Depth: 1, Packing: 1}}, 1)
	green.DryKg[0], green.WaterKg[0], green.TempC[0] = dryKg, dryKg*startMoistureDB, startC
	green.Heat[0] = barley.Green()
	house := plant.Kiln{Name: "bench", AreaM2: 1, MostRecirc: 0.85,
		Burner: plant.Burner{MostKW: 1000, Efficiency: 1, HHVOverLHV: 1.11}}
	return ours{kiln.Setup{
		Constants: k, Barley: g, Bed: b, Kiln: house, CastT: 0.45, PressurePa: 101325,
		Outside: kiln.Outside{MeanC: 10, RH: 0.8}, StripC: 35, StripWorst: 0.06,
	}, green, steps()}, nil
}

func (o ours) run() (answer, error) {
	begun := time.Now()
	var last []float64
	r, err := o.dry(func(moisturePct []float64) { last = moisturePct })
	if err != nil {
		return answer{}, err
	}
	ms := float64(time.Since(begun).Nanoseconds()) / 1e6
	var sumDB float64
	for _, pct := range last {
		sumDB += pct / (100 - pct)
	}
	meanDB := sumDB / float64(len(last))
	return answer{
		meanPct: 100 * meanDB / (1 + meanDB), bottomPct: last[0], topPct: last[len(last)-1],
		breakH: r.Break(-1).DryH, ms: ms,
	}, nil
}

func (o ours) trace() ([][]float64, error) {
	var rows [][]float64
	_, err := o.dry(func(moisturePct []float64) { rows = append(rows, slices.Clone(moisturePct)) })
	return rows, err
}

// dry runs the case and shows the moisture of the layers at every tenth of an
// hour, in a slice that it uses again.
func (o ours) dry(see func(moisturePct []float64)) (*kiln.Run, error) {
	r, err := kiln.Start(o.setup, o.green)
	if err != nil {
		return nil, err
	}
	grain := r.Shape()
	pct := make([]float64, grain.Layers)
	end, tenth := 0.0, 1
	for _, s := range o.steps {
		if err := r.Begin(s); err != nil {
			return nil, err
		}
		end += s.Until.LatestH
		for ; tenth <= tenths && float64(tenth)/10 <= end; tenth++ {
			if err := r.To(float64(tenth) / 10); err != nil {
				return nil, err
			}
			r.Grain(grain)
			for i := range pct {
				x := grain.CellMoistureDB(i)
				pct[i] = 100 * x / (1 + x)
			}
			see(pct)
		}
		if err := r.To(end); err != nil {
			return nil, err
		}
	}
	return r, nil
}
