package course

import (
	"fmt"
	"math"

	"awn/barley"
	"awn/finding"
	"awn/programme"
)

var nan = math.NaN()

// vessel is a running stage with what a course asks of it beyond its walk.
type vessel[R any] interface {
	stage[R]
	Shape() *barley.Grain
	Grain(dst *barley.Grain)
	Bed(column int, moistureWB, tempC []float64)
	Lines(dst []barley.Line) []barley.Line
	Findings(dst []finding.Finding) []finding.Finding
}

// plan is a step as the walk sees it.
type plan struct {
	name  string
	until programme.Until
}

// follow takes one stage through its steps and enters what came of it.
func follow[R vessel[R], S any](r *runner, stage Stage, run R, lookH float64, steps []S, begin func(S) error, planOf func(S) plan) error {
	if len(steps) == 0 {
		return fmt.Errorf("%s: the programme has no step", stage)
	}
	hours := 0.0
	for _, s := range steps {
		hours += planOf(s).until.LatestH
	}
	before := take(r.grain)
	out := StageOutcome{Stage: stage, FromH: r.atH}
	rec := newRecorder(r.out, stage, r.atH, hours, int(hours/lookH)+2*len(steps)+2, run.Shape(), run.Bed)
	w := newWalk(run, lookH, rec)
	run.Read(&out.Start)
	for _, s := range steps {
		if err := begin(s); err != nil {
			return err
		}
		p := planOf(s)
		step := StepOutcome{Name: p.name, FromH: r.atH + w.atH, Until: p.until}
		ended, err := w.step(p.until)
		if err != nil {
			return err
		}
		step.ToH, step.Ended = r.atH+w.atH, ended
		run.Read(&step.End)
		out.Steps = append(out.Steps, step)
		r.unmet(stage, step)
	}
	rec.close(w.atH)
	run.Read(&out.End)
	r.grain = run.Shape()
	run.Grain(r.grain)
	r.atH += w.atH
	out.ToH = r.atH
	out.Balance = balance(before, take(r.grain), run.Lines(nil))
	r.out.Stages = append(r.out.Stages, out)
	r.out.Findings = append(r.out.Findings, r.shifted(run.Findings(nil), out.FromH)...)
	return nil
}

// unmet notes a step whose condition its latest time overtook.
func (r *runner) unmet(stage Stage, s StepOutcome) {
	if s.Ended != AtLatest {
		return
	}
	f := finding.New("programme.condition.unmet", finding.Caution, stage.String(),
		finding.Figure{Name: s.Until.Reading.Key(), Value: s.End[s.Until.Reading]},
		finding.Figure{Name: "asked", Value: s.Until.Value},
		finding.Figure{Name: "latest_h", Value: s.Until.LatestH})
	f.AtH, f.Act, f.Chance, f.Cost = s.ToH, "act.programme.later", 0.9, 0.02
	r.out.Findings = append(r.out.Findings, f)
}

// shifted carries findings from a stage's own hours to those of the piece.
func (r *runner) shifted(found []finding.Finding, fromH float64) []finding.Finding {
	for i := range found {
		found[i].Spot = barley.Spot(r.grain.Columns, found[i].Column)
		if found[i].AtH != finding.Nowhere {
			found[i].AtH += fromH
		}
	}
	return found
}

func steepStep(s programme.SteepStep) plan {
	name := [...]string{"immersion", "air-rest", "couch", "drain", "spray", "transfer"}[s.Kind]
	return plan{name, s.Until}
}

func germinateStep(s programme.GerminateStep) plan {
	if s.FanOff {
		return plan{"fan-off", s.Until}
	}
	return plan{"growth", s.Until}
}

func kilnStep(s programme.KilnStep) plan {
	if s.Name == "" {
		return plan{"kilning", s.Until}
	}
	return plan{s.Name, s.Until}
}
