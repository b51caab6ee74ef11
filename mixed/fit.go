package mixed

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// fitEnough is the rise of the log-likelihood at which a search ends: components
// are then right to five figures or better.
const fitEnough = 1e-10

// Options say how to fit. The zero value is the usual way.
type Options struct {
	// Hold keeps the variance of a term (or of Residual) at a value.
	Hold map[string]float64
	// Progress is called after every step, from the goroutine of the caller.
	Progress func(iteration int, logLik float64)
}

// Component is a variance that was estimated.
type Component struct {
	Name     string
	Variance float64 // 0 where the likelihood falls from zero on
	SE       float64 // from the information; NaN at zero, and poor near it
	Levels   int     // of the term; observations for the residual
	Held     bool
}

// Fit is a fitted model.
type Fit struct {
	LogLik     float64     // restricted
	Components []Component // random terms in the order of the model, then the residual
	N, Rank    int         // observations, and dimension of the fixed part
	Iterations int
	Converged  bool
	Average    bool // standard errors and degrees of freedom rest on the average, not the expected information

	model     Model
	system    *system // without the terms whose variance is zero
	point     point
	component []int      // of each variance of the point, its place in Components
	inverse   *mat.Dense // of the information, variances of the point
}

// Fit finds the variances that make the restricted likelihood largest. It
// stops early only when ctx ends, and then returns its error. A model that
// cannot be fitted gives an *Error.
func (m Model) Fit(ctx context.Context, o Options) (*Fit, error) {
	s, err := newSystem(m)
	if err != nil {
		return nil, err
	}
	held, values, err := s.hold(o.Hold)
	if err != nil {
		return nil, err
	}
	if err := s.mingled(s.start(held, values, 1)); err != nil {
		return nil, err
	}
	c := climb{s, held, !slices.Contains(held, true), o.Progress, fitEnough}
	best, iterations, arrived, err := c.from(ctx, s.start(held, values, 1))
	if err != nil {
		return nil, err
	}
	if s.atFloor(best) {
		// A variance at zero may be a lesser summit: look from elsewhere once.
		other, more, ok, err := c.from(ctx, s.start(held, values, 0.1))
		if err != nil {
			return nil, err
		}
		iterations += more
		if other.logLik > best.logLik {
			best, arrived = other, ok
		}
	}
	return s.fit(best, held, iterations, arrived)
}

// hold returns which variances are held and at what, in the scale of the system.
func (s *system) hold(given map[string]float64) (held []bool, values []float64, err error) {
	held, values = make([]bool, len(s.random)+1), make([]float64, len(s.random)+1)
	found := 0
	for k := range held {
		v, ok := given[s.randomName(k)]
		if !ok {
			continue
		}
		found++
		if !finite(v) || v < 0 || v == 0 && k == len(s.random) {
			return nil, nil, &Error{NotFinite, s.randomName(k)}
		}
		held[k], values[k] = true, v/(s.scale*s.scale)
	}
	if found < len(given) {
		return nil, nil, &Error{Unknown, "held variance"}
	}
	return held, values, nil
}

// randomName is the name of variance k.
func (s *system) randomName(k int) string {
	if k == len(s.random) {
		return Residual
	}
	return s.blocks[s.random[k]].name
}

// start is where a search begins: every random term at ratio times the residual.
func (s *system) start(held []bool, values []float64, ratio float64) []float64 {
	last := len(held) - 1
	theta := make([]float64, len(held))
	theta[last] = 1 / (1 + ratio*float64(last))
	if held[last] {
		theta[last] = values[last]
	}
	for k := range last {
		theta[k] = ratio * theta[last]
		if held[k] {
			theta[k] = max(values[k], floorRatio*theta[last])
		}
	}
	return theta
}

func (s *system) atFloor(p point) bool {
	last := len(p.theta) - 1
	return slices.ContainsFunc(p.theta[:last], func(v float64) bool { return v < zeroRatio*p.theta[last] })
}

// fit drops the terms whose variance is zero and works out what hangs on the rest.
func (s *system) fit(p point, held []bool, iterations int, arrived bool) (*Fit, error) {
	f := &Fit{N: len(s.y), Rank: s.rank, Iterations: iterations, Converged: arrived, model: s.model}
	last := len(p.theta) - 1
	gone := map[string]bool{}
	var theta []float64
	for k, v := range p.theta {
		c := Component{Name: s.randomName(k), Held: held[k], SE: math.NaN(), Levels: len(s.y)}
		if k < last {
			c.Levels = s.blocks[s.random[k]].levels
		}
		if k < last && v < zeroRatio*p.theta[last] {
			gone[c.Name] = true
		} else {
			c.Variance = v * s.scale * s.scale
			theta = append(theta, v)
			f.component = append(f.component, k)
		}
		f.Components = append(f.Components, c)
	}
	if len(gone) > 0 {
		reduced := s.model
		reduced.Terms = slices.DeleteFunc(slices.Clone(s.model.Terms), func(t Term) bool { return gone[t.Name] })
		var err error
		if s, err = newSystem(reduced); err != nil {
			return nil, err
		}
	}
	var ok bool
	if f.point, ok = s.evaluate(theta, false); !ok {
		return nil, &Error{Singular, ""}
	}
	f.system = s
	f.LogLik = f.point.logLik - float64(s.freedom())*math.Log(s.scale)
	for _, d := range s.dense {
		if !s.factor.dropped[d.column] {
			f.LogLik -= math.Log(d.scale)
		}
	}
	f.inform()
	return f, nil
}

// Variance is the estimated variance of a term, or of the Residual; NaN if the
// model does not have it.
//
//	v, s² where -2 l = (n-p) ln s² + ln|C| + sum q ln(v/s²) + y'Py is least
//
// Recalled: Henderson 1975, the equations C; Gilmour 1995, the steps to the least.
// Check: lme4 1.1-31 on eight trials; the printed components of the Slate Hall trial.
func (f *Fit) Variance(name string) float64 {
	for _, c := range f.Components {
		if c.Name == name {
			return c.Variance
		}
	}
	return math.NaN()
}
