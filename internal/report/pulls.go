package report

import (
	"cmp"
	"slices"

	"awn/course"
	"awn/internal/draw"
)

// Pull is how one step of a programme is set in a form.
type Pull struct {
	For   string // field of how long it is
	Turn  string // field of the time between turns, "" where nobody turns
	Until string // what it waits for, as it is written; then it cannot be pulled
}

// How long a step and the time between two turns may be, as a programme has it.
const (
	leastStepH, mostStepH = 1.0 / 60, 14 * 24.0
	leastTurnH, mostTurnH = 1.0, 4 * 24.0
)

// handles are the moments of the course that the programme sets.
func (r Report) handles() (out []draw.Handle) {
	for _, s := range r.Outcome.Stages {
		names := r.falls(s)
		for i, p := range r.Pulls[s.Stage] {
			if i >= len(s.Steps) {
				break
			}
			step := s.Steps[i]
			out = append(out, r.handle(draw.Handle{
				AtH: step.ToH, FromH: step.FromH, LeastH: leastStepH, MostH: mostStepH, Field: p.For, Word: names[i],
			}, p.Until))
			if turnH := r.turnH(s.Stage, i); p.Turn != "" && turnH > 0 && step.FromH+turnH < step.ToH {
				out = append(out, r.handle(draw.Handle{
					AtH: step.FromH + turnH, FromH: step.FromH, LeastH: leastTurnH, MostH: mostTurnH, Field: p.Turn, Word: r.Units.Say("pull.turn"),
				}, ""))
			}
		}
	}
	slices.SortStableFunc(out, func(a, b draw.Handle) int { return cmp.Compare(a.AtH, b.AtH) })
	return out
}

// turnH is the time between turns in a step.
func (r Report) turnH(s course.Stage, step int) float64 {
	if g := r.Outcome.Piece.Programme.Germinate; s == course.Germinate && step < len(g) {
		return g[step].TurnEvH
	}
	return 0
}

// handle says what a handle is, and why it cannot be pulled if it waits for
// something.
func (r Report) handle(h draw.Handle, until string) draw.Handle {
	at := r.figure("h", h.AtH)
	if until != "" {
		h.Field, h.Says = "", r.Units.Say("pull.waits", "what", h.Word, "hour", at, "until", until)
		return h
	}
	h.Says = r.Units.Say("pull.at", "what", h.Word, "hour", at)
	return h
}

// falls is what falls at the end of each step of a stage.
func (r Report) falls(s course.StageOutcome) []string {
	u, out, under := r.Units, make([]string, len(s.Steps)), 0
	count := func(n int) string { return u.Number(float64(n), 0) }
	for i, step := range s.Steps {
		next := ""
		if i+1 < len(s.Steps) {
			next = s.Steps[i+1].Name
		}
		switch {
		case s.Stage == course.Germinate && next == "":
			out[i] = u.Say("pull.load")
		case s.Stage == course.Germinate:
			out[i] = u.Say("pull.growth", "number", count(i+2))
		case s.Stage == course.Kiln && next == "":
			out[i] = u.Say("pull.strip")
		case s.Stage == course.Kiln:
			out[i] = u.Say("pull.begin", "what", next)
		case step.Name == "immersion":
			under++
			out[i] = u.Say("pull.drain", "number", count(under))
		case next == "immersion":
			out[i] = u.Say("pull.fill", "number", count(under+1))
		case next == "" || next == "transfer":
			out[i] = u.Say("pull.cast")
		default:
			out[i] = u.Say("pull.begin", "what", u.Step(next))
		}
	}
	return out
}

// waiting says in a sentence which moments nobody can pull, and for what they
// wait.
func (r Report) waiting() string {
	var list []string
	for _, s := range r.Outcome.Stages {
		names := r.falls(s)
		for i, p := range r.Pulls[s.Stage] {
			if p.Until != "" && i < len(names) {
				list = append(list, r.Units.Say("pull.item", "what", names[i], "until", p.Until))
			}
		}
	}
	if len(list) == 0 {
		return ""
	}
	return " " + r.Units.Say("pull.waiting", "list", r.Units.List(list))
}
