package course

import (
	"context"
	"math"
	"math/rand/v2"

	"awn/malt"
	"awn/odds"
)

// Driver is what drives one line of the specification.
type Driver struct {
	Line int
	Log  bool // of the figure's logarithm, where that is explained and the figure itself is not
	odds.Explained
}

const (
	// regressed is how many draws a regression rests on at most: more sharpen
	// its error bars, which are then narrow already.
	regressed = 400
	// bends is the degree of the polynomials of each input.
	bends = 3
)

// drivers says of each line of the specification which inputs drive its figure,
// each by itself. Where a regression explains too little, R2 says so, and the
// shares are not to be shown.
func (e *Ensemble) drivers() []Driver {
	n := min(len(e.drawn), regressed)
	inputs := make([][]float64, len(e.inputs()))
	for j := range inputs {
		inputs[j] = make([]float64, n)
		for i := range n {
			inputs[j][i] = e.drawn[i].inputs[j]
		}
	}
	var out []Driver
	for i, line := range e.Lines {
		if line.Unsaid > 0 {
			continue
		}
		y := e.column(func(s *sample) float64 { return s.limits[i] })[:n]
		d := Driver{Line: i, Explained: odds.Explain(y, inputs, bends)}
		if logs, ok := logarithms(y); ok && !d.Good() {
			if e := odds.Explain(logs, inputs, bends); e.R2 > d.R2 {
				d.Log, d.Explained = true, e
			}
		}
		out = append(out, d)
	}
	return out
}

// logarithms are those of figures that are all above nothing.
func logarithms(y []float64) ([]float64, bool) {
	out := make([]float64, len(y))
	for i, x := range y {
		if !(x > 0) {
			return nil, false
		}
		out[i] = math.Log(x)
	}
	return out, true
}

// inputs are what was drawn, in the order in which shares count them.
func (e *Ensemble) inputs() []Input {
	out := make([]Input, len(e.scheme.inputs[e.number]))
	for i, u := range e.scheme.inputs[e.number] {
		out[i] = u.Input
	}
	return out
}

// Total is how much of the variance of the lines of a specification would go if
// a group of inputs were known.
type Total struct {
	Group             Group
	Shares, Deviation []float64 // by line; NaN where it cannot be said
}

// totalDraws is how many draws a total share rests on at most.
const totalDraws = 160

// Totals draws each group of inputs anew in the first draws, all others held. It
// takes a run for each draw and group but the model's own, which costs none. A
// context that ends stops it, with what was done.
func (e *Ensemble) Totals(ctx context.Context, workers int, told func(done, of int)) ([]Total, error) {
	s := e.scheme
	n := min(len(e.drawn), totalDraws)
	other, err := odds.NewPoints(s.size, e.Seed+1)
	if err != nil {
		return nil, err
	}
	order := rand.New(rand.NewPCG(e.Seed, uint64(s.size))).Perm(n)
	groups := e.groups()
	moved := make([]sample, n*len(groups))
	done := inParallel(ctx, len(moved), workers, func(task int) {
		g, i := task/n, task%n
		u, v := make([]float64, s.size), make([]float64, s.size)
		s.points.At(e.draw[i], u)
		other.At(order[i], v)
		for k, in := range s.inputs[e.number] {
			if in.Group == groups[g] {
				u[s.place[e.number][k]] = v[s.place[e.number][k]]
			}
		}
		moved[task] = e.moved(groups[g], i, u)
	}, func(done int) {
		if told != nil {
			told(done, len(moved))
		}
	})
	if done < len(moved) {
		return nil, ctx.Err()
	}
	out := make([]Total, len(groups))
	for g := range groups {
		out[g] = e.total(groups[g], moved[g*n:(g+1)*n])
	}
	return out, nil
}

// groups are those of which the piece has an input.
func (e *Ensemble) groups() []Group {
	has := map[Group]bool{}
	for _, in := range e.inputs() {
		has[in.Group] = true
	}
	var out []Group
	for _, g := range Groups() {
		if has[g] {
			out = append(out, g)
		}
	}
	return out
}

// moved is draw number i at another point. What the model may be off by changes
// no run.
func (e *Ensemble) moved(g Group, i int, u []float64) sample {
	if g != OfModel {
		return e.scheme.sample(e.number, u)
	}
	t, _ := e.scheme.trial(e.number, u)
	var out sample
	out.judge(e.Outcome.Piece.Specification, shifted(e.drawn[i].raw, t.off))
	return out
}

// total is the share of a group, by line. A draw that could not be computed with
// the group drawn anew is left out.
func (e *Ensemble) total(g Group, moved []sample) Total {
	t := Total{Group: g}
	for line := range e.Lines {
		var base, anew []float64
		for i := range moved {
			if moved[i].fault == nil && moved[i].passes[line] != malt.CannotSay && e.drawn[i].passes[line] != malt.CannotSay {
				base, anew = append(base, e.drawn[i].limits[line]), append(anew, moved[i].limits[line])
			}
		}
		share, deviation := odds.TotalShare(base, anew)
		t.Shares, t.Deviation = append(t.Shares, share), append(t.Deviation, deviation)
	}
	return t
}
