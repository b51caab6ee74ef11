package crop

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"awn/odds"
)

// Trace is a contaminant of which part of the samples lie below what the method
// sees, fitted by a lognormal distribution. That shape is an assumption; Zero,
// Half and Full are plain means with nothing, half and the whole of the limit put
// in for what lies below, and need none.
type Trace struct {
	Samples, Under, Farms int     // with a figure; of those below detection
	UnderShare            float64 // by tonnes
	Freedom               int
	Mu, Sigma             float64 // of the logarithm
	MuSE, LogSigmaSE, Cov float64 // Cov of Mu and ln Sigma
	Mean, P90             Estimate
	Zero, Half, Full      float64
	Fitted                bool // the shape could be fitted
}

// p90Deviate is the normal deviate below which nine tenths lie.
var p90Deviate = odds.NormalQuantile(0.9)

// Fewest figures above detection to which a shape is fitted, and the share below
// beyond which the fit is not believed.
//
// Assumed: common practice, no source.
const (
	fewestSeen   = 5
	mostUnder    = 0.8
	traceRounds  = 100
	traceEnd     = 1e-12
	leastHalving = 1e-6
)

// Trace fits a lognormal distribution to readings of which some lie below
// detection, by weighted maximum likelihood; errors follow from the design.
//
//	max Σ w [(1-c)(ln φ(u) - ln σ) + c ln Φ(u)],   u = (ln x - μ)/σ, at the limit where c = 1
//	mean = exp(μ + σ²/2),   P90 = exp(μ + 1.2816 σ)
//
// Recalled: Tobin 1958; Cochran 1977 for the variance.
// Valid: Fitted is false with fewer than five figures above detection, or more than four in five samples below.
// Check: survreg under the survey package of R, 4.1-1, on invented samples.
func (d *Design) Trace(y []Reading, in Domain) Trace {
	x := make([]float64, len(y))
	for i, r := range y {
		x[i] = r.X
	}
	in = known(x, in)
	t := Trace{Mu: math.NaN(), Sigma: math.NaN(), Mean: nothing(), P90: nothing()}
	var strata int
	t.Samples, t.Farms, strata = d.freedom(in)
	t.Freedom = t.Farms - strata
	t.bounds(d, y, in)
	if t.Samples-t.Under < fewestSeen || t.Under > 0 && float64(t.Under) > mostUnder*float64(t.Samples) {
		return t
	}
	f := newTraceFit(d, y, in)
	if f.climb() {
		t.fill(d, f, in)
	}
	return t
}

// bounds are the plain means by substitution.
func (t *Trace) bounds(d *Design, y []Reading, in Domain) {
	total, under := d.total(in), 0.0
	var seen, limits float64
	for i, r := range y {
		switch {
		case !in[i]:
		case r.Below:
			t.Under++
			under += d.weight[i]
			limits += d.weight[i] * r.X
		default:
			seen += d.weight[i] * r.X
		}
	}
	t.UnderShare = under / total
	t.Zero, t.Half, t.Full = seen/total, (seen+limits/2)/total, (seen+limits)/total
}

// traceFit is the likelihood of a lognormal shape.
type traceFit struct {
	w, ln     []float64 // weights of mean 1, and logarithms; by sample of the survey
	below, in []bool
	mu, lnS   float64
}

func newTraceFit(d *Design, y []Reading, in Domain) *traceFit {
	f := &traceFit{w: make([]float64, len(y)), ln: make([]float64, len(y)), below: make([]bool, len(y)), in: make([]bool, len(y))}
	total, n := d.total(in), 0.0
	for i := range y {
		// A reading of exactly nothing has no logarithm; it says no more than
		// that the method saw nothing.
		if f.in[i] = in[i] && y[i].X > 0; f.in[i] {
			n++
		}
	}
	var sum, squares, weights float64
	for i, r := range y {
		if !f.in[i] {
			continue
		}
		f.w[i], f.ln[i], f.below[i] = d.weight[i]*n/total, math.Log(r.X), r.Below
		sum, weights = sum+f.w[i]*f.ln[i], weights+f.w[i]
	}
	f.mu = sum / weights
	for i := range y {
		if f.in[i] {
			squares += f.w[i] * (f.ln[i] - f.mu) * (f.ln[i] - f.mu)
		}
	}
	f.lnS = math.Log(max(math.Sqrt(squares/weights), 0.1))
	return f
}

// one is what a sample adds: likelihood, score in μ and ln σ, and information.
func (f *traceFit) one(i int) (l, m, s, mm, ms, ss float64) {
	sigma := math.Exp(f.lnS)
	u := (f.ln[i] - f.mu) / sigma
	if !f.below[i] {
		return -u*u/2 - f.lnS, u / sigma, u*u - 1, 1 / (sigma * sigma), 2 * u / sigma, 2 * u * u
	}
	l = lnNormal(u)
	r := math.Exp(-u*u/2-l) / math.Sqrt(2*math.Pi) // density over chance
	k := r * (u + r)                               // less its slope
	return l, -r / sigma, -r * u, k / (sigma * sigma), (-r + u*k) / sigma, -r*u + u*u*k
}

// lnNormal is the logarithm of the chance below u; far down by the first terms of
// its asymptotic series.
func lnNormal(u float64) float64 {
	const far = -20
	if u > far {
		return math.Log(odds.NormalChance(u))
	}
	return -u*u/2 - math.Log(-u) - math.Log(2*math.Pi)/2 + math.Log1p(-1/(u*u))
}

// sums are likelihood, score and information over all samples.
func (f *traceFit) sums() (l float64, score [2]float64, info [3]float64) {
	for i := range f.w {
		if !f.in[i] {
			continue
		}
		li, m, s, mm, ms, ss := f.one(i)
		l += f.w[i] * li
		score[0], score[1] = score[0]+f.w[i]*m, score[1]+f.w[i]*s
		info[0], info[1], info[2] = info[0]+f.w[i]*mm, info[1]+f.w[i]*ms, info[2]+f.w[i]*ss
	}
	return l, score, info
}

// climb finds the maximum by Newton steps that are halved until they rise.
func (f *traceFit) climb() bool {
	for range traceRounds {
		l, score, info := f.sums()
		det := info[0]*info[2] - info[1]*info[1]
		step := [2]float64{score[0] / info[0], score[1] / math.Abs(info[2])}
		if det > 0 && info[0] > 0 {
			step = [2]float64{(info[2]*score[0] - info[1]*score[1]) / det, (info[0]*score[1] - info[1]*score[0]) / det}
		}
		if math.Abs(step[0])+math.Abs(step[1]) < traceEnd {
			return det > 0
		}
		mu, lnS := f.mu, f.lnS
		share := 1.0
		for ; share > leastHalving; share /= 2 {
			f.mu, f.lnS = mu+share*step[0], lnS+share*step[1]
			if now, _, _ := f.sums(); now >= l-1e-12*math.Abs(l) {
				break
			}
		}
		if !(share > leastHalving) || math.IsNaN(f.mu+f.lnS) {
			return false
		}
	}
	return false
}

// fill carries the fit and its errors, by the delta rule, to mean and P90.
func (t *Trace) fill(d *Design, f *traceFit, in Domain) {
	t.Fitted = true
	t.Mu, t.Sigma = f.mu, math.Exp(f.lnS)
	zm, zs := make([]float64, len(f.w)), make([]float64, len(f.w))
	for i := range f.w {
		if f.in[i] {
			_, m, s, _, _, _ := f.one(i)
			zm[i], zs[i] = f.w[i]*m, f.w[i]*s
		}
	}
	both := make([]float64, len(zm))
	for i := range both {
		both[i] = zm[i] + zs[i]
	}
	vm, vs, vb := d.variance(zm, in), d.variance(zs, in), d.variance(both, in)
	cross := (vb - vm - vs) / 2
	_, _, info := f.sums()
	var inverse, cov mat.Dense
	if inverse.Inverse(mat.NewDense(2, 2, []float64{info[0], info[1], info[1], info[2]})) != nil {
		t.Fitted = false
		return
	}
	cov.Product(&inverse, mat.NewDense(2, 2, []float64{vm, cross, cross, vs}), &inverse)
	t.MuSE, t.LogSigmaSE, t.Cov = math.Sqrt(cov.At(0, 0)), math.Sqrt(cov.At(1, 1)), cov.At(0, 1)
	delta := func(value, byMu, byLnS float64) Estimate {
		v := byMu*byMu*cov.At(0, 0) + 2*byMu*byLnS*cov.At(0, 1) + byLnS*byLnS*cov.At(1, 1)
		return Estimate{Value: value, SE: math.Sqrt(v), Freedom: t.Freedom, Samples: t.Samples, Farms: t.Farms}
	}
	mean, p90 := math.Exp(t.Mu+t.Sigma*t.Sigma/2), math.Exp(t.Mu+p90Deviate*t.Sigma)
	t.Mean = delta(mean, mean, mean*t.Sigma*t.Sigma)
	t.P90 = delta(p90, p90, p90*p90Deviate*t.Sigma)
}

// LogInterval is the interval of an estimate that cannot be below nothing, even
// on the scale of its logarithm.
//
//	m exp(± t s/m)
//
// Definition.
func (e Estimate) LogInterval(confidence float64) (low, high float64) {
	factor := math.Exp(odds.StudentQuantile((1+confidence)/2, float64(e.Freedom)) * e.SE / e.Value)
	return e.Value / factor, e.Value * factor
}
