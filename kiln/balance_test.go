package kiln

import (
	"math"
	"testing"

	"awn/air"
	"awn/barley"
	"awn/kernel"
	"awn/plant"
	"awn/programme"
	"awn/unit"

	"pgregory.net/rapid"
)

// inventory is what grain holds, from its temperature and moisture alone.
func inventory(g *barley.Grain) (dryKg, waterKg, heatJ float64) {
	for i, w := range g.WaterKg {
		d := g.CellDryKg(i)
		dryKg += d
		waterKg += w
		heatJ += d * barley.GrainEnthalpy(unit.Celsius(g.TempC[i]), unit.DryBasis(w/d))
	}
	return dryKg, waterKg, heatJ
}

func inventoryOf(r *Run) (dryKg, waterKg, heatJ float64) {
	g := r.Shape()
	r.Grain(g)
	return inventory(g)
}

func drawnColumns(t *rapid.T) []barley.Column {
	if rapid.Bool().Draw(t, "level") {
		return []barley.Column{{Share: 1, Depth: 1, Packing: 1}}
	}
	return []barley.Column{
		{Share: 0.3, Depth: rapid.Float64Range(0.8, 1).Draw(t, "thin"), Packing: 1},
		{Share: 0.4, Depth: 1, Packing: rapid.Float64Range(1, 1.1).Draw(t, "packing")},
		{Share: 0.3, Depth: rapid.Float64Range(1, 1.2).Draw(t, "thick"), Packing: rapid.Float64Range(1, 1.25).Draw(t, "packed")},
	}
}

func drawnSetup(t *rapid.T, base Setup) Setup {
	s := base
	s.Kiln = plant.Kiln{
		Name: "drawn", AreaM2: rapid.Float64Range(1, 300).Draw(t, "area"), MostRecirc: 0.85,
		FanPush:       rapid.Bool().Draw(t, "push"),
		HeatRecovery:  rapid.SampledFrom([]float64{0, 0.7}).Draw(t, "recovery"),
		LeakShare:     rapid.SampledFrom([]float64{0, 0.05, 0.2}).Draw(t, "leak"),
		DampersOpenKg: rapid.SampledFrom([]float64{0, 1e-4, 3e-3}).Draw(t, "draught"),
		Burner: plant.Burner{MostKW: rapid.Float64Range(0, 3000).Draw(t, "burner"), TurnDown: 0.1,
			Efficiency: rapid.Float64Range(0.8, 1).Draw(t, "efficiency"), HHVOverLHV: 1.11,
			Firing:    rapid.SampledFrom([]plant.Firing{plant.Indirect, plant.Direct}).Draw(t, "firing"),
			RampKPerH: rapid.SampledFrom([]float64{0, 20}).Draw(t, "ramp limit")},
	}
	s.Kiln.LossWK = rapid.Float64Range(0, 5).Draw(t, "walls") * s.Kiln.AreaM2
	if rapid.Bool().Draw(t, "curve") {
		s.Kiln.Fan = plant.Fan{ShutOffPa: rapid.Float64Range(500, 2500).Draw(t, "shut-off"),
			FreeM3S: rapid.Float64Range(0.4, 1.5).Draw(t, "free") * s.Kiln.AreaM2, Efficiency: 0.6, LossPa: 150}
	}
	s.CastT = s.Kiln.AreaM2 * 0.45
	s.PressurePa = air.StandardPressure(rapid.Float64Range(0, 3000).Draw(t, "altitude"))
	s.Outside = Outside{MeanC: rapid.Float64Range(-15, 40).Draw(t, "outside"), RH: rapid.Float64Range(0.1, 1).Draw(t, "rh"),
		SwingK: rapid.Float64Range(0, 8).Draw(t, "swing"), WarmestAt: 9}
	s.Layers = rapid.IntRange(1, 60).Draw(t, "layers")
	return s
}

func drawnStep(t *rapid.T) programme.KilnStep {
	return programme.KilnStep{
		RampH:         rapid.SampledFrom([]float64{0, 0, 0.5, 1}).Draw(t, "ramp"),
		AirOnC:        rapid.Float64Range(-5, 110).Draw(t, "air-on"),
		Flow:          programme.Airflow{Value: rapid.Float64Range(0.02, 0.6).Draw(t, "flow")},
		Recirculation: rapid.Float64Range(0, 0.95).Draw(t, "recirculation"),
		HeaterOff:     rapid.IntRange(0, 4).Draw(t, "heater off") == 0,
		FanOff:        rapid.IntRange(0, 4).Draw(t, "fan off") == 0,
		Until:         programme.Until{LatestH: rapid.Float64Range(0.1, 4).Draw(t, "hours")},
	}
}

// Dry matter, water, heat, oxygen and carbon dioxide close within 1e-9 of what
// passed, and nothing becomes negative or ceases to be a number, over any
// valid programme. What the grain holds is taken from its temperature and
// moisture before and after, not from the state that the run moves.
func TestBalancesClose(t *testing.T) {
	base := aliveSetup(t)
	var direct, recirculated, stopped, columns, frost int
	rapid.Check(t, func(t *rapid.T) {
		s := drawnSetup(t, base)
		cols := drawnColumns(t)
		x := rapid.Float64Range(0.05, 0.95).Draw(t, "moisture")
		depth := rapid.Float64Range(0.2, 1.3).Draw(t, "depth")
		g := manyClasses(grown(330*depth*s.Kiln.AreaM2, x, rapid.Float64Range(2, 30).Draw(t, "grain"), cols...), 5)
		r, err := Start(s, g)
		if err != nil {
			t.Fatal(err)
		}
		before := r.Shape()
		r.Grain(before)
		for range rapid.IntRange(1, 5).Draw(t, "steps") {
			step := drawnStep(t)
			if err := r.Begin(step); err != nil {
				t.Fatal(err)
			}
			if err := r.To(r.hour + step.Until.LatestH); err != nil {
				if r.draught.dropPa > 0 && lifted(r) {
					return
				}
				t.Fatal(err)
			}
			direct += count(s.Kiln.Burner.Firing == plant.Direct)
			recirculated += count(step.Recirculation > 0.2)
			stopped += count(step.FanOff)
		}
		columns += count(len(cols) > 1)
		frost += count(s.Outside.MeanC < 0)
		closes(t, r, before)
	})
	t.Logf("steps: %d direct, %d recirculated, %d stopped; programmes: %d on columns, %d in frost", direct, recirculated, stopped, columns, frost)
	if direct*recirculated*stopped*columns*frost == 0 {
		t.Error("a kind of programme was never drawn")
	}
}

func count(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// lifted says whether the air just refused would have lifted the bed.
func lifted(r *Run) bool {
	for n := range r.columns {
		wet := 0.0
		for i, w := range r.columns[n].water {
			wet += w + r.columns[n].dry[i]
		}
		if r.draught.dropPa > 9.8*wet {
			return true
		}
	}
	return false
}

func closes(t *rapid.T, r *Run, before *barley.Grain) {
	after := r.Shape()
	r.Grain(after)
	dry0, water0, heat0 := inventory(before)
	dry1, water1, heat1 := inventory(after)
	var in, passed, respired [barley.HeatJ + 1]float64
	for _, line := range r.Lines(nil) {
		in[line.Good] += line.Amount
		passed[line.Good] += math.Abs(line.Amount)
		if line.Code == "kiln.respired" {
			respired[line.Good] = line.Amount
		}
	}
	burnt := dry0 - dry1
	fermented := r.burn.FermentedKg
	for _, b := range []struct {
		name             string
		gain, in, passed float64
	}{
		{"dry matter", dry1 - dry0, in[barley.Dry], dry0},
		{"water", water1 - water0, in[barley.Water], passed[barley.Water] + water0},
		{"heat", heat1 - heat0, in[barley.HeatJ], passed[barley.HeatJ] + math.Abs(heat0)},
		{"oxygen", 0, in[barley.Oxygen], passed[barley.Oxygen]},
		{"carbon dioxide", 0, in[barley.CarbonDioxide], passed[barley.CarbonDioxide]},
		{"oxygen respired", -kernel.OxygenPerKg * (burnt - fermented), respired[barley.Oxygen], dry0},
		{"carbon dioxide given", kernel.DioxidePerKg*(burnt-fermented) + kernel.FermentDioxidePerKg*fermented, respired[barley.CarbonDioxide], dry0},
	} {
		if !(math.Abs(b.gain-b.in) <= 1e-9*b.passed) {
			t.Fatalf("%s: gained %.12g, came in %.12g, passed %.6g", b.name, b.gain, b.in, b.passed)
		}
	}
	for i, w := range after.WaterKg {
		h := after.Heat[i]
		if !(w >= 0 && after.CellDryKg(i) > 0 && h.AlphaAmylase > 0 && h.AlphaAmylase <= 1 && h.ColourEBC >= 0) {
			t.Fatalf("cell %d: %g kg of water, %+v", i, w, h)
		}
	}
	var v programme.Values
	r.Read(&v)
	for _, reading := range []programme.Reading{programme.Moisture, programme.WorstLayer, programme.DriestLayer, programme.TempHigh, programme.Age} {
		if math.IsNaN(v[reading]) {
			t.Fatalf("%s is not a number", reading.Key())
		}
	}
}

// A kiln that dries grain and lets it take the water up again, back to the
// moistures and temperatures it started from, has nothing left over: what came
// in with the air less what went out is the same as the small difference that
// the grain still shows. Heat of sorption by the path taken would leave
// 2 kJ per kg of dry matter.
func TestSorptionLoopLeavesNothing(t *testing.T) {
	s := paleSetup(t)
	s.Layers = 4
	g := greenMalt(20, 0.10, 30)
	r := start(t, s, g)
	before := r.Shape()
	r.Grain(before)
	damp := programme.KilnStep{AirOnC: 30, Flow: programme.Airflow{Value: 0.2}, Until: programme.Until{LatestH: 200}}
	hot := damp
	hot.AirOnC = 80
	for _, step := range []programme.KilnStep{damp, hot, damp} {
		kilned(t, r, []programme.KilnStep{step})
	}
	after := r.Shape()
	r.Grain(after)
	_, _, h0 := inventory(before)
	_, _, h1 := inventory(after)
	heat := 0.0
	for _, l := range r.Lines(nil) {
		if l.Good == barley.HeatJ {
			heat += l.Amount
		}
	}
	near(t, "left over, J per kg dry matter", (heat-(h1-h0))/20, 0, 1e-9*r.tally.heatIn/20)
}
