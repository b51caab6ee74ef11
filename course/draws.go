package course

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"

	"awn/brew"
	"awn/malt"
	"awn/odds"
)

// Sampling is how a piece is drawn.
type Sampling struct {
	Draws   int
	Seed    uint64
	Workers int            // 1 where it is not above that
	Told    func(done int) // is told how many are done, from several goroutines but never at once; may be nil

	// Turn waits until a draw may be made, and gives what ends it: so a program
	// that does other things as well can have draws wait. It may be nil.
	Turn func() (end func())
}

// Draw runs a piece again and again, each time with what is not known for
// certain drawn from what it may be. The result depends on the piece, the draws
// and the seed, never on the workers. If the context ends it rests on the draws
// that were made until then, the first so many.
//
// An error means that the piece cannot be computed as it stands. A draw that
// cannot is counted in Failed.
func Draw(ctx context.Context, p *Piece, s Sampling) (*Ensemble, error) {
	all, err := DrawTogether(ctx, []*Piece{p}, s)
	if err != nil {
		return nil, err
	}
	return all[0], nil
}

// DrawTogether draws several pieces on common draws, so that their difference is
// sharper than either: the model, the laboratory and the house are the same in
// each, and so is the lot where it is the same one.
func DrawTogether(ctx context.Context, pieces []*Piece, s Sampling) ([]*Ensemble, error) {
	if s.Draws < 1 {
		return nil, errors.New("an ensemble needs one draw or more")
	}
	sch, err := newScheme(pieces)
	if err != nil {
		return nil, err
	}
	sch.points, err = odds.NewPoints(sch.size, s.Seed)
	if err != nil {
		return nil, fmt.Errorf("too much is uncertain in so many pieces: %w", err)
	}
	for _, p := range pieces {
		o, err := Run(p)
		if err != nil {
			return nil, err
		}
		sch.outcomes = append(sch.outcomes, o)
	}
	drawn := make([][]sample, len(pieces))
	for i := range drawn {
		drawn[i] = make([]sample, s.Draws)
	}
	n := len(pieces)
	done := inParallel(ctx, s.Draws*n, s.Workers, func(task int) {
		if s.Turn != nil {
			defer s.Turn()()
		}
		u := make([]float64, sch.size)
		sch.points.At(task/n, u)
		drawn[task%n][task/n] = sch.sample(task%n, u)
	}, func(done int) {
		if s.Told != nil && done%n == 0 {
			s.Told(done / n)
		}
	}) / n
	out := make([]*Ensemble, n)
	for i := range out {
		out[i] = sch.ensemble(i, drawn[i][:done], s)
	}
	return out, nil
}

// inParallel does tasks 0, 1, 2 ... on several goroutines until all are done or
// the context ends, and returns how many were done: the first so many. Each task
// that was begun is brought to its end.
func inParallel(ctx context.Context, tasks, workers int, do func(task int), told func(done int)) int {
	var next, done atomic.Int64
	var telling sync.Mutex
	var all sync.WaitGroup
	for range max(1, workers) {
		all.Go(func() {
			for ctx.Err() == nil {
				task := int(next.Add(1)) - 1
				if task >= tasks {
					return
				}
				do(task)
				telling.Lock()
				told(int(done.Add(1)))
				telling.Unlock()
			}
		})
	}
	all.Wait()
	return int(done.Load())
}

// sample is what is kept of one draw.
type sample struct {
	fault   error     // why it could not be computed; then the rest is empty
	inputs  []float64 // what was drawn
	numbers []float64
	raw     malt.Analysis // before what the model may be off by
	limits  []float64     // the figure of each limit on its basis; NaN where it cannot be said
	passes  []malt.Word
	meets   bool      // every limit of which something can be said
	curve   []float32 // by stage, moment and reading
}

// sample runs piece number n at the point u.
func (s *scheme) sample(n int, u []float64) sample {
	t, inputs := s.trial(n, u)
	o, err := Run(&t.piece)
	if err != nil {
		return sample{fault: err, inputs: inputs}
	}
	form := s.outcomes[n]
	out := sample{inputs: inputs, raw: o.Malt, curve: resampled(o)}
	a := shifted(o.Malt, t.off)
	c, err := newConstants(t.piece.House.Parameters)
	if err != nil {
		return sample{fault: err, inputs: inputs}
	}
	o.shift(t.off)
	o.Brewed = brew.Of(a, malt.Plato(c.own.BrewedPlato), c.brew)
	_, out.numbers = figuresOf(form, o, a)
	out.judge(form.Piece.Specification, a)
	return out
}

// judge holds the malt of a draw against the specification.
func (s *sample) judge(spec malt.Specification, a malt.Analysis) {
	verdicts := malt.Judge(spec, a)
	s.limits, s.passes = make([]float64, len(verdicts)), make([]malt.Word, len(verdicts))
	for i, v := range verdicts {
		s.limits[i], s.passes[i] = v.Found.Value.Mid, v.Word
	}
	s.meets = malt.Overall(said(verdicts)) == malt.Passes
}
