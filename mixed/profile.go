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

// profileEnough is the promised rise of the log-likelihood at which the search for
// the other variances ends. The promise itself is counted in, so that what is
// missing is of the next order: far below what profileTolerance stands for.
const profileEnough = 3e-3

// endless is how many times all other variances together one may be before its
// interval counts as open.
const endless = 1e5

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
	near    []float64 // variances of the place looked at last, to start from
	spread  float64   // standard error of the logarithm of the variance
	deviate float64
}

func (f *Fit) profile(ctx context.Context, at int) (*profile, error) {
	s, err := newSystem(f.model)
	if err != nil {
		return nil, err
	}
	p := &profile{ctx: ctx, at: at, climb: climb{system: s, held: make([]bool, len(f.Components)), enough: profileEnough}}
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
	p.near = p.best.theta
	p.spread = 1
	if c := f.Components[at]; c.SE > 0 && c.Variance > 0 {
		p.spread = min(max(c.SE/c.Variance, 0.05), 1)
	}
	return p, nil
}

// fallen is a place on the profile.
type fallen struct {
	log    float64 // of the variance
	excess float64 // of the root of how far twice the log-likelihood falls over what it may fall
	slope  float64 // of excess along log
}

// fall looks at variance v, the others at their best.
func (p *profile) fall(v float64) (fallen, error) {
	theta := slices.Clone(p.near)
	theta[p.at] = v
	top, _, _, err := p.climb.from(p.ctx, theta)
	if err != nil {
		return fallen{}, err
	}
	p.near = top.theta
	if top.promise > 0 {
		p.near = p.climb.bounded(plus(top.theta, top.step), top)
	}
	root := math.Sqrt(math.Max(0, 2*(p.best.logLik-top.logLik-top.promise)))
	return fallen{math.Log(v), root - p.deviate, -top.score[p.at] * v / root}, nil
}

// above is the upper end.
func (p *profile) above() (float64, error) {
	last := len(p.best.theta) - 1
	p.near = p.best.theta
	inner := p.best.theta[p.at]
	in := fallen{math.Log(inner), -p.deviate, 0}
	outer := math.Max(inner, 0.01*p.best.theta[last]) * math.Exp(p.deviate*p.spread)
	whole := 0.0
	for _, v := range p.best.theta {
		whole += v
	}
	for outer < endless*whole {
		f, err := p.fall(outer)
		if err != nil {
			return 0, err
		}
		if f.excess > 0 {
			return p.between(in, f)
		}
		in, outer = f, 4*outer
	}
	return math.Inf(1), nil
}

// below is the lower end.
func (p *profile) below() (float64, error) {
	p.near = p.best.theta
	last := len(p.best.theta) - 1
	floor := floorRatio * p.best.theta[last]
	inner := p.best.theta[p.at]
	in := fallen{math.Log(inner), -p.deviate, 0}
	for _, outer := range []float64{inner * math.Exp(-1.5*p.deviate*p.spread), floor} {
		if outer >= inner || outer < floor {
			continue
		}
		f, err := p.fall(outer)
		if err != nil {
			return 0, err
		}
		if f.excess > 0 {
			return p.between(in, f)
		}
		inner, in = outer, f
	}
	return 0, nil
}

// between finds where the fall is what it may be, between a place that is in the
// interval and one that is out: Newton's steps, for the slope comes with the
// likelihood, and false position where they lead out of the stretch.
func (p *profile) between(in, out fallen) (float64, error) {
	at := out
	for range 100 {
		next := at.log - at.excess/at.slope
		if low, high := min(in.log, out.log), max(in.log, out.log); !(next > low && next < high) {
			next = (in.log*out.excess - out.log*in.excess) / (out.excess - in.excess)
		}
		var err error
		if at, err = p.fall(math.Exp(next)); err != nil {
			return 0, err
		}
		if math.Abs(at.excess) < profileTolerance || math.Abs(out.log-in.log) < 1e-4 {
			break
		}
		if at.excess < 0 {
			in = at
		} else {
			out = at
		}
	}
	return math.Exp(at.log), nil
}

// plus is a + b.
func plus(a, b []float64) []float64 {
	out := slices.Clone(a)
	for i, x := range b {
		out[i] += x
	}
	return out
}
