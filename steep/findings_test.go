package steep_test

import (
	"testing"

	"awn/programme"
	"awn/steep"
)

// codes counts the findings of a run by code.
func codes(run *steep.Run) map[string]int {
	n := map[string]int{}
	for _, f := range run.Findings(nil) {
		n[f.Code]++
	}
	return n
}

func couch(hours float64) programme.SteepStep {
	s := rest(hours, house)
	s.Kind, s.SuctionM3HT = programme.Couch, 0
	return s
}

// Each finding is made by one programme and gone after the named change.
func TestFindingsComeAndGo(t *testing.T) {
	same := func(*steep.Setup) {}
	sensitive := func(s *steep.Setup) { s.WaterSensitivity = 0.35 }
	good := []programme.SteepStep{wet(6, 15), rest(17, 15), wet(10, 15), rest(14, 15)}
	still := func(h, c float64) programme.SteepStep { s := wet(h, c); s.AerationM3HT = 0; return s }
	hard := func(c float64) programme.SteepStep { s := rest(12, c); s.SuctionM3HT = 150; return s }
	for _, c := range []struct {
		code        string
		setup       func(*steep.Setup)
		steps       []programme.SteepStep
		betterSetup func(*steep.Setup)
		better      []programme.SteepStep
	}{
		{"steep.oxygen.short", sensitive, []programme.SteepStep{still(12, 15), rest(6, 15), still(10, 15)},
			sensitive, []programme.SteepStep{wet(6, 15), rest(17, 15), wet(10, 15)}},
		{"steep.chit.held", sensitive, []programme.SteepStep{wet(14, 15), rest(14, 15)}, sensitive, []programme.SteepStep{wet(7, 15), rest(14, 15)}},
		{"steep.moisture.low", same, []programme.SteepStep{wet(8, 15), rest(14, 15)}, same, good},
		{"steep.moisture.high", same, []programme.SteepStep{wet(40, 18), wet(20, 18)}, same, good},
		{"steep.rest.hot", same, []programme.SteepStep{wet(9, 20), couch(16), wet(8, 20), couch(24)},
			same, []programme.SteepStep{wet(9, 20), hard(15), wet(8, 15), hard(15)}},
		{"steep.co2.high", same, []programme.SteepStep{wet(9, 18), couch(16), wet(8, 18), couch(24)},
			same, []programme.SteepStep{wet(9, 18), rest(16, 15), wet(8, 18), rest(24, 15)}},
		{"steep.grain.frozen", same, []programme.SteepStep{wet(9, 5), hard(-15)}, same, []programme.SteepStep{wet(9, 5), hard(10)}},
		{"steep.water.warm", same, []programme.SteepStep{wet(4, 32)}, same, []programme.SteepStep{wet(4, 20)}},
		{"steep.vessel.overfull", func(s *steep.Setup) { s.Vessel.VolumeM3 = 17 }, good, same, good},
		{"steep.suction.short", func(s *steep.Setup) { s.Vessel.SuctionM3H = 100 }, good, same, good},
		{"steep.aeration.short", func(s *steep.Setup) { s.Vessel.AerationM3H = 5 }, good, same, good},
		{"steep.water.too-little", func(s *steep.Setup) { s.Vessel.WaterM3T = 0.2 }, good, same, good},
	} {
		run := func(change func(*steep.Setup), steps []programme.SteepStep) map[string]int {
			s := usual(t)
			change(&s)
			r := start(t, s, cast(t, 0.12, 14))
			walk(t, r, 0, steps...)
			return codes(r)
		}
		if got := run(c.setup, c.steps); got[c.code] != 1 {
			t.Errorf("%s is not said; only %v", c.code, got)
		}
		if got := run(c.betterSetup, c.better); got[c.code] != 0 {
			t.Errorf("%s stays after the change", c.code)
		}
	}
}

func TestFindingsCarryTheirWeight(t *testing.T) {
	s := usual(t)
	s.Vessel.VolumeM3 = 10
	run := start(t, s, cast(t, 0.12, 14))
	walk(t, run, 0, wet(4, 30))
	found := run.Findings(nil)
	if len(found) < 3 {
		t.Fatalf("%d findings", len(found))
	}
	for _, f := range found {
		if f.Weight() <= 0 || f.Act == "" || f.Source == "" || len(f.Figures) == 0 || f.Stage != "steep" {
			t.Errorf("%s: weight %g, act %q, %d figures", f.Code, f.Weight(), f.Act, len(f.Figures))
		}
	}
}
