package germinate

import (
	"testing"

	"awn/barley"
	"awn/plant"
	"awn/programme"
)

// Each finding appears for its cause and goes away with the change that its act
// names.
func TestFindingsComeAndGo(t *testing.T) {
	type change func(s *Setup, step *programme.GerminateStep)
	none := func(*Setup, *programme.GerminateStep) {}
	hot := func(s *Setup, _ *programme.GerminateStep) {
		s.Outside = Outside{MeanC: 30, RH: 0.5, SwingK: 5, WarmestAt: 3}
		s.Vessel.Air.CoolingKW = 0
		s.Vessel.Air.FanPlace = plant.FanAfterConditioning
	}
	shut := func(s *Setup) {
		c := *s.Constants
		c.DraughtM3HTK = 0
		s.Constants = &c
	}
	for _, c := range []struct {
		code        string
		cause, cure change
	}{
		{"germinate.air.warm", hot, func(s *Setup, step *programme.GerminateStep) { hot(s, step); s.Vessel.Air.CoolingKW = 20 }},
		{"germinate.air.cold",
			func(s *Setup, step *programme.GerminateStep) {
				s.Outside.MeanC, s.Vessel.Air.HeatingKW, step.Fresh = -10, 0, 1
			},
			func(s *Setup, step *programme.GerminateStep) { s.Outside.MeanC, step.Fresh = -10, 1 }},
		{"germinate.air.dry",
			func(s *Setup, _ *programme.GerminateStep) { s.Vessel.Air.Humidifier = 0 },
			func(s *Setup, _ *programme.GerminateStep) { s.Vessel.Air.Humidifier = 0.98 }},
		{"germinate.air.short",
			func(_ *Setup, step *programme.GerminateStep) { step.Flow = per(2500) }, none},
		{"germinate.bed.hot",
			func(_ *Setup, step *programme.GerminateStep) { step.Flow = per(150) },
			func(_ *Setup, step *programme.GerminateStep) { step.Flow = per(900) }},
		{"germinate.bed.warm",
			func(_ *Setup, step *programme.GerminateStep) { step.Flow, step.AirOnC = per(200), 24 }, none},
		{"germinate.bed.dry",
			func(_ *Setup, step *programme.GerminateStep) { step.SprayToWB = 0 }, none},
		{"germinate.turn.missing",
			func(_ *Setup, step *programme.GerminateStep) { step.TurnEvH = 0 }, none},
		{"germinate.oxygen.gone",
			func(s *Setup, step *programme.GerminateStep) { shut(s); step.FanOff = true },
			func(s *Setup, _ *programme.GerminateStep) { shut(s) }},
		{"germinate.co2.room",
			func(s *Setup, step *programme.GerminateStep) {
				s.Outside.MeanC, s.Vessel.Air.LeastFresh, step.Fresh = 28, 0.02, 0.02
			},
			func(s *Setup, step *programme.GerminateStep) { s.Outside.MeanC, step.Fresh = 28, 0.4 }},
	} {
		says := func(make change) bool {
			s, step := setup(t, 10), plain(60)
			make(&s, &step)
			r := start(t, s, steeped(classes(), 10, 0.455, 16, 400, 0.5))
			run(t, r, step)
			f, ok := found(r, c.code)
			if ok && (f.Act == "" || f.Stage != "germinate" || !(f.Weight() > 0) || len(f.Figures) == 0 || f.Source == "") {
				t.Errorf("%s is not whole: %+v", c.code, f)
			}
			return ok
		}
		if !says(c.cause) {
			t.Errorf("%s does not come", c.code)
		}
		if says(c.cure) {
			t.Errorf("%s does not go", c.code)
		}
	}
}

// The same for what the corns themselves have to say.
func TestCornsSpeak(t *testing.T) {
	c, _, _ := constants(t)
	says := func(ageD, idle float64, code string) bool {
		cs := []barley.Class{{Number: 1 - idle, KernelDryMg: 40}, {Number: idle, KernelDryMg: 40, Idle: true}}
		m := c.Modification(steeped(cs, 1, 0.45, 16, 1e6, ageD), testLot())
		for _, f := range m.Findings(nil) {
			if f.Code == code {
				return true
			}
		}
		return false
	}
	if !says(5, 0.06, "germinate.corns.unmodified") || says(5, 0.01, "germinate.corns.unmodified") {
		t.Error("unmodified corns")
	}
	if !says(7, 0.01, "germinate.corns.overgrown") || says(5, 0.01, "germinate.corns.overgrown") {
		t.Error("overgrown corns")
	}
}

// A hot day without a chiller: the account says what was reached and how much
// of it the fan did.
func TestHotDayIsTold(t *testing.T) {
	s, step := setup(t, 10), plain(48)
	s.Outside = Outside{MeanC: 30, RH: 0.5}
	s.Vessel.Air.CoolingKW, s.Vessel.Air.FanPlace = 0, plant.FanAfterConditioning
	step.AirOnC, step.Fresh = 13, 1
	r := start(t, s, steeped(classes(), 10, 0.455, 16, 400, 0.5))
	run(t, r, step)
	f, ok := found(r, "germinate.air.warm")
	if !ok {
		t.Fatal("not told")
	}
	fan := figure(f, "fan_heat_k")
	near(t, "reached, less what the fan did", figure(f, "reached_c")-fan, 22.0, 0.15)
	near(t, "asked", figure(f, "asked_c"), 13, 0)
}

func TestBadInputIsRefused(t *testing.T) {
	good := even(4, 0.45, 16, 1)
	for name, spoil := range map[string]func(*Setup, *barley.Grain){
		"no floor":       func(s *Setup, _ *barley.Grain) { s.Vessel.AreaM2 = 0 },
		"no fan":         func(s *Setup, _ *barley.Grain) { s.Vessel.Air.Fan = plant.Fan{} },
		"frozen spray":   func(s *Setup, _ *barley.Grain) { s.WaterC = -1 },
		"unknown water":  func(_ *Setup, g *barley.Grain) { g.WaterKg[1] = nan },
		"negative age":   func(_ *Setup, g *barley.Grain) { g.AgeD[1] = -1 },
		"no grain":       func(_ *Setup, g *barley.Grain) { clear(g.DryKg) },
		"no layers":      func(s *Setup, _ *barley.Grain) { s.Layers = 0 },
		"columns change": func(s *Setup, _ *barley.Grain) { s.Columns = make([]barley.Column, 2) },
	} {
		s, g := setup(t, 4), good.Clone()
		spoil(&s, g)
		if _, err := Start(s, g); err == nil {
			t.Errorf("%s is accepted", name)
		}
	}
	r := start(t, setup(t, 4), good)
	for name, step := range map[string]programme.GerminateStep{
		"no air":     {AirOnC: 14, AirOnRH: 1},
		"wrong rh":   {AirOnC: 14, AirOnRH: -1, Flow: per(500)},
		"no air-on":  {AirOnC: nan, AirOnRH: 1, Flow: per(500)},
		"no end":     {AirOnC: 14, AirOnRH: 1, Flow: per(500), SprayKgT: 10},
		"whirling":   {AirOnC: 14, AirOnRH: 1, Flow: per(500), TurnEvH: 1e-9},
		"lifted bed": {AirOnC: 14, AirOnRH: 1, Flow: per(500000)},
	} {
		if name == "lifted bed" {
			s := setup(t, 4)
			s.Vessel.Air.Fan = plant.Fan{ShutOffPa: 1e6, FreeM3S: 100, Efficiency: 0.6}
			r = start(t, s, good)
		}
		if err := r.Begin(step); err == nil {
			t.Errorf("%s is accepted", name)
		}
	}
}

func TestTimeRunsOn(t *testing.T) {
	r := start(t, setup(t, 2), even(2, 0.45, 16, 1))
	run(t, r, plain(2))
	for _, h := range []float64{1, nan, 1e9} {
		if r.To(h) == nil {
			t.Errorf("went on to hour %g", h)
		}
	}
}

// A lot that does not germinate is computed to the end, and said.
func TestDeadLot(t *testing.T) {
	cs := []barley.Class{{Number: 1, KernelDryMg: 40, Idle: true}}
	r := start(t, setup(t, 5), steeped(cs, 5, 0.45, 16, 400, 0))
	run(t, r, plain(72))
	v := read(r)
	if v[programme.Chit] != 0 || v[programme.Age] != 0 || v[programme.Acrospire] != 0 {
		t.Errorf("dead corns grow: %v", v)
	}
	end := r.Shape()
	r.Grain(end)
	m := r.setup.Constants.Modification(end, testLot())
	near(t, "wholly unmodified", m.WholeCorns, 1, 1e-12)
}
