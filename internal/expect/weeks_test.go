package expect_test

import (
	"context"
	"math"
	"testing"
	"time"

	"awn/course"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/slip"
	"awn/schedule"
)

func undrawn(context.Context, *malthouse.Plan) (*course.Ensemble, error) { return nil, nil }

// A piece under way ends its stages when the course of its plan says, and one
// that is intended for its vessel before that is a double booking.
func TestWeeksFollowTheCourse(t *testing.T) {
	h, planner, cast := house(t)
	ctx := t.Context()
	h.Clock, h.Zone = func() time.Time { return cast.Add(10 * time.Hour) }, time.UTC
	plan, err := h.Plan(ctx, planner, "P26-0001")
	if err != nil {
		t.Fatal(err)
	}
	kept, err := h.KeepPlan(ctx, planner, malthouse.Entry{}, "pale", withTexts(t, h, plan))
	if err != nil {
		t.Fatal(err, kept)
	}
	piece, _, err := expect.Piece(ctx, h, plan)
	if err != nil {
		t.Fatal(err)
	}
	o, err := course.Run(piece)
	if err != nil {
		t.Fatal(err)
	}
	steepH := o.Stages[0].ToH
	text := func(at time.Time) string { return at.Format("2006-01-02 15:04") }
	enter(t, h, planner, cast, &slip.Intend{Begin: text(cast.Add(30 * time.Hour)), Plan: "pale", Vessel: "steep 1", Box: "box 2", Order: "X", Due: text(cast.AddDate(0, 0, 40))})
	enter(t, h, planner, cast, &slip.Intend{Begin: text(cast.Add(80 * time.Hour)), Plan: "pale", Vessel: "steep 1", Box: "box 3", Order: "X", Due: text(cast.AddDate(0, 0, 20))})
	from := cast.Truncate(24 * time.Hour)
	w, err := expect.Through(ctx, h, planner, from, from.AddDate(0, 0, 42), undrawn, (*course.Ensemble).Given)
	if err != nil {
		t.Fatal(err)
	}
	if len(w.Runs) != 3 || w.Of[0].Piece != "P26-0001" || !w.Runs[2].Meant {
		t.Fatalf("%+v", w.Of)
	}
	begun := cast.Sub(from).Hours()
	for i, leg := range w.Runs[0].Legs[:3] {
		if math.Abs(leg.To.H-begun-o.Stages[i].ToH) > 1e-6 {
			t.Errorf("%s ends %g h after the cast, and the course says %g", leg.Road, leg.To.H-begun, o.Stages[i].ToH)
		}
	}
	if rest := w.Runs[0].Legs[3]; math.Abs(rest.To.H-rest.From.H-24*piece.Programme.RestD) > 1e-6 {
		t.Errorf("it rests %g h", rest.To.H-rest.From.H)
	}
	if len(w.Clashes) != 1 {
		t.Fatalf("%+v", w.Clashes)
	}
	c := w.Clashes[0]
	if c.Vessel.Name != "steep 1" || c.First != 0 || c.Second != 1 || !c.Certainly || c.From != begun+30 || math.Abs(c.To-begun-steepH) > 1e-6 {
		t.Errorf("%+v", c)
	}
	ready := begun + 80 + o.Stages[2].ToH + 24*piece.Programme.RestD
	if len(w.Orders) != 1 || w.Orders[0].DueH != begun+480 || math.Abs(w.Orders[0].Ready.H-ready) > 1e-6 || w.Orders[0].InTime.Hits != 0 {
		t.Errorf("%+v, ready should be %g", w.Orders, ready)
	}
	drawn, err := expect.Draw(ctx, piece, 40, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	w, err = expect.Through(ctx, h, planner, from, from.AddDate(0, 0, 42), func(context.Context, *malthouse.Plan) (*course.Ensemble, error) { return drawn, nil }, (*course.Ensemble).Given)
	if err != nil {
		t.Fatal(err)
	}
	last := -1.0
	for _, leg := range w.Runs[1].Legs[:3] {
		if hem := leg.To.HighH - leg.To.LowH; !(hem > 0) || leg.To.LowH > leg.To.H || leg.To.H > leg.To.HighH {
			t.Errorf("%s ends %+v", leg.Road, leg.To)
		} else {
			last = max(last, hem)
		}
	}
	if last <= 0 || len(w.Runs[1].Ready) != 40-drawn.Failed {
		t.Errorf("%d draws of when it is ready", len(w.Runs[1].Ready))
	}
}

// What was done stands as it was done, and a piece without a plan stays until
// nobody knows when.
func TestWeeksTellWhatWasDone(t *testing.T) {
	h, floor, cast := house(t)
	h.Clock, h.Zone = func() time.Time { return cast.Add(60 * time.Hour) }, time.UTC
	enter(t, h, floor, cast.Add(41*time.Hour), &slip.Act{Piece: "P26-0001", Act: "couch", Vessel: "box 1"})
	enter(t, h, floor, cast.Add(-time.Hour), &slip.Receive{Net: "30 t", Silo: "B8", Weighing: slip.Weighing{Moisture: "11.8 % wb"}})
	enter(t, h, floor, cast.Add(50*time.Hour), &slip.Start{From: []string{"B8 30 t"}, Piece: "P26-0002", Vessel: "steep 1"})
	from := cast.Truncate(24 * time.Hour)
	w, err := expect.Through(t.Context(), h, floor, from, from.AddDate(0, 0, 42), undrawn, (*course.Ensemble).Given)
	if err != nil {
		t.Fatal(err)
	}
	begun := cast.Sub(from).Hours()
	steep := w.Runs[0].Legs[0]
	if !steep.Ended || steep.To != schedule.At(begun+41) || steep.Vessel != "steep 1" || w.Runs[0].Legs[1].Vessel != "box 1" || !w.Runs[0].Legs[1].Begun {
		t.Errorf("%+v", w.Runs[0].Legs)
	}
	if legs := w.Runs[1].Legs; len(legs) != 1 || !legs[0].Open || len(w.Runs[1].Ready) != 0 || !w.Of[1].Planless {
		t.Errorf("%+v", legs)
	}
	if len(w.Clashes) != 0 {
		t.Errorf("%+v", w.Clashes)
	}
}

// withTexts is a plan with the documents it rests on.
func withTexts(t *testing.T, h *malthouse.House, p *malthouse.Plan) malthouse.Plan {
	t.Helper()
	out := *p
	for i := range out.Inputs {
		text, err := h.Desk.Document(t.Context(), out.Inputs[i].SHA256)
		if err != nil {
			t.Fatal(err)
		}
		out.Inputs[i].Text = text
	}
	return out
}
