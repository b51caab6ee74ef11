package kiln

import (
	"math"
	"slices"
	"testing"

	"awn/finding"
	"awn/programme"
)

// A setting whose limits are one value is that value: held or given, the bed is
// the same to the last bit.
func TestHeldAtOneValueIsGiven(t *testing.T) {
	end := func(change func(*programme.KilnStep)) programme.Values {
		r := start(t, paleSetup(t), greenMalt(330, 0.8182, 18))
		step := programme.KilnStep{Until: programme.Until{LatestH: 12}, AirOnC: 60, Flow: programme.Airflow{Value: 0.4}, Recirculation: 0.3}
		change(&step)
		kilned(t, r, []programme.KilnStep{step})
		var v programme.Values
		r.Read(&v)
		return v
	}
	given := end(func(*programme.KilnStep) {})
	for name, change := range map[string]func(*programme.KilnStep){
		"return air": func(s *programme.KilnStep) {
			s.HoldRecirc = programme.Hold{Reading: programme.AirOffRH, Value: 0.8, Low: 0.3, High: 0.3}
		},
		"fan": func(s *programme.KilnStep) {
			s.HoldFlow = programme.Hold{Reading: programme.AirOffRH, Value: 0.8, Rises: true, Low: 1, High: 1}
		},
	} {
		if held := end(change); held[programme.Moisture] != given[programme.Moisture] || held[programme.AirOff] != given[programme.AirOff] {
			t.Errorf("%s: %v held, %v given", name, held[programme.Moisture], given[programme.Moisture])
		}
	}
}

// Return air that follows the air-off holds it at 45 % for as long as its
// dampers reach, and dries with less heat than the same hours without.
func TestReturnAirHoldsTheAirOff(t *testing.T) {
	h := programme.Hold{Reading: programme.AirOffRH, Value: 0.45, High: 0.8}
	after := programme.KilnStep{Until: programme.Until{LatestH: 4}, AirOnC: 60, Flow: programme.Airflow{Value: 0.4}}
	wither := after
	wither.Until.LatestH = 10
	heat := func(hold programme.Hold) (heatJ float64, worst float64) {
		r := start(t, paleSetup(t), greenMalt(330, 0.8182, 18))
		step := after
		step.HoldRecirc = hold
		kilned(t, r, []programme.KilnStep{wither})
		before := r.Account().HeatJ
		if err := r.Begin(step); err != nil {
			t.Fatal(err)
		}
		for hour := 11.0; hour <= 12.5; hour += 0.1 { // from where it has settled to where the dampers end
			if err := r.To(hour); err != nil {
				t.Fatal(err)
			}
			var v programme.Values
			r.Read(&v)
			worst = max(worst, math.Abs(v[programme.AirOffRH]-0.45))
		}
		return r.Account().HeatJ - before, worst
	}
	held, away := heat(h)
	fresh, _ := heat(programme.Hold{})
	t.Logf("held within %.3f; %.0f MJ held, %.0f MJ fresh", away, held/1e6, fresh/1e6)
	if !(away < 0.06) {
		t.Errorf("the air-off strays by %.3f", away)
	}
	if !(held < 0.9*fresh) {
		t.Errorf("%.0f MJ held, %.0f MJ fresh", held/1e6, fresh/1e6)
	}
}

// A reading out of reach of its setting is told, and is not once the setting has
// room.
func TestMissedHoldComesAndGoes(t *testing.T) {
	says := func(most float64) bool {
		r := start(t, paleSetup(t), greenMalt(330, 0.8182, 18))
		steps := []programme.KilnStep{
			{Until: programme.Until{LatestH: 10}, AirOnC: 60, Flow: programme.Airflow{Value: 0.4}},
			{Until: programme.Until{LatestH: 2.5}, AirOnC: 60, Flow: programme.Airflow{Value: 0.4},
				HoldRecirc: programme.Hold{Reading: programme.AirOffRH, Value: 0.45, High: most}},
		}
		kilned(t, r, steps)
		return slices.ContainsFunc(r.Findings(nil), func(f finding.Finding) bool { return f.Code == "kiln.hold.missed" })
	}
	if !says(0.1) {
		t.Error("a damper of 10 % holds nothing, and nothing is said")
	}
	if says(0.8) {
		t.Error("a damper of 80 % has room, and a miss is told")
	}
}
