package course_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"sync/atomic"
	"testing"

	"awn/course"
	"awn/malt"
)

// coarse is a piece on a coarse grid, so that an ensemble of it is soon drawn.
func coarse(t *testing.T, name string) *course.Piece {
	p := load(t, name)
	p.Grid = course.Grid{GerminateLayers: 5, KilnLayers: 15}
	return p
}

func drawn(t *testing.T, s course.Sampling, pieces ...*course.Piece) []*course.Ensemble {
	t.Helper()
	all, err := course.DrawTogether(t.Context(), pieces, s)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// What an ensemble says does not depend on how many work at it, and depends on
// the seed.
func TestEnsembleIsTheSameForAnyWorkers(t *testing.T) {
	p := coarse(t, "piece.yaml")
	of := func(workers int, seed uint64) *course.Odds {
		return drawn(t, course.Sampling{Draws: 60, Seed: seed, Workers: workers}, p)[0].Weigh(course.UsualRisk)
	}
	one, five, other := of(1, 1), of(5, 1), of(5, 2)
	for name, pair := range map[string][2]any{
		"bands": {one.Bands, five.Bands}, "lines": {one.Lines, five.Lines}, "drivers": {one.Drivers, five.Drivers},
		"next": {one.Next, five.Next}, "advice": {one.Advice, five.Advice}, "curve": {one.Curve, five.Curve},
	} {
		if fmt.Sprint(pair[0]) != fmt.Sprint(pair[1]) { // as text, for NaN is NaN there
			t.Errorf("%s differ between one worker and five", name)
		}
	}
	if reflect.DeepEqual(one.Bands, other.Bands) {
		t.Error("another seed gives the same")
	}
}

// An ensemble that is stopped is the one of as many draws as were made.
func TestStoppedEnsembleIsTheFirstDraws(t *testing.T) {
	p := coarse(t, "piece.yaml")
	ctx, stop := context.WithCancel(t.Context())
	var told atomic.Int64
	e, err := course.Draw(ctx, p, course.Sampling{Draws: 500, Seed: 3, Workers: 2, Told: func(done int) {
		if told.Store(int64(done)); done == 8 {
			stop()
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	if e.Asked != 500 || e.Done < 8 || e.Done > 10 || int(told.Load()) != e.Done {
		t.Fatalf("stopped at 8: %d of %d, told %d", e.Done, e.Asked, told.Load())
	}
	whole := drawn(t, course.Sampling{Draws: e.Done, Seed: 3}, p)[0]
	if !reflect.DeepEqual(e.Bands, whole.Bands) {
		t.Error("the draws made until the stop are not the first of the sequence")
	}
	if _, err := e.Totals(ctx, 1, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("total shares after a stop: %v", err)
	}
}

// On common draws a piece differs in nothing from itself, and from itself with a
// hotter cure by less than two ensembles that are drawn apart.
func TestCommonDrawsSharpenTheDifference(t *testing.T) {
	a, b := coarse(t, "piece.yaml"), coarse(t, "piece.yaml")
	b.Programme.Kiln = append(b.Programme.Kiln[:0:0], b.Programme.Kiln...)
	b.Programme.Kiln[2].AirOnC += 3
	all := drawn(t, course.Sampling{Draws: 80, Seed: 1, Workers: 2}, a, b, a)
	for _, c := range all[0].Against(all[2]) {
		if c.P10 != 0 || c.P90 != 0 || c.Above.Held != 0 {
			t.Fatalf("a piece differs from itself in %s", c.Key)
		}
	}
	m := all[0].MeetsBeside(all[2])
	if m.First+m.Other != 0 || m.Both != all[0].All.Held || m.Of != 80 {
		t.Errorf("a piece beside itself: %+v", m)
	}
	for _, c := range all[0].Against(all[1]) {
		if c.Key != "malt.colour_ebc" {
			continue
		}
		first, _ := all[0].Find(c.Key)
		other, _ := all[1].Find(c.Key)
		apart := math.Hypot(first.P90-first.P10, other.P90-other.P10)
		if !(c.P10 > 0 && c.P90-c.P10 < apart/3) || c.Above.Held != c.Above.Of {
			t.Errorf("3 K hotter: colour %+v; drawn apart the range would be %.2f", c, apart)
		}
	}
}

// A draw that cannot be computed is out of specification: a chance never gets
// better by what fails.
func TestFailedDrawsCountAsOut(t *testing.T) {
	p := coarse(t, "piece.yaml")
	e := drawn(t, course.Sampling{Draws: 40, Seed: 1, Workers: 2}, p)[0]
	for _, l := range e.Lines {
		if l.In.Of+l.Unsaid != e.Done {
			t.Errorf("%s: %d draws and %d unsaid of %d", l.Limit.Parameter, l.In.Of, l.Unsaid, e.Done)
		}
	}
	if e.All.Of != e.Done || len(e.Faults) > e.Failed {
		t.Errorf("all lines: %d of %d", e.All.Of, e.Done)
	}
}

// What is told of the drivers is told where the regression explains it, each
// share stands out of its error, and all add up to no more than the whole.
func TestDriversAreSharesWhereTheyAreShown(t *testing.T) {
	o := drawn(t, course.Sampling{Draws: 150, Seed: 1, Workers: 2}, coarse(t, "piece.yaml"))[0].Weigh(course.UsualRisk)
	shown := 0
	for _, d := range o.Drivers {
		if !d.Good() {
			continue
		}
		shown++
		sum := 0.0
		for _, s := range d.Shares {
			sum += s.Share
			if !(s.Share > 2*s.Deviation && s.Deviation > 0 && s.Deviation < 0.2) {
				t.Errorf("line %d, %s: share %.3f ± %.3f", d.Line, o.Inputs[s.Input].Key, s.Share, s.Deviation)
			}
		}
		if sum > 1+1e-9 {
			t.Errorf("line %d: the shares add up to %.2f", d.Line, sum)
		}
	}
	if shown < 5 {
		t.Errorf("%d lines have drivers to show", shown)
	}
	if len(o.Next) == 0 || len(o.Next) > 5 {
		t.Errorf("%d measurements are ranked", len(o.Next))
	}
	for i, m := range o.Next {
		if !(m.Hours > 0 && m.Fall >= 0 && m.Fall <= m.Now) || i > 0 && m.Fall > o.Next[i-1].Fall {
			t.Errorf("measurement %d: %+v", i, m)
		}
	}
}

// What the model may be off by leaves no account open: what is respired is missing
// from the malt in every draw, and the wettest layer is wetter than the mean.
func TestDrawnYieldsAddUp(t *testing.T) {
	e := drawn(t, course.Sampling{Draws: 40, Seed: 1, Workers: 2}, coarse(t, "piece.yaml"))[0]
	kept, lost := e.Values("yield.per_dry"), e.Values("yield.all_losses_dm")
	mean, wettest := e.Values("kilned.moisture_mean_wb"), e.Values("kilned.moisture_wettest_wb")
	for i := range kept {
		if math.Abs(kept[i]+lost[i]-1) > 1e-9 {
			t.Errorf("draw %d: %.6f kept and %.6f lost", i, kept[i], lost[i])
		}
		if wettest[i] < mean[i] {
			t.Errorf("draw %d: the wettest layer at %.4f, the mean at %.4f", i, wettest[i], mean[i])
		}
	}
}

// Total shares of a line that one thing alone makes: protein comes from the lot
// and from its laboratory, and from nothing else.
func TestTotalSharesOfProtein(t *testing.T) {
	e := drawn(t, course.Sampling{Draws: 60, Seed: 1, Workers: 2}, coarse(t, "piece.yaml"))[0]
	totals, err := e.Totals(t.Context(), 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range e.Lines {
		if l.Limit.Parameter != malt.Protein {
			continue
		}
		for _, total := range totals {
			share, own := total.Shares[i], total.Group == course.OfLot || total.Group == course.OfLaboratory
			if own != (share > 0.2) || !own && share > 1e-3 {
				t.Errorf("protein, %s: %.3f ± %.3f", total.Group, share, total.Deviation[i])
			}
		}
	}
}

// The risk that is taken is kept, or it is told that it is not; a smaller risk
// never lets more go; and the two risks are what they say: a malt that lies half
// of R95 beyond a limit goes no more often than the risk.
func TestReleaseKeepsTheRisk(t *testing.T) {
	e := drawn(t, course.Sampling{Draws: 120, Seed: 1, Workers: 2}, coarse(t, "piece.yaml"))[0]
	last := math.Inf(1)
	for _, risk := range []float64{0.4, 0.2, 0.1, 0.05, 0.01} {
		a := e.Weigh(risk).Advice
		for _, c := range a.Measured {
			if c.AtLimit > risk+1e-9 {
				t.Errorf("risk %g: a malt beyond the limit of line %d goes %.3f", risk, c.Line, c.AtLimit)
			}
		}
		if a.Act == course.ReleaseIt && a.Prior > risk {
			t.Errorf("risk %g: released with %.2f out", risk, a.Prior)
		}
		if a.Act == course.BlendIt && len(a.Blends) == 0 {
			t.Errorf("risk %g: blend with nothing", risk)
		}
		for _, b := range a.Blends {
			if b.Least > b.Most {
				t.Errorf("risk %g: no malt is between %g and %g", risk, b.Least, b.Most)
			}
		}
		if a.OutGivenReleased > a.Prior {
			t.Errorf("risk %g: measuring makes it worse, %.2f over %.2f", risk, a.OutGivenReleased, a.Prior)
		}
		if a.OutGivenReleased <= risk && a.Released > last+1e-9 {
			t.Errorf("risk %g lets %.2f go, a greater one %.2f", risk, a.Released, last)
		} else if a.OutGivenReleased <= risk {
			last = a.Released
		}
	}
	sure := e.Weigh(0.49)
	if sure.Advice.Prior > 0.49 && sure.Advice.Act == course.ReleaseIt {
		t.Error("released against the odds")
	}
}
