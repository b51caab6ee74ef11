package mixed

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// point is the restricted likelihood at one set of variances. All is in the
// scale of the system.
type point struct {
	theta    []float64 // variances of the random terms, then the residual
	logLik   float64
	residual float64   // y'Py times the residual variance
	solution []float64 // of Henderson's equations
	score    []float64 // slope of logLik along theta
	step     []float64 // what a search that ended here would have gone on by
	promise  float64   // what logLik would have risen by
}

// lnTwoPi is ln 2π.
var lnTwoPi = math.Log(2 * math.Pi)

// evaluate works out the restricted likelihood
//
//	-2 l = (n-p)(ln 2π + ln s²) + ln|C| + sum q ln(v/s²) - sum ln w + r/s²
//
// at variances v and residual s², with r = y'y - y'W s. If scaling is free, all
// variances are first multiplied by what makes it largest. It reports false
// where the equations are singular.
func (s *system) evaluate(theta []float64, free bool) (point, bool) {
	p := point{theta: append([]float64(nil), theta...), solution: append([]float64(nil), s.rhs...)}
	last := len(theta) - 1
	ratios := 0.0
	for k, at := range s.random {
		b := s.blocks[at]
		ratio := theta[k] / theta[last]
		ratios += float64(b.levels) * math.Log(ratio)
		for l := range b.levels {
			s.diagonal[b.first+l] = 1 / ratio
		}
	}
	for i, may := range s.mayDrop {
		if may {
			s.diagonal[i] = 0
		}
	}
	if !s.factor.compute(&s.a, s.diagonal, s.mayDrop, false) {
		return p, false
	}
	s.factor.solve(p.solution, 0)
	p.residual = s.yy
	for i, x := range s.rhs {
		p.residual -= x * p.solution[i]
	}
	freedom := float64(s.freedom())
	// Rounding of the difference above, where the terms explain everything.
	p.residual = math.Max(p.residual, 1e-13*s.yy)
	if free {
		times := p.residual / (freedom * p.theta[last])
		for k := range p.theta {
			p.theta[k] *= times
		}
	}
	p.logLik = -(freedom*(lnTwoPi+math.Log(p.theta[last])) + s.factor.logDeterminant() + ratios - s.logWeights +
		p.residual/p.theta[last]) / 2
	return p, finite(p.logLik)
}

// slope fills in the score of the point that was evaluated last:
//
//	dl/dv = -(tr PZZ' - |Z'Py|²) / 2
//
// with tr PZZ' = q/v - s² tr C⁻¹/v² and Z'Py = u/v; the residual's from
// sum v tr PV = n-p and sum v y'PVPy = y'Py.
func (s *system) slope(p *point) {
	last := len(p.theta) - 1
	rest := float64(s.freedom()) - p.residual/p.theta[last]
	p.score = make([]float64, len(p.theta))
	for k, extent := range s.extents() {
		b, v := s.blocks[s.random[k]], p.theta[k]
		effects := p.solution[b.first : b.first+b.levels]
		excess := (extent - floats.Dot(effects, effects)/v) / v
		p.score[k] = -excess / 2
		rest -= v * excess
	}
	p.score[last] = -rest / p.theta[last] / 2
}

// extents are, for each random term, how many of its levels the data tell apart
// at the point that was evaluated last: v tr PZZ', from 0 to q.
func (s *system) extents() []float64 {
	s.inverseSpace = s.factor.inverse(s.inverseSpace)
	out := make([]float64, len(s.random))
	for k, at := range s.random {
		b := s.blocks[at]
		for c := b.first; c < b.first+b.levels; c++ {
			out[k] += 1 - s.diagonal[c]*s.inverseSpace[s.factor.start[c]]
		}
	}
	return out
}

// emStep is the variances after one step of expectation and maximisation, which
// never lowers the likelihood:
//
//	v = (u'u + s² tr C⁻¹) / q
func (s *system) emStep(p point) []float64 {
	out := make([]float64, len(p.theta))
	last := len(out) - 1
	for k, at := range s.random {
		q := float64(s.blocks[at].levels)
		out[k] = p.theta[k] + 2*p.score[k]*p.theta[k]*p.theta[k]/q
	}
	n := float64(len(s.y))
	out[last] = p.theta[last] + 2*p.score[last]*p.theta[last]*p.theta[last]/n
	return out
}

// averageInformation is the mean of the observed and the expected information
// at the point that was evaluated last:
//
//	A_kl = y'P V_k P V_l P y / 2
func (s *system) averageInformation(p point) *mat.SymDense {
	n, last := len(s.y), len(p.theta)-1
	work := make([][]float64, len(p.theta))
	work[last] = make([]float64, n)
	s.fitted(p.solution, work[last])
	for o, f := range work[last] {
		work[last][o] = (s.y[o] - f) / p.theta[last]
	}
	for k, at := range s.random {
		work[k] = make([]float64, n)
		for o, c := range s.columns[at] {
			work[k][o] = p.solution[c] / p.theta[k]
		}
	}
	projected, solved := make([][]float64, len(work)), make([][]float64, len(work))
	for k, w := range work {
		projected[k] = make([]float64, len(s.rhs))
		s.timesDesign(w, projected[k])
		solved[k] = append([]float64(nil), projected[k]...)
		s.factor.solve(solved[k], 0)
	}
	a := mat.NewSymDense(len(work), nil)
	for k := range work {
		for l := k; l < len(work); l++ {
			sum := 0.0
			for o, w := range work[k] {
				sum += w * work[l][o] * s.weight[o]
			}
			for i, x := range projected[k] {
				sum -= x * solved[l][i]
			}
			a.SetSym(k, l, sum/p.theta[last]/2)
		}
	}
	return a
}
