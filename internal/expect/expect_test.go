package expect_test

import (
	"context"
	"math"
	"path/filepath"
	"testing"
	"time"

	"awn/course"
	"awn/examples"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/paper"
	"awn/internal/slip"
	"awn/programme"
)

// house is a house with one piece of the example in its steep.
func house(t *testing.T) (h *malthouse.House, floor malthouse.Actor, cast time.Time) {
	t.Helper()
	ctx := context.Background()
	o, err := office.Open(ctx, filepath.Join(t.TempDir(), "house.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := o.DB.Close(); err != nil {
			t.Error(err)
		}
	})
	floor = malthouse.Actor{ID: "runa", Role: malthouse.Manager}
	cast = time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	piece, inputs, faults := paper.Load(examples.Files, examples.First)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	plan, err := expect.Plan(&piece, inputs)
	if err != nil {
		t.Fatal(err)
	}
	enter(t, o.House, floor, cast.Add(-time.Hour), &slip.Receive{Net: "60 t", Silo: "B7", Weighing: slip.Weighing{Moisture: "11.8 % wb"}})
	enter(t, o.House, floor, cast, &slip.Start{From: []string{"B7 60 t"}, Piece: "P26-0001", Vessel: "steep 1", Expected: plan})
	return o.House, floor, cast
}

func enter(t *testing.T, h *malthouse.House, a malthouse.Actor, at time.Time, s slip.Slip) {
	t.Helper()
	if _, err := s.Enter(t.Context(), h, a, malthouse.Entry{At: at}); err != nil {
		t.Fatal(err)
	}
}

// A plan that was kept is worked out again to the same figures from what the
// record holds.
func TestAPlanCanBeWorkedOutAgain(t *testing.T) {
	h, floor, _ := house(t)
	plan, err := h.Plan(t.Context(), floor, "P26-0001")
	if err != nil {
		t.Fatal(err)
	}
	piece, found, err := expect.Piece(t.Context(), h, plan)
	if err != nil || !found {
		t.Fatal(found, err)
	}
	o, err := course.Run(piece)
	if err != nil {
		t.Fatal(err)
	}
	if o.Yield.Malt.Kg() != plan.MaltKg {
		t.Errorf("%g kg of malt, and the plan said %g", o.Yield.Malt.Kg(), plan.MaltKg)
	}
	wet := plan.Curve.Readings[programme.Moisture.Key()]
	if n := len(wet) * plan.Curve.EveryMin; math.Abs(float64(n)/60-o.Curve.TimeH[len(o.Curve.TimeH)-1]) > 0.34 {
		t.Errorf("the curve has %d minutes", n)
	}
	if x := *wet[6*20]; math.Abs(x-at(o, 20, programme.Moisture)) > 2e-5 {
		t.Errorf("after 20 h %g, and the course says %g", x, at(o, 20, programme.Moisture))
	}
}

// at is the last moment of the course until an hour.
func at(o *course.Outcome, h float64, r programme.Reading) (x float64) {
	for i, t := range o.Curve.TimeH {
		if t <= h {
			x = o.Curve.At[i][r]
		}
	}
	return x
}

func TestAForecastFollowsWhatWasDoneAndMeasured(t *testing.T) {
	h, floor, cast := house(t)
	plan, err := h.Plan(t.Context(), floor, "P26-0001")
	if err != nil {
		t.Fatal(err)
	}
	piece, _, err := expect.Piece(t.Context(), h, plan)
	if err != nil {
		t.Fatal(err)
	}
	piece.Grid = course.Grid{GerminateLayers: 5, KilnLayers: 15}
	drawn, err := expect.Draw(t.Context(), piece, 200, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	anew := func(now time.Time) expect.Forecast {
		v, err := h.Piece(t.Context(), floor, "P26-0001")
		if err != nil {
			t.Fatal(err)
		}
		return expect.Anew(v, drawn, now, (*course.Ensemble).Given)
	}
	first := anew(cast.Add(time.Hour))
	if len(first.Next) == 0 || first.Next[0].Stage != course.Steep || !first.Next[0].At.After(cast) || math.Abs(first.Effective-200) > 1e-6 {
		t.Fatalf("%+v, resting on %g", first.Next[:1], first.Effective)
	}
	steep := drawn.Outcome.Stages[0]
	couched := cast.Add(time.Duration((steep.ToH - steep.FromH + 5) * float64(time.Hour))).Truncate(time.Minute)
	late := anew(couched)
	if late.Next[0].Over <= 0 {
		t.Errorf("nothing is overdue: %+v", late.Next[0])
	}
	enter(t, h, floor, couched, &slip.Act{Piece: "P26-0001", Act: "couch", Vessel: "box 1"})
	turned := couched.Add(12 * time.Hour)
	if n := anew(turned.Add(-time.Hour)).Next[0]; n.Step != expect.Turn || !n.At.Equal(turned) || n.Over != 0 {
		t.Errorf("the programme turns every 12 h, and next comes %+v", n)
	}
	if n := anew(turned.Add(2 * time.Hour)).Next[0]; n.Step != expect.Turn || n.Over != 2*time.Hour {
		t.Errorf("a turn that nobody made is %+v", n)
	}
	enter(t, h, floor, turned.Add(3*time.Hour), &slip.Act{Piece: "P26-0001", Act: "turn"})
	if n := anew(turned.Add(4 * time.Hour)).Next[0]; n.Step != expect.Turn || !n.At.Equal(turned.Add(15*time.Hour)) {
		t.Errorf("after a late turn the next is %+v", n)
	}
	look := couched.Add(30 * time.Hour)
	before := anew(look)
	low, mid, high := before.Band(look.Add(24*time.Hour), programme.Acrospire)
	enter(t, h, floor, look, &slip.Read{Thing: "P26-0001", Results: []string{"acrospire 0.6", "moisture 44.5 % wb"}})
	after := anew(look)
	newLow, newMid, newHigh := after.Band(look.Add(24*time.Hour), programme.Acrospire)
	if len(after.Found) != 2 || !(after.Effective < 200) {
		t.Fatalf("%d readings were taken, and %g draws count", len(after.Found), after.Effective)
	}
	if a := after.Astray; len(a) != 1 || a[0].Of != programme.Acrospire || !(a[0].P90 < 0.5) {
		t.Errorf("growth is twice what was expected, and moisture as it should be: %+v", a)
	}
	if _, p50, _ := before.Band(look, programme.Acrospire); (0.6 > p50) != (newMid > mid) && newMid != mid {
		t.Errorf("a reading of 0.6 where %g was expected moves what comes from %g to %g", p50, mid, newMid)
	}
	if newHigh-newLow > high-low {
		t.Errorf("the band widens from %g to %g", high-low, newHigh-newLow)
	}
	enter(t, h, floor, look.Add(time.Hour), &slip.Read{Thing: "P26-0001", Results: []string{"temperature 26 °C"}})
	if a := anew(look.Add(time.Hour)).Astray; len(a) != 2 || a[0].Of != programme.TempMean || a[0].Value != 26 || !(a[0].P90 < 25) {
		t.Errorf("a bed of 26 °C: %+v", a)
	}
	for _, n := range after.Next {
		if n.Stage == course.Steep {
			t.Errorf("the steep is over, and %s is asked for", n.Step)
		}
	}
	if b := after.Begun; !b[0].Fact || !b[1].Fact || b[2].Fact || !b[1].At.Equal(couched) {
		t.Errorf("stages begun: %+v", b)
	}
}
