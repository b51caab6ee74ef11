package variety

import (
	"context"
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"awn/mixed"
)

var nan = math.NaN()

// ShareVariance says how the variance of a share goes with its mean m.
type ShareVariance string

// The variances.
const (
	Squared  ShareVariance = "squared"  // m²(1-m)², which fits leaf disease
	Binomial ShareVariance = "binomial" // m(1-m)
)

// of is the variance of a share of mean m, but for its dispersion.
func (v ShareVariance) of(m float64) float64 {
	if v == Squared {
		return m * m * (1 - m) * (1 - m)
	}
	return m * (1 - m)
}

// Shares is a percentage explained by entries and environments on the scale of
// log odds, by quasi-likelihood.
type Shares struct {
	Entries, Environments []string
	Entry                 []mixed.Estimate // log odds of each entry at the first environment
	Environment           []mixed.Estimate // of each environment less the first
	Dispersion            float64          // of what is left, 1 if the variance is as assumed
	Error                 *mat.SymDense    // covariance of the errors, entries then environments from the second
	Iterations            int
}

// ErrNotSettled says that shares could not be fitted: as a rule all are 0 or 1
// in some entry or environment.
var ErrNotSettled = errors.New("the log odds run away: an entry or environment has shares of 0 or 1 throughout")

// Limits of the iteration.
const (
	sharesSteps   = 200
	sharesSettled = 1e-10 // change of the log odds
	sharesFar     = 40    // log odds that no share distinguishes from 0 or 1
	shareStart    = 0.001 // how near to 0 or 1 a share may start
)

// Shares fits a percentage trait by iterated least squares:
//
//	log(m/(1-m)) = entry + environment,   variance d v(m)
//
// of the mean m of the plots of an entry in an environment.
// It wants two entries and environments at least, joined by cells; else, or if
// the trait is not there, it returns ErrNothing.
func (t Trials) Shares(ctx context.Context, trait string, v ShareVariance) (*Shares, error) {
	at := t.Trait(trait)
	if at < 0 {
		return nil, ErrNothing
	}
	records := cellMeans(t.with(at), at)
	s := &Shares{Entries: labels(records, entryOf), Environments: labels(records, Record.where)}
	columns := len(s.Entries) + len(s.Environments) - 1
	if len(s.Entries) < 2 || len(s.Environments) < 2 || len(records) <= columns || len(connected(records)) > 1 {
		return nil, ErrNothing
	}
	w := newWeighing(s, records, at)
	for s.Iterations = 1; s.Iterations <= sharesSteps; s.Iterations++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		change, err := w.step(v)
		if err != nil {
			return nil, err
		}
		if change < sharesSettled {
			w.finish(s, v)
			return s, nil
		}
	}
	return nil, ErrNotSettled
}

// cellMeans is a record for each entry in each environment, with the mean of its
// plots: so what is left over holds how entries answer to places, by which they are
// to be judged, and not plots alone.
func cellMeans(records []Record, at int) []Record {
	place, n := map[cell]int{}, map[cell]float64{}
	var out []Record
	for _, r := range records {
		i, ok := place[r.cell()]
		if !ok {
			i = len(out)
			place[r.cell()] = i
			r.Value = slices.Clone(r.Value)
			out, n[r.cell()] = append(out, r), 1
			continue
		}
		n[r.cell()]++
		out[i].Value[at] += (r.Value[at] - out[i].Value[at]) / n[r.cell()]
	}
	return out
}

// weighing is the iterated least squares while it runs.
type weighing struct {
	y           []float64
	odds        []float64 // linear predictor of each record
	first, then []int     // columns of each record; then is -1 for the first environment
	columns     int
	solution    *mat.VecDense
	cholesky    mat.Cholesky
}

func newWeighing(s *Shares, records []Record, at int) *weighing {
	w := &weighing{columns: len(s.Entries) + len(s.Environments) - 1}
	entry, place := map[string]int{}, map[string]int{}
	for i, l := range s.Entries {
		entry[l] = i
	}
	for i, l := range s.Environments {
		place[l] = len(s.Entries) + i - 1
	}
	place[s.Environments[0]] = -1
	for _, r := range records {
		y := math.Min(math.Max(r.Value[at]/100, 0), 1)
		start := math.Min(math.Max(y, shareStart), 1-shareStart)
		w.y, w.odds = append(w.y, y), append(w.odds, math.Log(start/(1-start)))
		w.first, w.then = append(w.first, entry[r.Entry]), append(w.then, place[r.where()])
	}
	w.solution = mat.NewVecDense(w.columns, nil)
	return w
}

// step solves the weighted equations once and returns the largest change.
func (w *weighing) step(v ShareVariance) (float64, error) {
	a, b := mat.NewSymDense(w.columns, nil), mat.NewVecDense(w.columns, nil)
	for i, o := range w.odds {
		m := 1 / (1 + math.Exp(-o))
		slope := m * (1 - m)
		weight := slope * slope / v.of(m)
		z := o + (w.y[i]-m)/slope
		f, g := w.first[i], w.then[i]
		a.SetSym(f, f, a.At(f, f)+weight)
		b.SetVec(f, b.AtVec(f)+weight*z)
		if g >= 0 {
			a.SetSym(g, g, a.At(g, g)+weight)
			a.SetSym(f, g, a.At(f, g)+weight)
			b.SetVec(g, b.AtVec(g)+weight*z)
		}
	}
	if !w.cholesky.Factorize(a) || w.cholesky.SolveVecTo(w.solution, b) != nil {
		return 0, ErrNotSettled
	}
	change := 0.0
	for i := range w.odds {
		o := w.solution.AtVec(w.first[i])
		if w.then[i] >= 0 {
			o += w.solution.AtVec(w.then[i])
		}
		if !(math.Abs(o) < sharesFar) {
			return 0, ErrNotSettled
		}
		change = max(change, math.Abs(o-w.odds[i]))
		w.odds[i] = o
	}
	return change, nil
}

// finish works out dispersion and errors.
func (w *weighing) finish(s *Shares, v ShareVariance) {
	free := float64(len(w.y) - w.columns)
	for i, o := range w.odds {
		m := 1 / (1 + math.Exp(-o))
		s.Dispersion += (w.y[i] - m) * (w.y[i] - m) / v.of(m) / free
	}
	s.Error = mat.NewSymDense(w.columns, nil)
	if w.cholesky.InverseTo(s.Error) != nil {
		s.Error = nil
		return
	}
	s.Error.ScaleSym(s.Dispersion, s.Error)
	for c := range w.columns {
		e := mixed.Estimate{Value: w.solution.AtVec(c), SE: math.Sqrt(s.Error.At(c, c)), Freedom: free}
		if c < len(s.Entries) {
			s.Entry = append(s.Entry, e)
		} else {
			s.Environment = append(s.Environment, e)
		}
	}
}

// Percent is the share of an entry, in per cent, that would be seen in an
// environment as bad as the middle of those tried.
//
//	100 / (1 + exp(-(entry + mean of environments)))
//
// Definition.
// Valid: an entry of the fit; NaN else.
func (s *Shares) Percent(entry int) float64 {
	if entry < 0 || entry >= len(s.Entry) {
		return math.NaN()
	}
	sum := s.Entry[entry].Value
	for _, e := range s.Environment {
		sum += e.Value / float64(len(s.Environments))
	}
	return 100 / (1 + math.Exp(-sum))
}

// shareVariances are the variances of the traits that are fitted as shares.
// Lodging, of which many plots have none, is counted like parts of an area.
var shareVariances = map[string]ShareVariance{"disease": Squared, "lodging": Binomial}

// ShareComparison is an entry against the check in a share.
type ShareComparison struct {
	Entry      string
	Percent    float64        // expected where it is as bad as in the middle of those tried
	Difference mixed.Estimate // of log odds, entry less check
	Low, High  float64        // of the odds, as a multiple of the check's
	Less       float64        // chance that its share is truly less
	PDunnett   float64        // of no difference, adjusted for the number of candidates
}

// Against compares every other entry with the check at the given confidence; none
// if the check is not there.
func (s *Shares) Against(check string, confidence float64) []ShareComparison {
	c := slices.Index(s.Entries, check)
	if c < 0 || s.Error == nil {
		return nil
	}
	apart := mixed.AgainstCheck(len(s.Entries)-1, evenlyShared)
	var out []ShareComparison
	for i, entry := range s.Entries {
		if i == c {
			continue
		}
		e := s.Error
		d := mixed.Estimate{Value: s.Entry[i].Value - s.Entry[c].Value, Freedom: s.Entry[i].Freedom,
			SE: math.Sqrt(e.At(i, i) + e.At(c, c) - 2*e.At(i, c))}
		x := ShareComparison{Entry: entry, Percent: s.Percent(i), Difference: d, Low: nan, High: nan, Less: nan, PDunnett: nan}
		if d.SE > 0 && d.Freedom >= 2 {
			student := distuv.StudentsT{Sigma: 1, Nu: d.Freedom}
			reach := student.Quantile((1+confidence)/2) * d.SE
			x.Low, x.High = math.Exp(d.Value-reach), math.Exp(d.Value+reach)
			x.Less = student.CDF(-d.Value / d.SE)
			x.PDunnett = 1 - apart.Chance(math.Abs(d.Value)/d.SE, d.Freedom)
		}
		out = append(out, x)
	}
	return out
}

// evenlyShared is how two differences from one check go together where all are
// known equally well.
const evenlyShared = 0.5
