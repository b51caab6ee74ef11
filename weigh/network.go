package weigh

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Quantity is something that is true of the grain, whether anybody read it or
// not.
type Quantity struct {
	Name  string
	Guess float64 // where to begin; read it off the readings if you can
	Scale float64 // its order of magnitude, above 0
}

// Reading is what an instrument said of a quantity.
type Reading struct {
	Name      string
	Of        int // index of the quantity
	Value     float64
	Deviation float64 // standard deviation of an honest reading, above 0
}

// Balance is 0 where the quantities agree with each other: what came in is
// what went out.
type Balance func(x []float64) float64

// Network is quantities with the readings of them and the balances between
// them.
type Network struct {
	Quantities []Quantity
	Readings   []Reading
	Balances   []Balance
}

// ErrOpen says that readings and balances together do not fix every quantity,
// or that one balance follows from the others.
var ErrOpen = errors.New("the readings and balances do not fix every quantity")

// ErrUnsettled says that the balances cannot be met near the readings.
var ErrUnsettled = errors.New("no figures near the readings meet the balances")

const (
	mostSteps  = 50
	settled    = 1e-10 // of a quantity's scale
	differing  = 1e-5  // of a quantity's scale, to find slopes by
	mostSkewed = 1e14  // condition of the equations beyond which they fix nothing
)

// check reports what is wrong with a network.
func (n *Network) check() error {
	for _, q := range n.Quantities {
		if !(q.Scale > 0) || math.IsInf(q.Scale, 0) || math.IsNaN(q.Guess) || math.IsInf(q.Guess, 0) {
			return fmt.Errorf("weigh: %s begins at %g on a scale of %g", q.Name, q.Guess, q.Scale)
		}
	}
	for _, r := range n.Readings {
		switch {
		case r.Of < 0 || r.Of >= len(n.Quantities):
			return fmt.Errorf("weigh: %s is a reading of no quantity", r.Name)
		case math.IsNaN(r.Value) || math.IsInf(r.Value, 0) || !(r.Deviation > 0) || math.IsInf(r.Deviation, 0):
			return fmt.Errorf("weigh: %s is %g with a deviation of %g", r.Name, r.Value, r.Deviation)
		}
	}
	return nil
}

// Settle finds the quantities that meet the balances and lie nearest to the
// readings, each distance counted in standard deviations:
//
//	min Σ ((x - y)/s)²  with every balance 0
//
// Where a balance is not a straight line it is drawn anew at each step.
func (n *Network) Settle() (*Settled, error) {
	if err := n.check(); err != nil {
		return nil, err
	}
	x := make([]float64, len(n.Quantities))
	for i, q := range n.Quantities {
		x[i] = q.Guess
	}
	for range mostSteps {
		e := n.equations(x)
		moved, err := e.step()
		if err != nil {
			return nil, err
		}
		most := 0.0
		for i, q := range n.Quantities {
			x[i] += moved[i] * q.Scale
			most = max(most, math.Abs(moved[i]))
		}
		if math.IsNaN(most) || math.IsInf(most, 0) {
			return nil, ErrUnsettled
		}
		if most < settled {
			return n.judge(x)
		}
	}
	return nil, ErrUnsettled
}

// equations are those of one step, with Lagrange's multipliers below the
// quantities, all quantities in units of their scale.
type equations struct {
	quantities int
	left       *mat.Dense
	right      *mat.VecDense
}

func (n *Network) equations(x []float64) *equations {
	q, m := len(n.Quantities), len(n.Balances)
	e := &equations{q, mat.NewDense(q+m, q+m, nil), mat.NewVecDense(q+m, nil)}
	for _, r := range n.Readings {
		scaled := n.Quantities[r.Of].Scale / r.Deviation
		e.left.Set(r.Of, r.Of, e.left.At(r.Of, r.Of)+scaled*scaled)
		e.right.SetVec(r.Of, e.right.AtVec(r.Of)+scaled*(r.Value-x[r.Of])/r.Deviation)
	}
	for k, b := range n.Balances {
		slopes, most := n.slopes(b, x)
		for i, s := range slopes {
			e.left.Set(q+k, i, s/most)
			e.left.Set(i, q+k, s/most)
		}
		e.right.SetVec(q+k, -b(x)/most)
	}
	return e
}

// slopes are those of a balance by each quantity in units of its scale, and
// the largest of them.
func (n *Network) slopes(b Balance, x []float64) (slopes []float64, most float64) {
	at := append([]float64(nil), x...)
	slopes = make([]float64, len(x))
	for i, q := range n.Quantities {
		h := differing * q.Scale
		at[i] = x[i] + h
		up := b(at)
		at[i] = x[i] - h
		slopes[i] = (up - b(at)) / (2 * differing)
		at[i] = x[i]
		most = max(most, math.Abs(slopes[i]))
	}
	if most == 0 {
		most = 1
	}
	return slopes, most
}

func (e *equations) step() ([]float64, error) {
	var lu mat.LU
	lu.Factorize(e.left)
	if !(lu.Cond() < mostSkewed) {
		return nil, ErrOpen
	}
	var out mat.VecDense
	if err := lu.SolveVecTo(&out, false, e.right); err != nil {
		return nil, ErrOpen
	}
	return out.RawVector().Data[:e.quantities], nil
}

// covariance is that of the settled quantities, in units of their scales.
func (e *equations) covariance() (*mat.Dense, error) {
	var inverse mat.Dense
	if err := inverse.Inverse(e.left); err != nil {
		return nil, ErrOpen
	}
	return mat.DenseCopyOf(inverse.Slice(0, e.quantities, 0, e.quantities)), nil
}
