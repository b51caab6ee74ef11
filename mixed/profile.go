package mixed

import (
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// profileTolerance is how near, in the square root of the fall of twice the
// log-likelihood, an end of an interval has to be.
const profileTolerance = 1e-3

// Interval returns the values of a variance that the data do not speak against
// with the given confidence, the other variances at their best. low is 0 where
// zero is among them.
//
//	2 (l(best) - l(v)) <= x        (l the restricted log-likelihood, x the quantile of chi-squared with 1 degree of freedom)
//
// Definition.
// Check: with a mean alone the closed form f (ln(v/s²) + s²/v - 1) = x.
func (f *Fit) Interval(ctx context.Context, name string, confidence float64) (low, high float64, err error) {
	at := slices.IndexFunc(f.Components, func(c Component) bool { return c.Name == name })
	if at < 0 || !inside(confidence) {
		return math.NaN(), math.NaN(), &Error{Unknown, name}
	}
	p, err := f.profile(ctx, at)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	p.deviate = math.Sqrt(distuv.ChiSquared{K: 1}.Quantile(confidence))
	if high, err = p.above(); err == nil {
		low, err = p.below()
	}
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	square := p.climb.system.scale * p.climb.system.scale
	return low * square, high * square, nil
}

// profile is the likelihood along one variance.
type profile struct {
	ctx     context.Context
	climb   climb
	at      int
	best    point
	deviate float64
}

func (f *Fit) profile(ctx context.Context, at int) (*profile, error) {
	s, err := newSystem(f.model)
	if err != nil {
		return nil, err
	}
	p := &profile{ctx: ctx, at: at, climb: climb{system: s, held: make([]bool, len(f.Components))}}
	last := len(f.Components) - 1
	theta := make([]float64, last+1)
	for k, c := range f.Components {
		theta[k] = max(c.Variance, floorRatio*f.Components[last].Variance) / (s.scale * s.scale)
		p.climb.held[k] = c.Held
	}
	var ok bool
	if p.best, ok = s.evaluate(theta, false); !ok {
		return nil, &Error{Singular, ""}
	}
	p.climb.held[at] = true
	return p, nil
}

// fall is the root of how far twice the log-likelihood falls at variance v, less
// what it may fall.
func (p *profile) fall(v float64) (float64, error) {
	theta := slices.Clone(p.best.theta)
	theta[p.at] = v
	top, _, _, err := p.climb.from(p.ctx, theta)
	if err != nil {
		return math.NaN(), err
	}
	return math.Sqrt(math.Max(0, 2*(p.best.logLik-top.logLik))) - p.deviate, nil
}

// above is the upper end.
func (p *profile) above() (float64, error) {
	inner := p.best.theta[p.at]
	last := len(p.best.theta) - 1
	outer := 2*inner + 0.01*p.best.theta[last]
	for range 60 {
		f, err := p.fall(outer)
		if err != nil {
			return 0, err
		}
		if f > 0 {
			return p.between(inner, outer)
		}
		inner, outer = outer, 2*outer
	}
	return math.Inf(1), nil
}

// below is the lower end.
func (p *profile) below() (float64, error) {
	last := len(p.best.theta) - 1
	floor := floorRatio * p.best.theta[last]
	if p.best.theta[p.at] <= 2*floor {
		return 0, nil
	}
	f, err := p.fall(floor)
	if err != nil {
		return 0, err
	}
	if f <= 0 {
		return 0, nil
	}
	return p.between(p.best.theta[p.at], floor)
}

// between halves, on the scale of logarithms, the way from a variance that is
// in the interval to one that is out.
func (p *profile) between(in, out float64) (float64, error) {
	for math.Abs(out-in) > 1e-4*in {
		mid := math.Sqrt(in * out)
		f, err := p.fall(mid)
		if err != nil {
			return 0, err
		}
		if math.Abs(f) < profileTolerance {
			return mid, nil
		}
		if f < 0 {
			in = mid
		} else {
			out = mid
		}
	}
	return in, nil
}
