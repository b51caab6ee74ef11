package expect

import (
	"context"
	"math"
	"slices"
	"time"

	"awn/course"
	"awn/internal/malthouse"
	"awn/ledger"
	"awn/programme"
)

// Forecast is how a piece under way is expected to go on.
type Forecast struct {
	Code   ledger.Code
	Drawn  *course.Ensemble // given what was measured
	Found  []course.Found   // what was measured, on the time axis of the plan
	Astray []Astray         // the latest of each kind, where it lies outside of what the plan expected
	// Effective is how many draws it rests on; where it is below Few, what was
	// measured lies outside of what was drawn.
	Effective float64
	Begun     []Begun // the stages that are run, in grain order
	Next      []Next  // what the programme asks for from now on
	Now       time.Time
}

// Few is how many draws a forecast must rest on to say something.
const Few = 12

// Astray is a reading outside of what the plan expected then eight times in ten,
// by more than the reading itself may be off.
type Astray struct {
	course.Found
	P10, P90 float64
}

// Begun is when a stage began, or is expected to.
type Begun struct {
	Stage course.Stage
	At    time.Time
	Fact  bool // it has begun
}

// Next is something that the programme asks for.
type Next struct {
	Stage course.Stage
	Step  string // that begins then; as the programme calls it
	At    time.Time
	Until programme.Until // that ends the step before; None if it ends by time
	Over  time.Duration   // by how much it is overdue
}

// Coming is something that the programme of a piece asks for.
type Coming struct {
	Piece ledger.Code
	Next
}

// Ahead is what forecasts ask for, at most so many of each, in the order in
// which it falls.
func Ahead(most int, forecasts ...Forecast) (out []Coming) {
	for _, f := range forecasts {
		for _, n := range f.Next[:min(most, len(f.Next))] {
			out = append(out, Coming{f.Code, n})
		}
	}
	slices.SortStableFunc(out, func(a, b Coming) int { return a.At.Compare(b.At) })
	return out
}

// stageOf is the stage that an act begins.
var stageOf = map[ledger.Kind]course.Stage{ledger.Cast: course.Steep, ledger.Couched: course.Germinate, ledger.Kilned: course.Kiln}

// Weigh weighs draws by what was found, as [course.Ensemble.Given] does. It takes
// long; a house that is looked at all the time remembers what came of it.
type Weigh func(*course.Ensemble, []course.Found) (given *course.Ensemble, effective float64)

// Anew works out how a piece goes on from what was done to it and measured of
// it until now. The draws are those of the plan, made before: they do not
// depend on the piece's state, so a house keeps them.
func Anew(v malthouse.PieceView, drawn *course.Ensemble, now time.Time, weigh Weigh) Forecast {
	f := Forecast{Code: v.Piece, Now: now}
	f.Begun = begun(v, drawn.Outcome, now)
	f.Found = f.found(v, drawn.Outcome)
	f.Astray = astray(drawn, f.Found)
	f.Drawn, f.Effective = weigh(drawn, f.Found)
	f.next(v, drawn.Outcome)
	return f
}

// begun is when each stage began, or will: a stage that has not begun follows
// on the one before, but not in the past.
func begun(v malthouse.PieceView, o *course.Outcome, now time.Time) []Begun {
	facts := map[course.Stage]time.Time{}
	for _, t := range v.Told {
		stage, ok := stageOf[t.Fact.Kind]
		if _, before := facts[stage]; ok && !t.Struck && !before {
			facts[stage] = time.UnixMilli(t.Fact.At).In(now.Location())
		}
	}
	out := make([]Begun, len(o.Stages))
	at := now
	for i, s := range o.Stages {
		if was, ok := facts[s.Stage]; ok {
			at = was
			out[i] = Begun{s.Stage, at, true}
		} else {
			if i > 0 && at.Before(now) {
				at = now
			}
			out[i] = Begun{Stage: s.Stage, At: at}
		}
		at = at.Add(hours(s.ToH - s.FromH))
	}
	return out
}

func hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }

func (f Forecast) stage(i int) course.StageOutcome { return f.Drawn.Outcome.Stages[i] }

// hourOf is where a moment lies on the plan's axis: as long after the beginning
// of its stage, and no longer than that stage is.
func (f Forecast) hourOf(o *course.Outcome, at time.Time) (h float64, ok bool) {
	for i := len(f.Begun) - 1; i >= 0; i-- {
		if b := f.Begun[i]; b.Fact && !at.Before(b.At) {
			return min(o.Stages[i].FromH+at.Sub(b.At).Hours(), o.Stages[i].ToH), true
		}
	}
	return 0, false
}

// quantities are the results of a record that a course has too, by their names
// there.
var quantities = map[ledger.Quantity]programme.Reading{
	"moisture_wb": programme.Moisture, "temperature_c": programme.TempMean, "chit": programme.Chit, "acrospire_x": programme.Acrospire,
}

// found is what was measured of the piece while it was under way.
func (f Forecast) found(v malthouse.PieceView, o *course.Outcome) (out []course.Found) {
	for _, t := range v.Told {
		a, ok := t.Body.(*ledger.Analysis)
		if !ok || t.Struck {
			continue
		}
		h, ok := f.hourOf(o, time.UnixMilli(t.Fact.At))
		if !ok {
			continue
		}
		for _, r := range a.Results {
			if of, ok := quantities[r.Quantity]; ok && !r.Less {
				one := course.Found{TimeH: h, Of: of, Value: r.Value}
				if r.U != nil {
					one.U = *r.U
				}
				out = append(out, one)
			}
		}
	}
	return out
}

// next is what the programme asks for: the beginnings of steps that lie after
// the last act, or before now and are not done.
func (f *Forecast) next(v malthouse.PieceView, o *course.Outcome) {
	last := time.Time{}
	for _, t := range v.Told {
		if at := time.UnixMilli(t.Fact.At); !t.Struck && isAct(t.Fact.Kind) && at.After(last) {
			last = at
		}
	}
	for i, s := range o.Stages {
		for k, step := range s.Steps {
			n := Next{Stage: s.Stage, Step: step.Name, At: f.Begun[i].At.Add(hours(step.FromH - s.FromH))}
			runsByItself := s.Stage != course.Steep && k > 0 // nobody enters it
			if k == 0 && f.Begun[i].Fact || !n.At.After(last.Add(slack)) || runsByItself && n.At.Before(f.Now) {
				continue
			}
			if k > 0 {
				n.Until = s.Steps[k-1].Until
			} else if i > 0 {
				n.Until = o.Stages[i-1].Steps[len(o.Stages[i-1].Steps)-1].Until
			}
			if n.At.Before(f.Now) {
				n.Over = f.Now.Sub(n.At)
			}
			f.Next = append(f.Next, n)
		}
	}
	if n, due := f.turn(v, o); due {
		f.Next = append(f.Next, n)
		slices.SortStableFunc(f.Next, func(a, b Next) int { return a.At.Compare(b.At) })
	}
}

// Turn is the name of a turn of the bed among the steps.
const Turn = "turn"

// turn is the next turn of the bed that the programme asks for: so long after
// the latest, or after the beginning of the step.
func (f *Forecast) turn(v malthouse.PieceView, o *course.Outcome) (n Next, due bool) {
	i := slices.IndexFunc(f.Begun, func(b Begun) bool { return b.Stage == course.Germinate })
	if i < 0 || !f.Begun[i].Fact || i+1 < len(f.Begun) && f.Begun[i+1].Fact {
		return n, false
	}
	stage, now := o.Stages[i], f.HourOf(f.Now)
	k := len(stage.Steps) - 1
	for k > 0 && stage.Steps[k].FromH > now {
		k--
	}
	every := o.Piece.Programme.Germinate[k].TurnEvH
	if !(every > 0) {
		return n, false
	}
	last := f.Begun[i].At.Add(hours(stage.Steps[k].FromH - stage.FromH))
	for _, t := range v.Told {
		if at := time.UnixMilli(t.Fact.At); t.Fact.Kind == ledger.Turned && !t.Struck && at.After(last) {
			last = at.In(last.Location())
		}
	}
	n = Next{Stage: course.Germinate, Step: Turn, At: last.Add(hours(every))}
	if n.At.Before(f.Now) {
		n.Over = f.Now.Sub(n.At)
	}
	return n, n.Over > 0 || n.At.Before(f.Begun[i].At.Add(hours(stage.ToH-stage.FromH)))
}

// slack is how much earlier than planned an act may be done and still be the
// one that was planned.
const slack = 90 * time.Minute

func isAct(k ledger.Kind) bool {
	switch k {
	case ledger.Cast, ledger.Immersed, ledger.Drained, ledger.Couched, ledger.Turned, ledger.Sprayed, ledger.Kilned, ledger.Stripped:
		return true
	}
	return false
}

// astray is the latest reading of each kind that lies outside.
func astray(drawn *course.Ensemble, found []course.Found) (out []Astray) {
	latest := map[programme.Reading]course.Found{}
	for _, f := range found {
		if was, there := latest[f.Of]; !there || f.TimeH >= was.TimeH {
			latest[f.Of] = f
		}
	}
	for r := range programme.Readings {
		f, there := latest[r]
		p10, _, p90 := band(drawn, f.TimeH, r)
		if there && (f.Value+f.Doubt() < p10 || f.Value-f.Doubt() > p90) {
			out = append(out, Astray{f, p10, p90})
		}
	}
	return out
}

// Band is the 10th, 50th and 90th percentile of a reading at a moment.
func (f Forecast) Band(at time.Time, r programme.Reading) (p10, p50, p90 float64) {
	return band(f.Drawn, f.HourOf(at), r)
}

// band is the 10th, 50th and 90th percentile at an hour of the plan's axis.
func band(drawn *course.Ensemble, h float64, r programme.Reading) (p10, p50, p90 float64) {
	c := drawn.Curve
	for i := range c.TimeH {
		if c.TimeH[i] >= h {
			return c.P10[i][r], c.P50[i][r], c.P90[i][r]
		}
	}
	return math.NaN(), math.NaN(), math.NaN()
}

// HourOf is where a moment lies on the plan's axis, by when each stage began or
// will; NaN before the first.
func (f Forecast) HourOf(at time.Time) float64 {
	for i := len(f.Begun) - 1; i >= 0; i-- {
		if s := f.stage(i); !at.Before(f.Begun[i].At) {
			return min(s.FromH+at.Sub(f.Begun[i].At).Hours(), s.ToH)
		}
	}
	return math.NaN()
}

// Draw draws the plan of a piece, as a house does once for each plan. Turn may
// be nil.
func Draw(ctx context.Context, piece *course.Piece, draws, workers int, turn func() func()) (*course.Ensemble, error) {
	return course.Draw(ctx, piece, course.Sampling{Draws: draws, Seed: 1, Workers: workers, Turn: turn})
}
