package course_test

import (
	"testing"

	"awn/course"
	"awn/programme"
)

// A piece whose air is held by condition: the hottest layer of the growing bed
// stays at what was asked, and what was reached is what the account shows.
func TestHeldPiece(t *testing.T) {
	o := run(t, load(t, "piece-held.yaml"))
	s := stage(t, o, course.Germinate)
	for h := s.FromH + 24; h < s.ToH; h += 6 {
		within(t, "hottest layer", at(o, h, programme.TempHigh), 15, 17.6)
		within(t, "air-on", at(o, h, programme.AirOn), 11, 15.2)
	}
	for _, s := range o.Stages {
		for good, off := range s.Balance.Closure {
			if !(off <= closure) {
				t.Errorf("%s: good %d is off by %.3g", s.Stage, good, off)
			}
		}
	}
	k := stage(t, o, course.Kiln)
	least, most := 1.0, 0.0
	for h := k.Steps[1].FromH; h < k.Steps[1].ToH; h += 0.1 {
		r := at(o, h, programme.Recirculation)
		least, most = min(least, r), max(most, r)
	}
	if !(least < 0.01 && most > 0.5 && most <= 0.7) {
		t.Errorf("return air goes from %.2f to %.2f", least, most)
	}
}
