package germinate

import (
	"math"
	"testing"

	"awn/barley"
	"awn/programme"
)

// still is a stop of the fan.
func still(hours float64, shut bool) programme.GerminateStep {
	return programme.GerminateStep{Until: programme.Until{LatestH: hours}, AirOnC: 14, AirOnRH: 0.98, FanOff: true, DampersShut: shut}
}

// At 0.44 g/(kg h) a m³ of bed (330 kg dry matter, voids 0.45) would use up its
// oxygen in 44 minutes, worked by hand. Life slows as oxygen falls, by O/(O + K);
// down to K, 2 % by volume, the integral of that is
//
//	(O0 - K + K ln(O0/K))/(1 + K/O0) of what the full pace takes: 45 minutes
//
// Tolerance: two minutes, by which the stop is looked at.
func TestFirstLimitOfAStopIsOxygen(t *testing.T) {
	s := setup(t, 1)
	c, k := *s.Constants, *s.Kernel
	c.VoidShare, c.DraughtShut = 0.45, 0
	k.PeakRate, k.RestRate = 0, 0.44
	s.Constants, s.Kernel = &c, &k
	r := start(t, s, even(1, 0.45, 16, 5))
	stop, err := r.Foresee(still(3, true))
	if err != nil {
		t.Fatal(err)
	}
	o, half := freshAirOxygen, k.OxygenHalf
	want := 44 * (o - half + half*math.Log(o/half)) / (o + half)
	near(t, "oxygen gone, min", stop.Usual.OxygenMin, want, 2)
	if !math.IsNaN(stop.Usual.HotMin) {
		t.Errorf("hot after %.0f min", stop.Usual.HotMin)
	}
}

// A look ahead leaves the piece as it was.
func TestForesightChangesNothing(t *testing.T) {
	a := start(t, setup(t, 5), steeped(classes(), 5, 0.455, 16, 400, 2))
	b := a.Clone()
	if _, err := a.Foresee(still(4, false)); err != nil {
		t.Fatal(err)
	}
	run(t, a, still(4, false), plain(10))
	run(t, b, still(4, false), plain(10))
	x, y := a.Shape(), b.Shape()
	a.Grain(x)
	b.Grain(y)
	for i := range x.AgeD {
		if x.AgeD[i] != y.AgeD[i] {
			t.Fatalf("age %d: %v and %v", i, x.AgeD[i], y.AgeD[i])
		}
	}
}

// Shut dampers look harmless by the thermometer: the bed stays cooler than with
// open ones because its corns have nothing to breathe. Open, it is the other way
// about.
func TestShutDampersAreCoolAndBreathless(t *testing.T) {
	stop := func(shut bool) Stop {
		r := start(t, setup(t, 10), steeped(classes(), 10, 0.455, 17, 1000, 3))
		s, err := r.Foresee(still(6, shut))
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	open, shut := stop(false).Most, stop(true).Least
	if !(open.HottestC > shut.HottestC+2 && open.MeanC > shut.MeanC) {
		t.Errorf("open: %.1f °C at its hottest, shut: %.1f", open.HottestC, shut.HottestC)
	}
	if !(shut.OxygenMin > 0 && (math.IsNaN(open.OxygenMin) || open.OxygenMin > shut.OxygenMin)) {
		t.Errorf("oxygen gone after %.0f min open and %.0f shut", open.OxygenMin, shut.OxygenMin)
	}
}

// After a stop growth goes on, at the pace that is left: a bed that lost a
// tenth of its vigour grows a tenth less. Nothing is lost while air moves.
func TestGrowthRecoversSlower(t *testing.T) {
	grown := func(before programme.GerminateStep) (perH, lost float64) {
		s := setup(t, 4)
		c := *s.Constants
		c.DraughtShut, c.BreathlessH = 0, 12
		s.Constants = &c
		r := start(t, s, steeped([]barley.Class{{Number: 1, KernelDryMg: 40}}, 4, 0.455, 16, 1000, 2))
		run(t, r, before, plain(12)) // and back to the temperature of its air
		from := read(r)[programme.Age]
		run(t, r, plain(6))
		return (read(r)[programme.Age] - from) / 6, r.VigourLost()
	}
	usual, none := grown(plain(4))
	after, lost := grown(still(4, true))
	if none != 0 {
		t.Errorf("%.3g of the vigour lost with the fan on", none)
	}
	if !(lost > 0.1 && lost < 0.35) {
		t.Errorf("%.3g of the vigour lost in four hours", lost)
	}
	near(t, "pace after the stop", after/usual, 1-lost, 0.02)
}

func TestVigourIsKnownOnlyForHours(t *testing.T) {
	c, _, _ := constants(t)
	near(t, "none", c.Vigour(0), 1, 0)
	near(t, "e-fold", c.Vigour(c.BreathlessH), math.Exp(-1), 1e-12)
	if !math.IsNaN(c.Vigour(-1)) {
		t.Error("hours below nothing")
	}
}

// Davidson 1978, abstract: grain cast in water respires 26 per cent less at once
// and is as it was within 28 hours.
func TestWetCastDips(t *testing.T) {
	c, _, _ := constants(t)
	for hour, want := range map[float64]float64{0: 0.74, 14: 0.87, 28: 1, 60: 1} {
		if got := c.WetCastPace(hour); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g h after it %g of the pace is left, want %g", hour, got, want)
		}
	}
	if !math.IsNaN(c.WetCastPace(-1)) {
		t.Error("before it was cast it has a pace")
	}
}
