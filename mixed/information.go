package mixed

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// exactLevels is up to how many random levels the expected information is
// worked out: its cost grows with their square times the size of the factor.
// Beyond, with so many levels, the average information differs little.
const exactLevels = 1500

// inform works out the information on the variances, its inverse and the
// standard errors.
func (f *Fit) inform() {
	s := f.system
	levels := 0
	for _, at := range s.random {
		levels += s.blocks[at].levels
	}
	f.Average = levels > exactLevels
	var info *mat.SymDense
	if f.Average {
		info = s.averageInformation(f.point)
	} else {
		info = s.expectedInformation(f.point)
	}
	n := info.SymmetricDim()
	f.inverse = mat.NewDense(n, n, nil)
	var cholesky mat.Cholesky
	inverse := mat.NewSymDense(n, nil)
	if !cholesky.Factorize(info) || cholesky.InverseTo(inverse) != nil {
		for i := range n {
			for j := range n {
				f.inverse.Set(i, j, math.NaN())
			}
		}
		return
	}
	for i, at := range f.component {
		for j := range n {
			f.inverse.Set(i, j, inverse.At(i, j))
		}
		f.Components[at].SE = math.Sqrt(inverse.At(i, i)) * s.scale * s.scale
	}
}

// expectedInformation is
//
//	I_kl = tr(P V_k P V_l) / 2 = |Z_k'P Z_l|² / 2
//
// with Z_k'P Z_l = [k=l] I/v_k - s² C⁻¹_kl/(v_k v_l), and the residual's row
// from sum over l of v_l tr(P V_k P V_l) = tr(P V_k).
func (s *system) expectedInformation(p point) *mat.SymDense {
	last := len(p.theta) - 1
	info := mat.NewSymDense(last+1, nil)
	traces := make([]float64, last)
	column := make([]float64, len(s.rhs))
	for k, at := range s.random {
		b := s.blocks[at]
		for c := b.first; c < b.first+b.levels; c++ {
			s.unit(c, column)
			for l := k; l <= last-1; l++ {
				info.SetSym(k, l, info.At(k, l)+s.squares(p, k, l, c, column)/2)
			}
			traces[k] += (1 - p.theta[last]/p.theta[k]*column[c]) / p.theta[k]
		}
	}
	whole := float64(s.freedom())
	rest := 0.0
	for k := range last {
		sum := traces[k] / 2
		for l := range last {
			sum -= p.theta[l] * info.At(k, l)
		}
		info.SetSym(k, last, sum/p.theta[last])
		whole -= p.theta[k] * traces[k]
		rest += p.theta[k] * info.At(k, last)
	}
	// tr P = (n - p - sum v tr PV) / s²
	info.SetSym(last, last, (whole/p.theta[last]/2-rest)/p.theta[last])
	return info
}

// unit puts column c of the inverse of the equations in into.
func (s *system) unit(c int, into []float64) {
	clear(into)
	into[c] = 1
	s.factor.solve(into, 0)
}

// squares is the share of |Z_k'P Z_l|² that column c, of term k, has.
func (s *system) squares(p point, k, l, c int, column []float64) float64 {
	last := len(p.theta) - 1
	b := s.blocks[s.random[l]]
	sum := 0.0
	for i := b.first; i < b.first+b.levels; i++ {
		x := -column[i] * p.theta[last] / (p.theta[k] * p.theta[l])
		if i == c {
			x += 1 / p.theta[k]
		}
		sum += x * x
	}
	return sum
}
