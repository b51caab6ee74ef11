package mixed

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// Estimate is a figure that the model gives, its standard error and the degrees
// of freedom to judge it by. Value is NaN if the data cannot tell it.
type Estimate struct {
	Value, SE, Freedom float64
}

// Known reports whether the data can tell the figure.
func (e Estimate) Known() bool { return finite(e.Value) }

// Set is the means or effects of the levels of one term, all at once.
type Set struct {
	Term    string
	Value   []float64     // NaN where the data cannot tell
	Error   *mat.SymDense // covariance of the errors of estimation or prediction
	Random  bool
	grams   []*mat.SymDense // by variance, the slopes of Error along it
	inverse *mat.Dense
	theta   []float64
	scale   float64
}

// Means returns for each level of a fixed term its mean, the other fixed terms
// at the plain average of their levels and covariates at their average.
func (f *Fit) Means(term string) (*Set, error) {
	b, err := f.find(term, false)
	if err != nil {
		return nil, err
	}
	return f.set(b, func(l int, x []float64) {
		f.average(x, b.name)
		x[b.first+l] = 1
	}, f.system.mean), nil
}

// Effects returns for each level of a random term what is predicted of it, as a
// difference from the mean. Where the variance of the term is zero so are they.
func (f *Fit) Effects(term string) (*Set, error) {
	b, err := f.find(term, true)
	if err != nil {
		return nil, err
	}
	if b.levels == 0 {
		return f.nothing(term), nil
	}
	return f.set(b, func(l int, x []float64) { x[b.first+l] = 1 }, 0), nil
}

// Mean is the overall mean: fixed terms at the plain average of their levels.
func (f *Fit) Mean() Estimate {
	set := f.set(block{levels: 1}, func(_ int, x []float64) { f.average(x, "") }, f.system.mean)
	return set.At(0)
}

// Slope is the slope of a covariate.
func (f *Fit) Slope(covariate string) (Estimate, error) {
	for _, d := range f.system.dense {
		b, err := f.find(covariate, false)
		if err != nil {
			return Estimate{}, err
		}
		if d.column != b.first {
			continue
		}
		set := f.set(b, func(_ int, x []float64) { x[b.first] = 1 / d.scale }, 0)
		return set.At(0), nil
	}
	return Estimate{}, &Error{Unknown, covariate}
}

// find returns the block of a term; one without levels if its variance is zero.
func (f *Fit) find(term string, random bool) (block, error) {
	for _, b := range f.system.blocks {
		if b.name == term && b.random == random {
			return b, nil
		}
	}
	for _, t := range f.model.Terms {
		if t.Name == term && t.Random && random {
			return block{name: term, random: true}, nil
		}
	}
	return block{}, &Error{Unknown, term}
}

// nothing is the set of a term whose variance is zero.
func (f *Fit) nothing(term string) *Set {
	levels := 0
	for _, t := range f.model.Terms {
		if t.Name == term {
			levels = t.Levels
		}
	}
	return &Set{Term: term, Value: make([]float64, levels), Error: mat.NewSymDense(levels, nil), Random: true}
}

// average puts in x what takes the plain average over the levels of every
// fixed term but one. Levels that nothing was observed of do not count.
func (f *Fit) average(x []float64, but string) {
	s := f.system
	for i, b := range s.blocks {
		if b.random || b.name == but || i >= len(s.columns) {
			continue
		}
		seen := 0.0
		for c := b.first; c < b.first+b.levels; c++ {
			if s.observed(c) {
				seen++
			}
		}
		for c := b.first; c < b.first+b.levels; c++ {
			if s.observed(c) {
				x[c] = 1 / seen
			}
		}
	}
}

// observed reports whether anything was observed of column c.
func (s *system) observed(c int) bool { return s.a.value[s.a.start[c+1]-1] > 0 }

// set solves the equations for each level of b, whose combination fill writes.
func (f *Fit) set(b block, fill func(level int, x []float64), mean float64) *Set {
	s, n, last := f.system, b.levels, len(f.point.theta)-1
	out := &Set{Term: b.name, Value: make([]float64, n), Error: mat.NewSymDense(n, nil), Random: b.random,
		inverse: f.inverse, theta: f.point.theta, scale: s.scale}
	low := 0 // of a prediction only its own rows and those after are wanted
	if b.random {
		low = b.first
	}
	wanted, solved := make([][]float64, n), make([][]float64, n)
	for l := range n {
		wanted[l] = make([]float64, len(s.rhs))
		fill(l, wanted[l])
		solved[l] = slices.Clone(wanted[l])
		s.factor.solve(solved[l], low)
		out.Value[l] = mean + s.scale*floats.Dot(wanted[l][low:], f.point.solution[low:])
		if !s.estimable(wanted[l], solved[l]) {
			out.Value[l] = math.NaN()
		}
	}
	residual := f.point.theta[last] * s.scale * s.scale
	for i := range n {
		asked := nonZero(wanted[i])
		for j := i; j < n; j++ {
			sum := 0.0
			for _, c := range asked {
				sum += wanted[i][c] * solved[j][c]
			}
			out.Error.SetSym(i, j, residual*sum)
		}
	}
	if !b.random {
		out.grams = f.grams(solved)
	}
	return out
}

// nonZero lists the places of x that are not 0.
func nonZero(x []float64) []int {
	var out []int
	for c, v := range x {
		if v != 0 {
			out = append(out, c)
		}
	}
	return out
}

// estimable reports whether a combination of the columns can be told: whether
// the equations give it back, columns that were dropped included.
func (s *system) estimable(wanted, solved []float64) bool {
	for k, dropped := range s.factor.dropped {
		if !dropped {
			continue
		}
		back := 0.0
		for p := s.a.start[k]; p < s.a.start[k+1]; p++ {
			back += s.a.value[p] * solved[s.a.column[p]]
		}
		for j := k + 1; j < len(s.factor.dropped); j++ {
			back += s.a.at(j, k) * solved[j]
		}
		if math.Abs(back-wanted[k]) > 1e-6 {
			return false
		}
	}
	return true
}

// at is the entry of row j in column k < j.
func (r *rows) at(j, k int) float64 {
	low, high := r.start[j], r.start[j+1]
	for low < high {
		if mid := (low + high) / 2; r.column[mid] < k {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if low < r.start[j+1] && r.column[low] == k {
		return r.value[low]
	}
	return 0
}

// grams are, for each variance v of a random term, the slopes of the error
// covariance along it: with b = V⁻¹X(X'V⁻¹X)⁻¹L and the solution a of the
// equations for L, Z'b = -a s²/v.
func (f *Fit) grams(solved [][]float64) []*mat.SymDense {
	s, n, last := f.system, len(solved), len(f.point.theta)-1
	var out []*mat.SymDense
	for k, at := range s.random {
		b := s.blocks[at]
		part := mat.NewDense(n, b.levels, nil)
		ratio := f.point.theta[last] / f.point.theta[k]
		for i, a := range solved {
			for l := range b.levels {
				part.Set(i, l, ratio*a[b.first+l])
			}
		}
		gram := mat.NewSymDense(n, nil)
		gram.SymOuterK(1, part)
		out = append(out, gram)
	}
	return out
}

// At is level i by itself.
func (s *Set) At(i int) Estimate {
	return s.estimate(s.Value[i], s.Error.At(i, i), func(g *mat.SymDense) float64 { return g.At(i, i) })
}

// Difference is level i less level j.
func (s *Set) Difference(i, j int) Estimate {
	return s.estimate(s.Value[i]-s.Value[j], difference(s.Error, i, j),
		func(g *mat.SymDense) float64 { return difference(g, i, j) })
}

func difference(m *mat.SymDense, i, j int) float64 { return m.At(i, i) + m.At(j, j) - 2*m.At(i, j) }

// estimate gives the figure its degrees of freedom (Satterthwaite, by the
// expected information where the fit has it):
//
//	2 v² / g'I⁻¹g,   g the slopes of its variance v along the variances
//
// A prediction has none: it is judged as if the variances were known.
func (s *Set) estimate(value, variance float64, slope func(*mat.SymDense) float64) Estimate {
	e := Estimate{value, math.Sqrt(math.Max(variance, 0)), math.NaN()}
	if !finite(value) {
		e.SE = math.NaN()
		return e
	}
	if s.Random || s.inverse == nil {
		e.Freedom = math.Inf(1)
		return e
	}
	last := len(s.theta) - 1
	v := variance / (s.scale * s.scale)
	g := make([]float64, last+1)
	rest := v
	for k := range last {
		g[k] = slope(s.grams[k])
		rest -= s.theta[k] * g[k]
	}
	g[last] = rest / s.theta[last]
	sum := 0.0
	for k := range g {
		for l := range g {
			sum += g[k] * g[l] * s.inverse.At(k, l)
		}
	}
	if sum > 0 {
		e.Freedom = 2 * v * v / sum
	}
	return e
}

// MeanVariance is the mean variance of the difference of two levels.
//
//	2 (n tr E - 1'E 1) / (n (n-1))        (E the error covariance of the n levels)
//
// Definition.
// Valid: two levels or more; NaN below.
func (s *Set) MeanVariance() float64 {
	n := float64(len(s.Value))
	trace, sum := 0.0, 0.0
	for i := range s.Value {
		trace += s.Error.At(i, i)
		for j := range s.Value {
			sum += s.Error.At(i, j)
		}
	}
	if n < 2 {
		return math.NaN()
	}
	return 2 * (n*trace - sum) / (n * (n - 1))
}
