package variety

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Index is a sum of traits to select by, with what selecting by it brings.
type Index struct {
	Traits    []string
	Weights   []float64 // on each trait as measured
	Accuracy  float64   // correlation of the index with what it stands for; NaN where that is not stated
	Response  []float64 // of each trait, per unit of selection intensity
	Condition float64   // of the matrix that was inverted: beyond a thousand the weights hang by a thread
}

// Errors of the indices.
var (
	ErrWeights  = errors.New("not one weight for each trait, or none but zeros")
	ErrSingular = errors.New("traits that say the same, or a trait without a variance of its own: leave one out")
)

// condition beyond which a matrix counts as singular.
const mostCondition = 1e12

// SmithHazel is the index that goes best with the sum of true values by the
// economic weights a, each per unit of its trait:
//
//	b = P⁻¹ G a
func (c *Covariances) SmithHazel(a []float64) (Index, error) {
	if err := c.usable(a); err != nil {
		return Index{}, err
	}
	var right mat.VecDense
	right.MulVec(c.Genetic, mat.NewVecDense(len(a), slices.Clone(a)))
	b, condition, err := solve(c.Phenotypic, &right)
	if err != nil {
		return Index{}, err
	}
	return c.index(b, a, condition), nil
}

// Base is the index of the economic weights themselves: nearly as good, and
// safe where covariances are poorly known. On predicted effects, which are drawn
// in already, it is the one to use.
func (c *Covariances) Base(a []float64) (Index, error) {
	if err := c.usable(a); err != nil {
		return Index{}, err
	}
	return c.index(slices.Clone(a), a, 1), nil
}

// DesiredGains is the index that moves the traits in the proportions d:
//
//	b = G⁻¹ d
func (c *Covariances) DesiredGains(d []float64) (Index, error) {
	if err := c.usable(d); err != nil {
		return Index{}, err
	}
	b, condition, err := solve(c.Genetic, mat.NewVecDense(len(d), slices.Clone(d)))
	if err != nil {
		return Index{}, err
	}
	return c.index(b, nil, condition), nil
}

func (c *Covariances) usable(weights []float64) error {
	if len(weights) != len(c.Traits) || !slices.ContainsFunc(weights, func(w float64) bool { return w != 0 }) ||
		slices.ContainsFunc(weights, func(w float64) bool { return math.IsNaN(w) || math.IsInf(w, 0) }) {
		return ErrWeights
	}
	return nil
}

// solve gives a⁻¹b, both scaled to unit diagonal so that units of traits do not
// bear on the condition.
func solve(a *mat.SymDense, b *mat.VecDense) (x []float64, condition float64, err error) {
	n := a.SymmetricDim()
	scale := make([]float64, n)
	for i := range n {
		if !(a.At(i, i) > 0) {
			return nil, math.Inf(1), ErrSingular
		}
		scale[i] = math.Sqrt(a.At(i, i))
	}
	scaled, right := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		right.SetVec(i, b.AtVec(i)/scale[i])
		for j := range n {
			scaled.Set(i, j, a.At(i, j)/(scale[i]*scale[j]))
		}
	}
	var lu mat.LU
	lu.Factorize(scaled)
	condition = lu.Cond()
	var out mat.VecDense
	if !(condition < mostCondition) || lu.SolveVecTo(&out, false, right) != nil {
		return nil, condition, ErrSingular
	}
	for i := range n {
		x = append(x, out.AtVec(i)/scale[i])
	}
	return x, condition, nil
}

// index works out what the weights b bring towards the aim a, which may be nil.
func (c *Covariances) index(b, a []float64, condition float64) Index {
	x := Index{Traits: c.Traits, Weights: b, Accuracy: math.NaN(), Condition: condition}
	vector := mat.NewVecDense(len(b), b)
	spread := math.Sqrt(mat.Inner(vector, c.Phenotypic, vector))
	var gain mat.VecDense
	gain.MulVec(c.Genetic, vector)
	for i := range b {
		x.Response = append(x.Response, gain.AtVec(i)/spread)
	}
	if a != nil {
		aim := mat.NewVecDense(len(a), a)
		x.Accuracy = mat.Inner(aim, c.Genetic, vector) / (spread * math.Sqrt(mat.Inner(aim, c.Genetic, aim)))
	}
	return x
}

// Of is the index of an entry by its traits, each less the mean of all.
//
//	I = sum of weight times figure
//
// Definition.
// Valid: one figure for each trait; NaN else.
func (x Index) Of(figures []float64) float64 {
	if len(figures) != len(x.Weights) {
		return math.NaN()
	}
	sum := 0.0
	for i, w := range x.Weights {
		sum += w * figures[i]
	}
	return sum
}

// Intensity is how far above the mean, in standard deviations, the best share of
// many candidates lies on average.
//
//	i = φ(z)/share,   z the normal deviate that the share exceeds
//
// Definition.
// Valid: share strictly between 0 and 1; NaN else.
// Check: 1.755 at a tenth and 2.063 at a twentieth, as in any text on selection.
func Intensity(share float64) float64 {
	if !(share > 0 && share < 1) {
		return math.NaN()
	}
	z := distuv.UnitNormal.Quantile(1 - share)
	return distuv.UnitNormal.Prob(z) / share
}
