package intake

import (
	"math"
	"testing"

	"awn/odds"
)

// TestPattern holds the number of probes against ISO 24333 (recalled: 3 to 15
// t, 8 to 30 t, 11 to 45 t), and their places against the vehicle.
func TestPattern(t *testing.T) {
	for _, c := range []struct {
		kg float64
		n  int
	}{{14e3, 3}, {15e3, 3}, {15.1e3, 8}, {29.4e3, 8}, {44e3, 11}} {
		p, ok := (&Load{NetKg: c.kg}).Pattern()
		if !ok || len(p.Points) != c.n || p.Scheme.Source != "ISO 24333" {
			t.Errorf("%g kg: %d probes (%v), want %d", c.kg, len(p.Points), ok, c.n)
		}
		for _, q := range p.Points {
			if !(q.Along > 0 && q.Along < 1 && q.Across > 0 && q.Across < 1) {
				t.Errorf("%g kg: a probe at %+v misses", c.kg, q)
			}
		}
	}
	if _, ok := (&Load{NetKg: 60e3}).Pattern(); ok {
		t.Error("beyond the scheme there is a pattern")
	}
	own := Vehicle{LengthM: 9, WidthM: 2.4, Probes: []Point{{0.2, 0.5}}}
	if p, ok := (&Load{NetKg: 60e3, Vehicle: own}).Pattern(); !ok || len(p.Points) != 1 || p.Scheme.Name != "" {
		t.Errorf("the house's own pattern: %+v, %v", p, ok)
	}
}

// TestTold: what was counted has the band of its count; a figure that carries
// no band is not told.
func TestTold(t *testing.T) {
	l := Load{Readings: map[Factor]Reading{
		Capacity: Counted(297, 300), TestWeight: Read(66), DON: {Value: odds.Alone(6e-7, odds.Measured), Plan: ToxinPlan{SampleG: 908, PortionG: 50, Analyses: 1}},
	}}
	told := l.Told()
	if len(told) != 2 {
		t.Fatalf("told %+v", told)
	}
	want := odds.Proportion{Hits: 297, Of: 300}.Value(odds.Measured)
	if v := told[0].Value; math.Abs(v.Low-want.Low)+math.Abs(v.High-want.High) > 1e-12 || told[0].Count.Of != 300 {
		t.Errorf("capacity %+v, want %+v", told[0], want)
	}
	if v := told[1]; v.Name != "read_ug_kg" || v.Value.Mid < 599 || v.Value.Mid > 601 {
		t.Errorf("DON %+v", v)
	}
}
