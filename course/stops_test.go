package course_test

import (
	"testing"

	"awn/course"
	"awn/programme"
)

// A fan that fails for six hours is told with its first limit; a stop of ten
// minutes is not. The accounts close through it.
func TestStoppedFanIsTold(t *testing.T) {
	p := load(t, "piece-stop.yaml")
	o := run(t, p)
	f, ok := told(o, "germinate.fan.stopped-breathless")
	if !ok {
		t.Fatal("the stop is not told")
	}
	within(t, "minutes to the first limit", figure(f, "soonest_min"), 20, 60)
	if f.Act != "act.germinate.stop-by-oxygen" || len(o.Stops) != 1 || o.Stops[0].AtH != f.AtH {
		t.Errorf("%+v of %+v", f, o.Stops)
	}
	if _, ok := told(o, "germinate.vigour.lost"); !ok {
		t.Error("the lost vigour is not told")
	}
	for _, s := range o.Stages {
		for good, off := range s.Balance.Closure {
			if !(off <= closure) {
				t.Errorf("%s: good %d is off by %.3g", s.Stage, good, off)
			}
		}
	}
	p.Programme.Germinate = append([]programme.GerminateStep(nil), p.Programme.Germinate...)
	p.Programme.Germinate[2].Until.LatestH = 10.0 / 60
	short := run(t, p)
	for _, code := range []string{"germinate.fan.stopped-breathless", "germinate.fan.stopped-hot", "germinate.vigour.lost"} {
		if f, ok := told(short, code); ok {
			t.Errorf("after ten minutes %+v", f)
		}
	}
}

// With a warm bed and dampers that draw, heat comes before want of air; turned
// off no longer than until that, nothing is said.
func TestStoppedFanGrowsHot(t *testing.T) {
	p := load(t, "piece-stop.yaml")
	p.House.Parameters = map[string]float64{"germinate.draught": 3} // a tall chimney
	p.Programme.Germinate = append([]programme.GerminateStep(nil), p.Programme.Germinate...)
	for i := range p.Programme.Germinate {
		p.Programme.Germinate[i].AirOnC = 22
		p.Programme.Germinate[i].DampersShut = false
	}
	p.Programme.Germinate[2].Until.LatestH = 0.5
	stop := func() (course.Stop, bool) {
		o := run(t, p)
		_, ok := told(o, "germinate.fan.stopped-hot")
		return o.Stops[0], ok
	}
	if s, ok := stop(); !ok {
		t.Fatalf("%+v is not told", s)
	}
	p.Programme.Germinate[2].Until.LatestH = 0.05
	if s, ok := stop(); ok {
		t.Errorf("%+v is told", s)
	}
}
