package course_test

import (
	"math"
	"slices"
	"testing"

	"awn/course"
	"awn/kiln"
	"awn/programme"
)

// Two decks and linked kilns from documents: the state repeats itself within 0.02
// points in fewer than ten runs, the accounts close through the drop, the break
// is that of the upper deck, and a piece comes every cycle.
func TestDecksOfTheHouse(t *testing.T) {
	for _, name := range []string{"piece-decks.yaml", "piece-linked.yaml"} {
		o := run(t, load(t, name))
		d := o.Decks
		t.Logf("%s: %d runs after %d coarse ones; the end moves by %.4f and %.4f points; dropped at %.1f %%, ends at %.2f", name,
			d.Runs, d.Coarse, 100*d.Mean, 100*d.Worst, 100*d.DropWB, 100*o.Kilned.MoistureMean)
		if !(d.Runs < 10 && d.Mean < 0.0002 && d.Worst < 0.0002) {
			t.Errorf("%s: %+v", name, *d)
		}
		for _, s := range o.Stages {
			for good, off := range s.Balance.Closure {
				if !(off <= closure) {
					t.Errorf("%s, %s: good %d is off by %.3g", name, s.Stage, good, off)
				}
			}
		}
		k := stage(t, o, course.Kiln)
		if !(o.Kilned.BreakH < d.CycleH) || math.Abs(o.Cost.CycleH-max((k.ToH-k.FromH)/float64(len(o.Piece.House.Kilns)+2), longest(o))) > 1e-9 {
			t.Errorf("%s: break after %.1f h, a piece every %.1f h", name, o.Kilned.BreakH, o.Cost.CycleH)
		}
		within(t, name+", malt", o.Kilned.MoistureMean, 0.02, 0.05)
	}
}

// longest is the longest of steep and germination over their vessels.
func longest(o *course.Outcome) float64 {
	h, out := &o.Piece.House, 0.0
	for _, s := range o.Stages {
		switch s.Stage {
		case course.Steep:
			out = max(out, (s.ToH-s.FromH)/float64(len(h.Steeps)))
		case course.Germinate:
			out = max(out, (s.ToH-s.FromH)/float64(len(h.Germinators)))
		}
	}
	return out
}

// Linked kilns keep the layers of a piece, dropping mixes them.
func TestDropMixesOnlyWhatMoves(t *testing.T) {
	spread := func(name string) float64 {
		o := run(t, load(t, name))
		bed := o.Bed[1]
		after := stage(t, o, course.Kiln).FromH + o.Decks.CycleH + 0.6
		for i, h := range bed.TimeH {
			if h > after {
				row := bed.Moisture[i*bed.Layers : (i+1)*bed.Layers]
				return slices.Max(row) - slices.Min(row)
			}
		}
		return math.NaN()
	}
	if dropped, linked := spread("piece-decks.yaml"), spread("piece-linked.yaml"); !(dropped < linked/2) {
		t.Errorf("%.3f between the layers after a drop, %.3f in linked kilns", dropped, linked)
	}
}

// A drop before the break is told of the house, and goes with warm air between the
// decks and more hours. A named lower piece is taken as it is.
func TestDroppedWetOfTheHouse(t *testing.T) {
	p := load(t, "piece-decks.yaml")
	p.Programme.Kiln = slices.Clone(p.Programme.Kiln)
	p.Programme.Kiln[1].Until.LatestH = 1
	f, ok := told(run(t, p), "kiln.decks.dropped-wet")
	if !ok || f.Act != "act.kiln.longer-cycle" {
		t.Fatalf("a short cycle is not told: %+v", f)
	}
	p.Programme.Kiln[1].Until.LatestH = 8
	if f, ok := told(run(t, p), "kiln.decks.dropped-wet"); ok {
		t.Errorf("eleven hours, and still %+v", f)
	}
	p.LowerPiece = &kiln.LowerPiece{MoistureWB: 0.10, TempC: 50}
	if d := run(t, p).Decks; !d.Named || d.Runs != 1 {
		t.Errorf("%+v", *d)
	}
}

// A small vessel and a drum, from documents: what a craft house makes passes as
// the large one's does; a drum has one layer's worth of everything.
func TestSmallVesselAndDrum(t *testing.T) {
	small, drum := run(t, load(t, "piece-small.yaml")), run(t, load(t, "piece-drum.yaml"))
	for _, o := range []*course.Outcome{small, drum} {
		for _, v := range o.Judged {
			if v.Word != "passes" {
				t.Errorf("%s: %s %s", o.Piece.Code, v.Limit.Parameter, v.Word)
			}
		}
		for _, s := range o.Stages {
			for good, off := range s.Balance.Closure {
				if !(off <= closure) {
					t.Errorf("%s, %s: good %d is off by %.3g", o.Piece.Code, s.Stage, good, off)
				}
			}
		}
	}
	end := stage(t, drum, course.Germinate).End
	if gap := end[programme.TempGap]; !(gap < 1e-6) || math.Abs(end[programme.WorstLayer]-end[programme.DriestLayer]) > 1e-9 {
		t.Errorf("a drum has %.3g K between its layers", gap)
	}
	if k := small.Bed[1]; k.Moisture[k.Layers-1] == k.Moisture[0] {
		t.Error("a combined vessel was mixed on the way to its kilning")
	}
}

// lowerOf is the piece that lies below in the state that was found.
func lowerOf(d *kiln.Settled) *kiln.LowerPiece {
	return &kiln.LowerPiece{MoistureWB: d.DropWB, TempC: 30}
}
