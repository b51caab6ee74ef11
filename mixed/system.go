package mixed

import (
	"math"
	"slices"
)

// block is the columns of one term or covariate in the equations.
type block struct {
	name   string
	random bool
	first  int
	levels int
	term   int // place in Model.Terms; -1 for the mean and covariates
}

// system is Henderson's equations of a model, scaled by the residual variance:
//
//	(W'W + D) s = W'y,   D = residual / variance for random columns, 0 for fixed
//
// Terms of many levels come first: that keeps the factor sparse. Observations
// are counted from their mean in units of their standard deviation, covariates
// likewise.
type system struct {
	model  Model
	blocks []block
	random []int // blocks that are random, in the order of the model

	columns [][]int // for each term block, the column of each observation
	dense   []denseColumn

	y            []float64
	mean, scale  float64
	weight       []float64
	logWeights   float64
	yy           float64
	a            rows
	rhs          []float64
	factor       *factor
	mayDrop      []bool
	diagonal     []float64
	rank         int // of the fixed part
	inverseSpace []float64
}

// denseColumn is a covariate, centred and scaled.
type denseColumn struct {
	column int
	x      []float64
	scale  float64
}

func newSystem(m Model) (*system, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	s := &system{model: m}
	if err := s.standardise(); err != nil {
		return nil, err
	}
	s.place()
	s.assemble()
	s.factor = analyse(&s.a)
	for i := range s.diagonal {
		if !s.mayDrop[i] {
			s.diagonal[i] = 1 // any penalty will do to see which fixed columns depend on others
		}
	}
	if !s.factor.compute(&s.a, s.diagonal, s.mayDrop, true) {
		return nil, &Error{Singular, ""}
	}
	for i, may := range s.mayDrop {
		if may && !s.factor.dropped[i] {
			s.rank++
		}
	}
	if s.freedom() <= 0 {
		return nil, &Error{NoFreedom, ""}
	}
	return s, nil
}

// freedom is how many observations are left over after the fixed part.
func (s *system) freedom() int { return len(s.y) - s.rank }

func (s *system) standardise() error {
	n := len(s.model.Y)
	s.weight = s.model.Weight
	if s.weight == nil {
		s.weight = slices.Repeat([]float64{1}, n)
	}
	s.y, s.mean, s.scale = centred(s.model.Y)
	if !(s.scale > 1e-12*math.Abs(s.mean)) {
		return &Error{Constant, ""}
	}
	for i, w := range s.weight {
		s.logWeights += math.Log(w)
		s.yy += w * s.y[i] * s.y[i]
	}
	return nil
}

// centred returns x less its mean, in units of its standard deviation.
func centred(x []float64) (out []float64, mean, scale float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		scale += (v - mean) * (v - mean) / float64(len(x))
	}
	scale = math.Sqrt(scale)
	out = make([]float64, len(x))
	for i, v := range x {
		if scale > 0 {
			out[i] = (v - mean) / scale
		}
	}
	return out, mean, scale
}

// meanName is the block of the mean where no fixed term holds it.
const meanName = "mean"

// place gives each term its columns.
func (s *system) place() {
	order := make([]int, len(s.model.Terms))
	fixed := false
	for i, t := range s.model.Terms {
		order[i] = i
		fixed = fixed || !t.Random
	}
	slices.SortStableFunc(order, func(i, j int) int { return s.model.Terms[j].Levels - s.model.Terms[i].Levels })
	at := 0
	for _, i := range order {
		t := s.model.Terms[i]
		b := block{t.Name, t.Random, at, t.Levels, i}
		columns := make([]int, len(t.Level))
		for o, l := range t.Level {
			columns[o] = at + l
		}
		s.blocks, s.columns = append(s.blocks, b), append(s.columns, columns)
		at += t.Levels
	}
	if !fixed {
		s.blocks = append(s.blocks, block{meanName, false, at, 1, -1})
		s.columns = append(s.columns, slices.Repeat([]int{at}, len(s.y)))
		at++
	}
	for _, c := range s.model.Covariates {
		x, _, scale := centred(c.X)
		s.blocks = append(s.blocks, block{c.Name, false, at, 1, -1})
		s.dense = append(s.dense, denseColumn{at, x, scale})
		at++
	}
	for i := range s.model.Terms {
		if s.model.Terms[i].Random {
			s.random = append(s.random, slices.Index(order, i))
		}
	}
	s.mayDrop, s.diagonal, s.rhs = make([]bool, at), make([]float64, at), make([]float64, at)
	for _, b := range s.blocks {
		for l := range b.levels {
			s.mayDrop[b.first+l] = !b.random
		}
	}
}

// assemble sums W'W and W'y.
func (s *system) assemble() {
	n := len(s.rhs)
	members := make([][]int, n)
	for _, columns := range s.columns {
		for o, c := range columns {
			members[c] = append(members[c], o)
		}
	}
	s.timesDesign(s.y, s.rhs)
	sum, mark := make([]float64, n), make([]int, n)
	s.a.start = make([]int, 1, n+1)
	for j := range n {
		var touched []int
		add := func(i int, v float64) {
			if i > j {
				return
			}
			if mark[i] != j+1 {
				mark[i], sum[i] = j+1, 0
				touched = append(touched, i)
			}
			sum[i] += v
		}
		add(j, 0) // a level that nothing belongs to still has its diagonal
		s.eachIn(j, members[j], add)
		slices.Sort(touched)
		for _, i := range touched {
			s.a.column, s.a.value = append(s.a.column, i), append(s.a.value, sum[i])
		}
		s.a.start = append(s.a.start, len(s.a.column))
	}
}

// eachIn calls add with every column that shares an observation with column j,
// and the product of the two there.
func (s *system) eachIn(j int, members []int, add func(int, float64)) {
	for _, d := range s.dense {
		if d.column != j {
			continue
		}
		for o, x := range d.x {
			s.across(o, s.weight[o]*x, add)
		}
	}
	for _, o := range members {
		s.across(o, s.weight[o], add)
	}
}

// across calls add with each column of observation o.
func (s *system) across(o int, times float64, add func(int, float64)) {
	for _, columns := range s.columns {
		add(columns[o], times)
	}
	for _, d := range s.dense {
		add(d.column, times*d.x[o])
	}
}

// timesDesign puts W'Rx in into, R the weights.
func (s *system) timesDesign(x, into []float64) {
	clear(into)
	for _, columns := range s.columns {
		for o, c := range columns {
			into[c] += s.weight[o] * x[o]
		}
	}
	for _, d := range s.dense {
		for o, v := range d.x {
			into[d.column] += s.weight[o] * v * x[o]
		}
	}
}

// fitted puts W s in into.
func (s *system) fitted(solution, into []float64) {
	clear(into)
	for _, columns := range s.columns {
		for o, c := range columns {
			into[o] += solution[c]
		}
	}
	for _, d := range s.dense {
		for o, v := range d.x {
			into[o] += v * solution[d.column]
		}
	}
}
