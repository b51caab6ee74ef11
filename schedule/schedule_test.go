package schedule_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"awn/schedule"
)

var nan = math.NaN()

// run is a piece that stands 40 h in a steep and then 116 h in a box.
func run(name, steep, box string, fromH float64) schedule.Run {
	at := schedule.At
	return schedule.Run{Name: name, Due: nan, Meant: true, Legs: []schedule.Leg{
		{Road: schedule.Steep, Vessel: steep, Span: schedule.Span{From: at(fromH), To: at(fromH + 40)}},
		{Road: schedule.Germinate, Vessel: box, Span: schedule.Span{From: at(fromH + 40), To: at(fromH + 156)}},
	}}
}

var house = []schedule.Vessel{
	{Road: schedule.Steep, Name: "steep 1", Room: 1}, {Road: schedule.Steep, Name: "steep 2", Room: 1},
	{Road: schedule.Germinate, Name: "box 1", Room: 1}, {Road: schedule.Germinate, Name: "box 2", Room: 1},
}

func ExampleClashes() {
	runs := []schedule.Run{run("A", "steep 1", "box 1", 0), run("B", "steep 1", "box 2", 30), run("C", "steep 2", "box 1", 140)}
	for _, c := range schedule.Clashes(runs, house) {
		fmt.Printf("%s: %s is there, and %s comes at %g h, until %g h\n", c.Vessel.Name, runs[c.First].Name, runs[c.Second].Name, c.From, c.To)
	}
	// Output: steep 1: A is there, and B comes at 30 h, until 40 h
}

func TestAVesselMayTakeTwo(t *testing.T) {
	runs := []schedule.Run{run("A", "steep 1", "box 1", 0), run("B", "steep 1", "box 2", 10), run("C", "steep 1", "", 20)}
	two := []schedule.Vessel{{Road: schedule.Steep, Name: "steep 1", Room: 2}}
	if c := schedule.Clashes(runs, two); len(c) != 1 || c[0].Second != 2 {
		t.Errorf("three pieces in a vessel for two: %+v", c)
	}
}

// What is over was no double booking, and one piece follows the other to the
// quarter of an hour.
func TestWhatIsNoClash(t *testing.T) {
	past := run("A", "steep 1", "box 1", 0)
	other := run("B", "steep 1", "box 2", 10)
	for i := range past.Legs {
		past.Legs[i].Ended, other.Legs[i].Ended = true, true
	}
	if c := schedule.Clashes([]schedule.Run{past, other}, house); len(c) != 0 {
		t.Errorf("over: %+v", c)
	}
	if c := schedule.Clashes([]schedule.Run{run("A", "steep 1", "box 1", 0), run("B", "steep 1", "box 2", 39.9)}, house); len(c) != 0 {
		t.Errorf("one after the other: %+v", c)
	}
}

// A piece that may be late meets one that may be early: that is said as a
// chance. One that stands there until nobody knows when meets all.
func TestHemsMeet(t *testing.T) {
	a, b := run("A", "steep 1", "box 1", 0), run("B", "steep 1", "box 2", 42)
	a.Legs[0].To.HighH = 44
	c := schedule.Clashes([]schedule.Run{a, b}, house)
	if len(c) != 1 || c[0].Certainly || c[0].From != 42 || c[0].To != 44 {
		t.Errorf("a late piece: %+v", c)
	}
	a.Legs[0].Open = true
	b = run("B", "steep 1", "box 2", 4000)
	if c := schedule.Clashes([]schedule.Run{a, b}, house); len(c) != 1 || !c[0].Certainly {
		t.Errorf("a piece without a plan: %+v", c)
	}
}

func TestGapsAndStaysFillTheTime(t *testing.T) {
	runs := []schedule.Run{run("A", "steep 1", "box 1", 0), run("B", "steep 1", "box 2", 60), run("C", "steep 1", "box 2", 300)}
	got := schedule.Gaps(runs, house[:1], 0, 400, 12)
	want := [][2]float64{{40, 60}, {100, 300}, {340, 400}}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		if got[i].From != w[0] || got[i].To != w[1] {
			t.Errorf("%+v, want %v", got[i], w)
		}
	}
	// In a vessel without clashes, gaps and stays add up to all of the time.
	rapid.Check(t, func(rt *rapid.T) {
		var runs []schedule.Run
		at, held := 0.0, 0.0
		for range rapid.IntRange(0, 8).Draw(rt, "runs") {
			at += rapid.Float64Range(0, 50).Draw(rt, "wait")
			runs = append(runs, run("R", "steep 1", "", at))
			at, held = at+40, held+40
		}
		end, empty := at+10, 0.0
		for _, g := range schedule.Gaps(runs, house[:1], 0, end, 0) {
			empty += g.To - g.From
		}
		if math.Abs(empty+held-end) > 1e-9*end {
			rt.Errorf("empty %g h, held %g h of %g h", empty, held, end)
		}
		if c := schedule.Clashes(runs, house[:1]); len(c) != 0 {
			rt.Errorf("clashes where none are: %+v", c)
		}
	})
}

func TestAnOrderIsReadyWithItsLastPiece(t *testing.T) {
	a, b, c := run("A", "", "", 0), run("B", "", "", 0), run("C", "", "", 0)
	a.Order, b.Order, c.Order = "X", "X", "Y"
	a.Ready, b.Ready = []float64{100, 110, 120, 130}, []float64{105}
	a.Due, b.Due = 125, 118
	got := schedule.Orders([]schedule.Run{c, a, b})
	if len(got) != 2 || got[0].Name != "X" || got[1].Name != "Y" {
		t.Fatalf("%+v", got)
	}
	if x := got[0]; x.DueH != 118 || x.Ready.H != 115 || x.InTime.Hits != 2 || x.InTime.Of != 4 {
		t.Errorf("%+v", x)
	}
	if !math.IsNaN(got[1].Ready.H) || got[1].InTime.Of != 0 {
		t.Errorf("nobody can say: %+v", got[1])
	}
}
