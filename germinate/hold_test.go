package germinate

import (
	"math"
	"testing"

	"awn/programme"
)

// Air that follows the hottest layer holds it; a fan that follows the difference
// holds that; fresh air holds the room. Each within what its drive's band allows.
func TestHeldBed(t *testing.T) {
	for name, c := range map[string]struct {
		hold   func(*programme.GerminateStep)
		of     programme.Reading
		value  float64
		within float64
	}{
		"air-on": {func(s *programme.GerminateStep) {
			s.HoldAirOn = programme.Hold{Reading: programme.TempHigh, Value: 17, Low: 10, High: 16}
		}, programme.TempHigh, 17, 0.3},
		"fan": {func(s *programme.GerminateStep) {
			s.Flow = per(1200)
			s.HoldFlow = programme.Hold{Reading: programme.TempGap, Value: 2, Rises: true, Low: 0.1, High: 1}
		}, programme.TempGap, 2, 0.3},
	} {
		t.Run(name, func(t *testing.T) {
			s, step := setup(t, 10), plain(60)
			step.TurnEvH, step.SprayToWB = 0, 0
			c.hold(&step)
			r := start(t, s, steeped(classes(), 10, 0.455, 16, 400, 0.5))
			run(t, r, step)
			near(t, c.of.Key(), read(r)[c.of], c.value, c.within)
			if _, ok := found(r, "germinate.hold.missed"); ok {
				t.Error("a miss is told")
			}
		})
	}
}

// Fresh air follows the carbon dioxide of the room: more than without, no more
// than it needs. A room that cannot be held is told.
func TestFreshAirHoldsTheRoom(t *testing.T) {
	end := func(hold programme.Hold) (dioxide float64, missed bool) {
		s, step := setup(t, 10), plain(60)
		s.Outside.MeanC, s.Vessel.Air.LeastFresh = 28, 0.02 // the dampers keep the heat out
		step.Fresh, step.HoldFresh = 0.02, hold
		r := start(t, s, steeped(classes(), 10, 0.455, 16, 400, 0.5))
		run(t, r, step)
		_, missed = found(r, "germinate.hold.missed")
		return read(r)[programme.RoomDioxide], missed
	}
	free, _ := end(programme.Hold{})
	held, missed := end(programme.Hold{Reading: programme.RoomDioxide, Value: 0.01, Rises: true, Low: 0.02, High: 0.6})
	if !(free > 0.02) || missed || math.Abs(held-0.01) > 0.003 {
		t.Errorf("%.4f without, %.4f held (missed: %v)", free, held, missed)
	}
	if _, missed := end(programme.Hold{Reading: programme.RoomDioxide, Value: 0.01, Rises: true, Low: 0.02, High: 0.03}); !missed {
		t.Error("a room out of reach is not told")
	}
}
