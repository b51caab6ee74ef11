package mixed

import (
	"context"

	"gonum.org/v1/gonum/mat"
)

// Limits of the search. A ratio of a variance to the residual below zeroRatio
// cannot be told from zero; floorRatio is where the search stops going down.
const (
	floorRatio    = 1e-8
	zeroRatio     = 1e-6
	enough        = 1e-10 // rise of the log-likelihood that a further step promises
	exact         = 1e-11 // residual, as a share of all variance, that is rounding: the terms explain every observation
	halvings      = 10
	maxIterations = 200
)

// climb is one search for the largest restricted likelihood.
type climb struct {
	system   *system
	held     []bool // variances that stay as they are
	free     bool   // none is held
	progress func(iteration int, logLik float64)
}

// from searches from the given variances. It reports whether it arrived.
func (c *climb) from(ctx context.Context, theta []float64) (p point, iterations int, arrived bool, err error) {
	p, ok := c.system.evaluate(theta, c.free)
	if !ok {
		return p, 0, false, &Error{Singular, ""}
	}
	for iterations = 1; iterations <= maxIterations; iterations++ {
		if err := ctx.Err(); err != nil {
			return p, iterations, false, err
		}
		if c.progress != nil {
			c.progress(iterations, p.logLik)
		}
		if p.theta[len(p.theta)-1] < exact && !c.held[len(p.theta)-1] {
			return p, iterations, false, &Error{NoFreedom, ""}
		}
		c.system.slope(&p)
		step, promise := c.newton(p)
		if promise < enough {
			return p, iterations, true, nil
		}
		better, ok := c.along(p, step)
		if !ok {
			better, ok = c.system.evaluate(c.bounded(c.system.emStep(p), p), c.free)
		}
		if !ok || better.logLik <= p.logLik {
			// No way up that arithmetic can see: p has to be evaluated again, since
			// the factor now belongs to another place.
			at, _ := c.system.evaluate(p.theta, false)
			c.system.slope(&at)
			return at, iterations, promise < 1e-6, nil
		}
		p = better
	}
	return p, iterations, false, nil
}

// along tries the step, then halves of it, until the likelihood rises.
func (c *climb) along(p point, step []float64) (point, bool) {
	times := 1.0
	for range halvings {
		theta := make([]float64, len(step))
		for k := range step {
			theta[k] = p.theta[k] + times*step[k]
		}
		if next, ok := c.system.evaluate(c.bounded(theta, p), c.free); ok && next.logLik > p.logLik {
			return next, true
		}
		times /= 2
	}
	return p, false
}

// bounded keeps variances from falling below the floor, and the residual from
// falling by more than nine tenths at once.
func (c *climb) bounded(theta []float64, from point) []float64 {
	last := len(theta) - 1
	if !c.held[last] {
		theta[last] = max(theta[last], from.theta[last]/10)
	}
	for k := range last {
		if !c.held[k] {
			theta[k] = max(theta[k], floorRatio*theta[last])
		}
	}
	return theta
}

// newton is the step of the average information algorithm and the rise in
// log-likelihood that it promises. Variances that it would carry below zero are
// set to the floor, and the step of the others is worked out anew.
func (c *climb) newton(p point) (step []float64, promise float64) {
	last := len(p.theta) - 1
	floor := floorRatio * p.theta[last]
	info := c.system.averageInformation(p)
	step = make([]float64, len(p.theta))
	fixed := make([]bool, len(p.theta))
	for k := range p.theta {
		atFloor := k != last && p.theta[k] <= 2*floor && p.score[k] <= 0
		fixed[k] = c.held[k] || atFloor
	}
	for {
		solveFree(info, p.score, step, fixed)
		again := false
		for k := range last {
			if !fixed[k] && p.theta[k]+step[k] < floor {
				fixed[k], again = true, true
				step[k] = floor - p.theta[k]
			}
		}
		if !again {
			break
		}
	}
	for k := range step {
		promise += step[k] * p.score[k]
	}
	return step, promise / 2
}

// solveFree solves info step = score for the entries of step that are not
// fixed, the others staying as they are. If the information is singular each
// goes by its own slope.
func solveFree(info *mat.SymDense, score, step []float64, fixed []bool) {
	var free []int
	for k := range step {
		if !fixed[k] {
			free = append(free, k)
		}
	}
	if len(free) == 0 {
		return
	}
	a, b := mat.NewSymDense(len(free), nil), mat.NewVecDense(len(free), nil)
	for i, k := range free {
		right := score[k]
		for l := range step {
			if fixed[l] {
				right -= info.At(k, l) * step[l]
			}
		}
		b.SetVec(i, right)
		for j := i; j < len(free); j++ {
			a.SetSym(i, j, info.At(k, free[j]))
		}
	}
	var cholesky mat.Cholesky
	x := mat.NewVecDense(len(free), nil)
	if !cholesky.Factorize(a) || cholesky.SolveVecTo(x, b) != nil {
		for i, k := range free {
			x.SetVec(i, score[k]/max(info.At(k, k), 1e-300))
		}
	}
	for i, k := range free {
		step[k] = x.AtVec(i)
	}
}
