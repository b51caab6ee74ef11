package kiln

import (
	"slices"
	"testing"

	"awn/barley"
	"awn/finding"
	"awn/plant"
	"awn/programme"
)

func threeSpots() []barley.Column {
	return []barley.Column{{Share: 0.3, Depth: 0.9, Packing: 1}, {Share: 0.4, Depth: 1, Packing: 1}, {Share: 0.3, Depth: 1.1, Packing: 1}}
}

// Every finding is there when its cause is, and gone when the cause is taken
// away.
func TestFindingsComeAndGo(t *testing.T) {
	short := func(steps []programme.KilnStep, hours float64) []programme.KilnStep {
		for i := range steps {
			if hours -= steps[i].Until.LatestH; hours < 0 {
				return steps[:i]
			}
		}
		return steps
	}
	with := func(change func(*programme.KilnStep)) []programme.KilnStep {
		steps := paleSteps()
		for i := range steps {
			change(&steps[i])
		}
		return steps
	}
	for code, c := range map[string]struct {
		plant func(*plant.Kiln)
		steps []programme.KilnStep
		cure  []programme.KilnStep
		fixed func(*plant.Kiln)
	}{
		"kiln.strip.wet":             {steps: short(paleSteps(), 14.1)},
		"kiln.strip.hot":             {steps: short(paleSteps(), 18.1)},
		"kiln.break.none":            {steps: short(paleSteps(), 4.1)},
		"kiln.break.top-wet":         {cure: with(func(s *programme.KilnStep) { s.Flow.Value *= 0.6; s.AirOnC = min(s.AirOnC, 30) })},
		"kiln.recirculation.early":   {steps: with(func(s *programme.KilnStep) { s.Recirculation = 0.6 })},
		"kiln.recirculation.limited": {plant: func(k *plant.Kiln) { k.MostRecirc = 0.5 }},
		"kiln.air-on.missed":         {plant: func(k *plant.Kiln) { k.Burner.MostKW = 15 }},
		"kiln.burner.cycling":        {plant: func(k *plant.Kiln) { k.Burner.TurnDown = 0.2; k.Burner.MostKW = 40 }},
		"kiln.fan.stopped": {steps: with(func(s *programme.KilnStep) {
			s.FanOff = s.AirOnC == 84 && s.Recirculation > 0.7
			s.HeaterOff = s.FanOff
		})},
		"kiln.fan.stopped-heated": {
			steps: with(func(s *programme.KilnStep) { s.FanOff = s.AirOnC == 84 && s.Recirculation > 0.7 }),
			cure: with(func(s *programme.KilnStep) { // the heat is cut first
				s.FanOff = s.AirOnC == 84 && s.Recirculation > 0.7
				s.HeaterOff = s.FanOff
			}),
		},
		"kiln.fan.short": {
			plant: func(k *plant.Kiln) { k.Fan = plant.Fan{ShutOffPa: 900, FreeM3S: 0.8, Efficiency: 0.6} },
			fixed: func(k *plant.Kiln) { k.Fan = plant.Fan{ShutOffPa: 3000, FreeM3S: 2, Efficiency: 0.6} },
		},
	} {
		if !slices.Contains(found(t, c.plant, c.steps), code) {
			t.Errorf("%s does not come", code)
		}
		if slices.Contains(found(t, c.fixed, c.cure), code) {
			t.Errorf("%s does not go", code)
		}
	}
}

// found runs the pale piece, with its plant and steps changed where they are
// given, and returns the codes.
func found(t *testing.T, change func(*plant.Kiln), steps []programme.KilnStep) []string {
	t.Helper()
	s := paleSetup(t)
	if change != nil {
		change(&s.Kiln)
	}
	if steps == nil {
		steps = paleSteps()
	}
	r := start(t, s, greenMalt(330, 0.8182, 18))
	kilned(t, r, steps)
	var codes []string
	for _, f := range r.Findings(nil) {
		if f.Source == "" || f.Stage != "kiln" || f.Weight() <= 0 || len(f.Figures) == 0 {
			t.Errorf("incomplete: %+v", f)
		}
		codes = append(codes, f.Code)
	}
	return codes
}

// A piece whose mean passes while the thick spot is wet is held.
func TestMeanDoesNotHideAWetSpot(t *testing.T) {
	s := paleSetup(t)
	r := start(t, s, greenMalt(330, 0.8182, 18, threeSpots()...))
	kilned(t, r, paleSteps())
	all := r.Findings(nil)
	i := slices.IndexFunc(all, func(f finding.Finding) bool { return f.Code == "kiln.strip.wet" })
	if i < 0 {
		t.Fatal("the wet spot is not found")
	}
	f := all[i]
	if f.Column != 2 || f.Layer != 59 || f.Figures[2].Value > s.StripWorst || f.Severity != finding.Alarm {
		t.Errorf("%+v", f)
	}
}

// The pale programme recirculates when the thin and the mean spot have broken
// and the thick one has not.
func TestEarlyRecirculationNamesTheSpot(t *testing.T) {
	r := start(t, paleSetup(t), greenMalt(330, 0.8182, 18, threeSpots()...))
	kilned(t, r, paleSteps())
	all := r.Findings(nil)
	i := slices.IndexFunc(all, func(f finding.Finding) bool { return f.Code == "kiln.recirculation.early" })
	if i < 0 || all[i].Column != 2 || !(all[i].AtH > r.Break(1).AtH && all[i].AtH < r.Break(2).AtH) {
		t.Errorf("%+v; breaks at %.2f and %.2f h", all, r.Break(1).AtH, r.Break(2).AtH)
	}
}

// With the fan stopped life goes on by the draught, and without draught the
// grain ferments a little and warms.
func TestFanStopped(t *testing.T) {
	run := func(draught float64) *Run {
		s := aliveSetup(t)
		s.Kiln.DampersOpenKg = draught
		r := start(t, s, grown(330, 0.8182, 18))
		if err := r.Begin(programme.KilnStep{AirOnC: 50, HeaterOff: true, FanOff: true}); err != nil {
			t.Fatal(err)
		}
		if err := r.To(6); err != nil {
			t.Fatal(err)
		}
		return r
	}
	shut, open := run(0), run(0.003)
	if shut.burn.OxygenKg != 0 || shut.burn.FermentedKg <= 0 {
		t.Errorf("dampers shut: %+v", shut.burn)
	}
	if open.burn.OxygenKg <= 0 || open.burn.OxygenKg > 6*3600*0.003*oxygenByMass {
		t.Errorf("dampers open: %g kg of oxygen used of %g", open.burn.OxygenKg, 6*3600*0.003*oxygenByMass)
	}
	if open.burn.DryKg <= shut.burn.DryKg {
		t.Errorf("burnt %g kg with air, %g without", open.burn.DryKg, shut.burn.DryKg)
	}
}
