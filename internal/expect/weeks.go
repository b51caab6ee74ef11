package expect

import (
	"context"
	"math"
	"slices"
	"strings"
	"time"

	"awn/course"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/ledger"
	"awn/schedule"
)

// Weeks is every piece of a house on its way through the vessels: those that
// are done, those under way and those that are intended.
type Weeks struct {
	From, To, Now time.Time
	Runs          []schedule.Run
	Of            []Stands // what each run is in the record
	Vessels       []schedule.Vessel
	Clashes       []schedule.Clash
	Gaps          []schedule.Gap
	Orders        []schedule.Order
}

// Stands is what a run is in the record.
type Stands struct {
	Piece     ledger.Code   // "" of one that is intended
	Intention ledger.FactID // that it carries out, or is
	Planless  bool          // nobody worked out what it does
}

// Drawn gives the draws of a plan; nil where there are none, and then the plan
// stands as it was worked out.
type Drawn func(context.Context, *malthouse.Plan) (*course.Ensemble, error)

// How long before the weeks a piece may have been cast and still reach into
// them, and the shortest gap that is worth a line.
const (
	reaches   = 45 * 24 * time.Hour
	leastGapH = 24
)

// Through gathers the pieces that are in the house between two moments.
func Through(ctx context.Context, h *malthouse.House, a malthouse.Actor, from, to time.Time, drawn Drawn, weigh Weigh) (*Weeks, error) {
	w := &Weeks{From: from, To: to, Now: h.Clock().In(h.Zone)}
	all, err := h.Pieces(ctx, a)
	if err != nil {
		return nil, err
	}
	for _, p := range slices.Backward(all) {
		if cast := time.UnixMilli(p.Cast.Fact.At); p.Underway() || cast.After(from.Add(-reaches)) && cast.Before(to) {
			if err := w.piece(ctx, h, a, p, drawn, weigh); err != nil {
				return nil, err
			}
		}
	}
	meant, err := h.Intentions(ctx, a)
	if err != nil {
		return nil, err
	}
	for _, m := range meant {
		if err := w.intended(ctx, h, a, m, drawn); err != nil {
			return nil, err
		}
	}
	if w.Vessels, err = w.vessels(ctx, h, a); err != nil {
		return nil, err
	}
	w.Clashes = schedule.Clashes(w.Runs, w.Vessels)
	w.Gaps = schedule.Gaps(w.Runs, w.Vessels, max(w.hour(w.Now), 0), w.hour(to), leastGapH)
	w.Orders = schedule.Orders(w.Runs)
	return w, nil
}

// hour is a moment on the axis of the weeks.
func (w *Weeks) hour(t time.Time) float64 { return t.Sub(w.From).Hours() }

// Time is an hour of the axis.
func (w *Weeks) Time(hour float64) time.Time { return w.From.Add(hours(hour)) }

// onRoad are the stages of a course that have vessels.
var onRoad = []struct {
	road  schedule.Road
	stage course.Stage
}{{schedule.Steep, course.Steep}, {schedule.Germinate, course.Germinate}, {schedule.Kiln, course.Kiln}}

// way is how a piece is brought onto the axis.
type way struct {
	plan   *malthouse.Plan
	drawn  *course.Ensemble
	began  map[schedule.Road]time.Time // by the record
	vessel map[schedule.Road]string    // by the record, else as it is meant
	from   time.Time                   // of one that is intended
}

// intended brings a piece onto the axis that is to be cast. One whose time has
// passed can begin now at the earliest.
func (w *Weeks) intended(ctx context.Context, h *malthouse.House, a malthouse.Actor, m malthouse.Entered[*ledger.Intention], drawn Drawn) (err error) {
	b := m.Body
	on := way{vessel: map[schedule.Road]string{schedule.Steep: b.Vessel, schedule.Germinate: b.Box, schedule.Kiln: b.Kiln}, from: time.UnixMilli(int64(b.Begin))}
	if on.from.Before(w.Now) {
		on.from = w.Now
	}
	if on.plan, err = h.PlanAt(ctx, a, b.Plan); err != nil {
		return err
	}
	if on.drawn, err = drawn(ctx, on.plan); err != nil {
		return err
	}
	run := w.run(on)
	run.Name, run.Meant = b.Order, true
	w.order(&run, b)
	w.Runs, w.Of = append(w.Runs, run), append(w.Of, Stands{Intention: ledger.FactID(m.Fact.ID)})
	return nil
}

// piece brings a piece of the record onto the axis.
func (w *Weeks) piece(ctx context.Context, h *malthouse.House, a malthouse.Actor, p malthouse.PieceLine, drawn Drawn, weigh Weigh) error {
	v, err := h.Piece(ctx, a, p.Code)
	if err != nil {
		return err
	}
	on := way{began: map[schedule.Road]time.Time{}, vessel: map[schedule.Road]string{}}
	stands := Stands{Piece: p.Code, Intention: p.Cast.Body.Does}
	var meant *ledger.Intention
	if stands.Intention != "" {
		if meant, err = h.Intention(ctx, a, stands.Intention); err != nil {
			return err
		}
		on.vessel[schedule.Germinate], on.vessel[schedule.Kiln] = meant.Box, meant.Kiln
	}
	on.told(v)
	if on.plan, err = h.Plan(ctx, a, p.Code); err != nil {
		return err
	}
	if on.plan != nil && p.Underway() {
		if on.drawn, err = drawn(ctx, on.plan); err != nil {
			return err
		}
		if on.drawn != nil {
			on.drawn = Anew(v, on.drawn, w.Now, weigh).Drawn
		}
	}
	stands.Planless = on.plan == nil
	run := w.run(on)
	run.Name = string(p.Code)
	w.order(&run, meant)
	w.Runs, w.Of = append(w.Runs, run), append(w.Of, stands)
	return nil
}

// order says what a run is for.
func (w *Weeks) order(run *schedule.Run, b *ledger.Intention) {
	run.Due = math.NaN()
	if b == nil {
		return
	}
	if run.Order = b.Order; b.Due != 0 {
		run.Due = w.hour(time.UnixMilli(int64(b.Due)))
	}
}

// told takes over what was done to a piece.
func (on *way) told(v malthouse.PieceView) {
	for _, t := range v.Told {
		if t.Struck {
			continue
		}
		at := time.UnixMilli(t.Fact.At)
		begin := func(r schedule.Road, vessel string) {
			if _, before := on.began[r]; !before {
				on.began[r] = at
			}
			if vessel != "" {
				on.vessel[r] = vessel
			}
		}
		switch b := t.Body.(type) {
		case *ledger.Casting:
			begin(schedule.Steep, b.Vessel)
		case *ledger.Couching:
			begin(schedule.Germinate, b.Vessel)
		case *ledger.Kilning:
			begin(schedule.Kiln, b.Vessel)
		case *ledger.Stripping:
			begin(schedule.Store, "")
		case *ledger.Dressing:
			begin(schedule.Store, "")
		}
	}
}

// vessels are those of the plant that the house keeps, and all others that a
// run names.
func (w *Weeks) vessels(ctx context.Context, h *malthouse.House, a malthouse.Actor) ([]schedule.Vessel, error) {
	var out []schedule.Vessel
	text, found, err := h.Kept(ctx, a, "plant")
	if err != nil {
		return nil, err
	}
	if found {
		p, faults := paper.Read[paper.Plant]("plant.yaml", text)
		if len(faults) == 0 {
			out = plantVessels(p)
		}
	}
	for _, r := range w.Runs {
		for _, l := range r.Legs {
			if !slices.ContainsFunc(out, func(v schedule.Vessel) bool { return v.Road == l.Road && v.Name == l.Vessel }) {
				out = append(out, schedule.Vessel{Road: l.Road, Name: l.Vessel, Room: 1})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b schedule.Vessel) int {
		if a.Road != b.Road {
			return int(a.Road) - int(b.Road)
		}
		return strings.Compare(a.Name, b.Name)
	})
	return out, nil
}

// plantVessels are those of a plant. A kiln of two decks takes a piece on each.
func plantVessels(p paper.Plant) (out []schedule.Vessel) {
	for _, s := range p.Steeps {
		out = append(out, schedule.Vessel{Road: schedule.Steep, Name: s.Name, Room: 1})
	}
	for _, g := range p.Germinators {
		out = append(out, schedule.Vessel{Road: schedule.Germinate, Name: g.Name, Room: 1})
	}
	for _, k := range p.Kilns {
		room := 1
		if k.Decks != nil {
			room = 2
		}
		out = append(out, schedule.Vessel{Road: schedule.Kiln, Name: k.Name, Room: room})
	}
	return out
}
