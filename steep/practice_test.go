package steep_test

import (
	"fmt"
	"math"
	"testing"

	"awn/programme"
	"awn/steep"
)

// Two immersions of ten tonnes at 16 °C.
func ExampleRun() {
	t := new(testing.T)
	grain := cast(t, 0.11, 16)
	run, err := steep.Start(usual(t), grain)
	if err != nil {
		fmt.Println(err)
		return
	}
	atH := 0.0
	for _, step := range []programme.SteepStep{wet(9, 16), rest(17, 16), wet(10, 16), rest(12, 16)} {
		if err := run.Begin(step); err != nil {
			fmt.Println(err)
			return
		}
		atH += step.Until.LatestH
		if err := run.To(atH); err != nil {
			fmt.Println(err)
			return
		}
		v := read(run)
		fmt.Printf("%2.0f h: bulk %.0f %%, drained %.0f %%, chit %.0f %%\n", atH,
			100*v[programme.Moisture], 100*v[programme.Drained], 100*v[programme.Chit])
	}
	// Output:
	//  9 h: bulk 34 %, drained 38 %, chit 0 %
	// 26 h: bulk 38 %, drained 38 %, chit 38 %
	// 36 h: bulk 42 %, drained 45 %, chit 77 %
	// 48 h: bulk 44 %, drained 45 %, chit 96 %
}

// Common practice, no source: barley of 11 per cent at 14 to 18 °C reaches 43
// to 46 per cent drained in 40 to 54 hours with two or three immersions, and 80
// per cent or more have chitted by 48 h where 97 per cent can.
func TestCommonPractice(t *testing.T) {
	for _, p := range []struct {
		name  string
		tempC float64
		steps []programme.SteepStep
	}{
		{"two immersions at 16 °C", 16, []programme.SteepStep{wet(9, 16), rest(17, 16), wet(10, 16), rest(12, 16)}},
		{"three immersions at 14 °C", 14, []programme.SteepStep{wet(8, 14), rest(14, 15), wet(6, 14), rest(12, 15), wet(2, 14), rest(6, 15)}},
		{"three immersions at 17 °C", 17, []programme.SteepStep{wet(7, 17), rest(14, 17), wet(4.5, 17), rest(12, 17), wet(1, 17), rest(8, 17)}},
	} {
		run := start(t, usual(t), cast(t, 0.11, p.tempC))
		atH := walk(t, run, 0, p.steps...)
		v := read(run)
		drained, chit := v[programme.Drained], v[programme.Chit]
		respired, leached := run.LossKg()
		t.Logf("%s: %.0f h, drained %.1f %%, bulk %.1f %%, chit %.0f %%, age %.2f d, respired %.2f %%, leached %.2f %%", p.name, atH,
			100*drained, 100*v[programme.Moisture], 100*chit, v[programme.Age], respired/89, leached/89)
		if atH < 40 || atH > 54 || drained < 0.43 || drained > 0.46 || chit < 0.80 {
			t.Errorf("%s: drained %.3f and chit %.2f after %.0f h", p.name, drained, chit, atH)
		}
		// Leaching and dust take 0.5 to 1.5 per cent (common practice, no source).
		if share := leached / 8900; share < 0.005 || share > 0.015 {
			t.Errorf("%s: leached %.2f %%", p.name, 100*share)
		}
		// One per cent leached is 9 to 11 kg of COD per tonne (common practice,
		// no source; it follows from 1.07 to 1.2 kg per kg).
		if perPoint := run.Effluent().CODKg / 10 / (leached / 89); perPoint < 9 || perPoint > 11 {
			t.Errorf("%s: %.1f kg COD per tonne and point leached", p.name, perPoint)
		}
		if f := run.Findings(nil); len(f) != 0 {
			t.Errorf("%s earns %+v", p.name, f)
		}
	}
}

// AMBA 2002, p. 139: 7 h wet, 8 dry, 4 wet, 5 dry, 2 wet, 2 dry, 2 wet at 19 °C,
// before germination at what such trials call 45 per cent (the target recalled,
// not printed there): 1 point, as samples are drained for a time not stated.
func TestThirtyHourSchedule(t *testing.T) {
	run := start(t, usual(t), cast(t, 0.12, 19))
	walk(t, run, 0, wet(7, 19), rest(8, 19), wet(4, 19), rest(5, 19), wet(2, 19), rest(2, 19), wet(2, 19))
	v := read(run)
	t.Logf("drained %.1f %%, bulk %.1f %%", 100*v[programme.Drained], 100*v[programme.Moisture])
	if math.Abs(v[programme.Drained]-0.45) > 0.01 {
		t.Errorf("drained %.3f after the 30 h schedule", v[programme.Drained])
	}
}

// Tables of water chemistry, recalled: 14.6, 11.3, 9.1 and 7.6 g/m³. Two per
// cent, the claim of the short form.
func TestDissolvedOxygen(t *testing.T) {
	for tempC, want := range map[float64]float64{0: 14.6, 10: 11.3, 20: 9.1, 30: 7.6} {
		if got := 1000 * steep.DissolvedOxygen(tempC, 101325); math.Abs(got/want-1) > 0.02 {
			t.Errorf("%g °C: %.2f g/m³, want %.1f", tempC, got, want)
		}
	}
	if !math.IsNaN(steep.DissolvedOxygen(-1, 101325)) || !math.IsNaN(steep.DissolvedOxygen(46, 101325)) {
		t.Error("oxygen of ice or of hot water is answered")
	}
}

// CUCDC undated, p. 221: the oxygen in the water of a steep can be gone within
// an hour.
func TestWaterRunsOutOfOxygen(t *testing.T) {
	run := start(t, usual(t), cast(t, 0.12, 16))
	still := wet(1, 16)
	still.AerationM3HT = 0
	walk(t, run, 0, wet(8, 16), rest(14, 16))
	before := read(run)[programme.Chit]
	long := still
	long.Until.LatestH = 10
	walk(t, run, 22, long)
	if gained := read(run)[programme.Chit] - before; gained > 0.05 {
		t.Errorf("chit rose by %.2f in ten hours under still water", gained)
	}
}
