package odds

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Share is how much of the variance of a figure one of its inputs makes by
// itself.
type Share struct {
	Input     int
	Share     float64 // 0 to 1
	Deviation float64 // standard error
}

// Explained is what a regression on draws says of a figure.
type Explained struct {
	// R2 is how much of the variance the regression foretells of draws that it
	// has not seen: each is left out in its turn.
	R2     float64
	Shares []Share // the largest first; those that do not stand out of their error are absent
}

const (
	// leastR2 is what a regression must explain to be believed.
	leastR2 = 0.9
	// drawsPerTerm is how many draws a term of the regression needs.
	drawsPerTerm = 5
	// chanceMost is how much of what is left the best of all candidates may
	// explain by chance. Where draws are so few that it would be more, nothing is
	// explained.
	chanceMost = 0.125
	// beyondError is how many standard errors a share is above nothing.
	beyondError = 2
)

// Good reports whether the shares may be shown.
func (e *Explained) Good() bool { return e.R2 >= leastR2 }

// Explain regresses a figure on its inputs, polynomials of each up to a degree,
// terms taken in one by one for as long as each explains more than the best of so
// many candidates would by chance.
// inputs[j][i] is input j in draw i; the inputs are independent of each other.
//
//	S_j = V_j / (V_1 + V_2 + ... + left over),  V_j = sum over the terms k of input j of b_k² - s_k²        (terms of unit variance, s_k the standard error of b_k)
//
// Recalled: Sobol' 1993, the share; Saltelli 2008, by regression; Foster 1994, the price of a term.
// Check: the functions of Ishigami 1990 and of Saltelli 1995, shares in closed form.
// Note: what inputs do together is left out; R2 says how much that is.
func Explain(y []float64, inputs [][]float64, degree int) Explained {
	r := newRegression(y, inputs, degree)
	if r == nil {
		return Explained{R2: math.NaN()}
	}
	if r.price()/float64(len(y)) > chanceMost {
		return Explained{R2: math.NaN()}
	}
	r.choose(len(y) / drawsPerTerm)
	return r.explained()
}

// term is one polynomial of one input, of mean 0 and variance 1 over the draws.
type term struct {
	input  int
	values []float64
}

type regression struct {
	centred  []float64 // the figure less its mean
	residual []float64 // less what the chosen terms explain
	total    float64   // sum of squares of the figure
	terms    []term
	left     [][]float64 // the terms less what the chosen ones hold of them
	chosen   []int
}

// newRegression has nothing chosen; nil where nothing varies.
func newRegression(y []float64, inputs [][]float64, degree int) *regression {
	r := &regression{centred: centre(y)}
	r.total = dot(r.centred, r.centred)
	if !(r.total > 0) || math.IsInf(r.total, 1) {
		return nil
	}
	for j, x := range inputs {
		for _, values := range polynomials(x, degree) {
			r.terms = append(r.terms, term{j, values})
			r.left = append(r.left, slices.Clone(values))
		}
	}
	r.residual = slices.Clone(r.centred)
	return r
}

// polynomials are 1, x, x² ... less what is in those before, each of mean 0 and
// variance 1; the first is left out. An input that does not vary has none.
func polynomials(x []float64, degree int) [][]float64 {
	n := float64(len(x))
	var out [][]float64
	base := centre(x)
	scale := math.Sqrt(dot(base, base) / n)
	if !(scale > 0) {
		return nil
	}
	for i := range base {
		base[i] /= scale
	}
	power := slices.Clone(base)
	for range degree {
		next := centre(power)
		before := dot(next, next)
		for _, p := range out {
			take(next, p, dot(next, p)/n)
		}
		size := math.Sqrt(dot(next, next) / n)
		const same = 1e-6 // what is left of a power of an input that has few values
		if !(size*size*n > same*before) {
			break
		}
		for i := range next {
			next[i] /= size
		}
		out = append(out, next)
		for i := range power {
			power[i] = next[i] * base[i] // spans the same as the next power, and stays small
		}
	}
	return out
}

// choose takes in the term that explains most of what is left, one by one.
func (r *regression) choose(most int) {
	n := float64(len(r.centred))
	best, kept := r.total, 0
	for len(r.chosen) < min(most, len(r.terms)) {
		next, gain := -1, 0.0
		for k, left := range r.left {
			size := dot(left, left)
			if slices.Contains(r.chosen, k) || size < 1e-6*n {
				continue
			}
			if c := dot(r.residual, left); c*c/size > gain {
				next, gain = k, c*c/size
			}
		}
		if next < 0 {
			break
		}
		r.enter(next)
		price := math.Exp(r.price() * float64(len(r.chosen)) / n)
		if score := dot(r.residual, r.residual) * price; score < best {
			best, kept = score, len(r.chosen)
		} else if len(r.chosen) > kept+drawsPerTerm {
			break // several in a row that did not help
		}
	}
	r.chosen = r.chosen[:kept]
}

// price is how many times the noise of one draw the best of all candidates explains
// by chance: the square of the greatest of so many normal figures.
func (r *regression) price() float64 { return 2 * math.Log(float64(len(r.terms))) }

// enter takes a term in, and takes what it holds out of the rest.
func (r *regression) enter(k int) {
	q := slices.Clone(r.left[k])
	size := dot(q, q)
	take(r.residual, q, dot(r.residual, q)/size)
	for _, left := range r.left {
		take(left, q, dot(left, q)/size)
	}
	r.chosen = append(r.chosen, k)
}

// explained fits the chosen terms together.
func (r *regression) explained() Explained {
	n, p := len(r.centred), len(r.chosen)
	out := Explained{}
	if p == 0 {
		return out
	}
	x := mat.NewDense(n, p, nil)
	for c, k := range r.chosen {
		x.SetCol(c, r.terms[k].values)
	}
	var gram mat.SymDense
	gram.SymOuterK(1, x.T())
	var chol mat.Cholesky
	var inverse mat.SymDense
	var b mat.VecDense
	if !chol.Factorize(&gram) || chol.InverseTo(&inverse) != nil {
		return out
	}
	b.MulVec(x.T(), mat.NewVecDense(n, r.centred))
	if chol.SolveVecTo(&b, &b) != nil {
		return out
	}
	var fitted mat.VecDense
	fitted.MulVec(x, &b)
	press, rest := 0.0, 0.0
	for i := range n {
		row := x.RowView(i)
		e := r.centred[i] - fitted.AtVec(i)
		lever := mat.Inner(row, &inverse, row) + 1/float64(n)
		press += e * e / ((1 - lever) * (1 - lever))
		rest += e * e
	}
	out.R2 = 1 - press/r.total
	out.Shares = r.shares(&b, &inverse, rest/float64(n-p-1))
	return out
}

// shares adds the terms of each input. The whole is what the inputs would make if
// they were as independent in these draws as they are, and what is left over: the
// variance of the draws has in it how the inputs happen to go together, by which
// parts could come to more than the whole.
func (r *regression) shares(b *mat.VecDense, inverse *mat.SymDense, noise float64) []Share {
	free := float64(len(r.centred) - len(r.chosen) - 1)
	made, errors := map[int]float64{}, map[int]float64{} // variance by input, and its error squared
	whole, error2 := noise, 2*noise*noise/free
	for c, k := range r.chosen {
		b2, s2 := b.AtVec(c)*b.AtVec(c), noise*inverse.At(c, c)
		made[r.terms[k].input] += b2 - s2
		errors[r.terms[k].input] += 4*b2*s2 + 2*s2*s2
		whole += b2 - s2
		error2 += 4*b2*s2 + 2*s2*s2
	}
	out := make([]Share, 0, len(made))
	for input, v := range made {
		s := Share{Input: input, Share: v / whole}
		own, rest := (1-s.Share)*(1-s.Share)*errors[input], s.Share*s.Share*(error2-errors[input])
		s.Deviation = math.Sqrt(own+rest) / whole
		if s.Share > beyondError*s.Deviation {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b Share) int {
		return cmp.Or(cmp.Compare(b.Share, a.Share), cmp.Compare(a.Input, b.Input))
	})
	return out
}

// centre is x less its mean.
func centre(x []float64) []float64 {
	mean := 0.0
	for _, v := range x {
		mean += v
	}
	mean /= float64(len(x))
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = v - mean
	}
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// take takes so many times b out of a.
func take(a, b []float64, times float64) {
	for i, v := range b {
		a[i] -= times * v
	}
}
