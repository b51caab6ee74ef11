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
	exact         = 1e-11 // residual, as a share of all variance, that is rounding: the terms explain every observation
	dampings      = 8
	crawling      = 3 // steps on end that rise by less than enough
	maxIterations = 200
)

// climb is one search for the largest restricted likelihood.
type climb struct {
	system   *system
	held     []bool // variances that stay as they are
	free     bool   // none is held
	progress func(iteration int, logLik float64)
	enough   float64 // rise of the log-likelihood below which a further step is not worth it
}

// from searches from the given variances. It reports whether it arrived.
func (c *climb) from(ctx context.Context, theta []float64) (p point, iterations int, arrived bool, err error) {
	p, ok := c.system.evaluate(theta, c.free)
	if !ok {
		return p, 0, false, &Error{Singular, ""}
	}
	slow := 0
	for iterations = 1; iterations <= maxIterations; iterations++ {
		if err := ctx.Err(); err != nil {
			return p, iterations, false, err
		}
		if c.progress != nil {
			c.progress(iterations, p.logLik)
		}
		if p.theta[len(p.theta)-1] < exact && !c.held[len(p.theta)-1] {
			return p, iterations, false, &Error{Saturated, ""}
		}
		c.system.slope(&p)
		info := c.system.averageInformation(p)
		step, promise := c.newton(p, info, 0)
		if promise < c.enough {
			p.step, p.promise = step, promise
			return p, iterations, true, nil
		}
		better, ok := c.up(p, info, step)
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
		slow++
		if better.logLik-p.logLik > c.enough {
			slow = 0
		}
		p = better
		if slow == crawling {
			c.system.slope(&p)
			return p, iterations, true, nil
		}
	}
	c.system.slope(&p)
	return p, iterations, false, nil
}

// up tries the step, then ever shorter ones that follow the slope ever more,
// until the likelihood rises.
func (c *climb) up(p point, info *mat.SymDense, step []float64) (point, bool) {
	damping := 1e-3
	for range dampings {
		if next, ok := c.system.evaluate(c.bounded(plus(p.theta, step), p), c.free); ok && next.logLik > p.logLik {
			return next, true
		}
		step, _ = c.newton(p, info, damping)
		damping *= 10
	}
	return p, false
}

// bounded keeps variances from falling below the floor, the residual from falling
// by more than nine tenths at once, and those that are held where they are.
func (c *climb) bounded(theta []float64, from point) []float64 {
	last := len(theta) - 1
	theta[last] = max(theta[last], from.theta[last]/10)
	if c.held[last] {
		theta[last] = from.theta[last]
	}
	for k := range last {
		theta[k] = max(theta[k], floorRatio*theta[last])
		if c.held[k] {
			theta[k] = from.theta[k]
		}
	}
	return theta
}

// newton is the step of the average information algorithm and the rise in
// log-likelihood that it promises; damping makes more of the diagonal of the
// information and so shortens the step. Variances that it would carry below zero are
// set to the floor, and the step of the others is worked out anew.
func (c *climb) newton(p point, info *mat.SymDense, damping float64) (step []float64, promise float64) {
	last := len(p.theta) - 1
	floor := floorRatio * p.theta[last]
	step = make([]float64, len(p.theta))
	fixed := make([]bool, len(p.theta))
	for k := range p.theta {
		atFloor := k != last && p.theta[k] <= 2*floor && p.score[k] <= 0
		fixed[k] = c.held[k] || atFloor
	}
	for {
		solveFree(info, damping, p.score, step, fixed)
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
func solveFree(info *mat.SymDense, damping float64, score, step []float64, fixed []bool) {
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
		a.SetSym(i, i, info.At(k, k)*(1+damping))
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
