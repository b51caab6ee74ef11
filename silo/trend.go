package silo

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"awn/odds"
)

// Look is one count of a lot in store.
type Look struct {
	Day   float64 // since filling
	Count odds.Proportion
}

// Trend is a line through counts: probits of germination against time. Where
// counts scatter more than kernels drawn at random would, the band is widened
// by as much.
type Trend struct {
	At0, PerDay float64 // probits
	// variances and covariance of the two, and the freedom behind them: infinite
	// where sampling alone is counted.
	v00, v01, v11, freedom float64
	First, Last            float64 // days of the first and last look
	Looks                  int
	Scatter                float64 // Pearson's χ² over its freedom; NaN of fewer than three looks
}

// Fit draws the line by maximum likelihood (binomial counts, probit link). It
// reports false where fewer than two days were looked at, or a count cannot
// be. Where nothing failed, or failed only on the last day, the likelihood has
// no peak: then half a kernel is added on either side of every count.
func Fit(looks []Look) (Trend, bool) {
	t := Trend{First: math.Inf(1), Last: math.Inf(-1), Looks: len(looks), Scatter: math.NaN()}
	for _, l := range looks {
		if !l.Count.Valid() || math.IsNaN(l.Day) || math.IsInf(l.Day, 0) {
			return Trend{}, false
		}
		t.First, t.Last = min(t.First, l.Day), max(t.Last, l.Day)
	}
	if !(t.First < t.Last) {
		return Trend{}, false
	}
	if !t.solve(looks, 0) && !t.solve(looks, 0.5) {
		return Trend{}, false
	}
	return t, true
}

// solve iterates to the likeliest line, with so much of a kernel added to
// either side of each count; false if it runs away.
func (t *Trend) solve(looks []Look, added float64) bool {
	const most, enough, wild = 60, 1e-10, 8
	a, b := t.firstGuess(looks), 0.0
	for range most {
		n := t.normal(looks, added, a, b)
		da, db := n.step()
		a, b = a+da, b+db
		if !(math.Abs(a+b*t.First) < wild && math.Abs(a+b*t.Last) < wild) {
			return false
		}
		if math.Abs(da)+math.Abs(db)*(t.Last-t.First) < enough {
			t.finish(looks, added, a, b)
			return true
		}
	}
	return false
}

// firstGuess is the level of all counts together.
func (t *Trend) firstGuess(looks []Look) float64 {
	hits, of := 0, 0
	for _, l := range looks {
		hits, of = hits+l.Count.Hits, of+l.Count.Of
	}
	return odds.NormalQuantile((float64(hits) + 0.5) / (float64(of) + 1))
}

// normal are the sums of a weighted regression, and the χ² of its residuals.
type normal struct{ w, wx, wxx, wz, wxz, chi2 float64 }

// normal gathers the sums at a line: expected information and score.
func (t *Trend) normal(looks []Look, added, a, b float64) (s normal) {
	for _, l := range looks {
		n, y := float64(l.Count.Of)+2*added, float64(l.Count.Hits)+added
		v := a + b*l.Day
		p := min(max(odds.NormalChance(v), 1e-12), 1-1e-12)
		density := math.Exp(-v*v/2) / math.Sqrt(2*math.Pi)
		spread := n * p * (1 - p)
		w := n * n * density * density / spread
		z := (y - n*p) * n * density / spread // score
		s.w, s.wx, s.wxx = s.w+w, s.wx+w*l.Day, s.wxx+w*l.Day*l.Day
		s.wz, s.wxz = s.wz+z, s.wxz+z*l.Day
		s.chi2 += (y - n*p) * (y - n*p) / spread
	}
	return s
}

// step is what scoring adds to the line.
func (s normal) step() (da, db float64) {
	det := s.w*s.wxx - s.wx*s.wx
	return (s.wxx*s.wz - s.wx*s.wxz) / det, (s.w*s.wxz - s.wx*s.wz) / det
}

// scatterLooks is from how many looks on their scatter is believed: fewer say
// too little of it.
//
// Assumed: a judgement.
const scatterLooks = 5

// finish keeps the line with its variances.
func (t *Trend) finish(looks []Look, added, a, b float64) {
	s := t.normal(looks, added, a, b)
	det := s.w*s.wxx - s.wx*s.wx
	wide := 1.0
	t.freedom = math.Inf(1)
	if len(looks) > 2 {
		t.Scatter = s.chi2 / float64(len(looks)-2)
		if t.Scatter > 1 && len(looks) >= scatterLooks {
			wide, t.freedom = t.Scatter, float64(len(looks)-2)
		}
	}
	t.At0, t.PerDay = a, b
	t.v00, t.v01, t.v11 = wide*s.wxx/det, -wide*s.wx/det, wide*s.w/det
}

// deviate is Student's, or the normal one where sampling alone is counted.
func (t Trend) deviate(p float64) float64 {
	if math.IsInf(t.freedom, 1) {
		return odds.NormalQuantile(p)
	}
	return odds.StudentQuantile(p, t.freedom)
}

// On is what the line gives for a day, with its band.
func (t Trend) On(day float64) odds.Value {
	v := t.At0 + t.PerDay*day
	half := t.deviate(0.95) * math.Sqrt(t.v00+2*day*t.v01+day*day*t.v11)
	return odds.Value{
		Mid: odds.NormalChance(v), Low: odds.NormalChance(v - half), High: odds.NormalChance(v + half), Standing: odds.Measured,
	}
}

// FallingChance is the chance that germination truly falls.
//
//	P = T(-b/s)      (b the slope, s its standard error)
//
// Definition.
func (t Trend) FallingChance() float64 {
	score := -t.PerDay / math.Sqrt(t.v11)
	if math.IsInf(t.freedom, 1) {
		return odds.NormalChance(score)
	}
	return distuv.StudentsT{Sigma: 1, Nu: t.freedom}.CDF(score)
}

// Days are when something is reached: NaN where the line never gets there.
type Days struct{ Mid, Low, High float64 }

// Reaches is the day on which germination falls to a level, with the day by
// which it may have (one chance in twenty) and after which it surely has. The
// limits are Fieller's: they need not lie evenly, and the later one is missing
// where the counts allow that it never falls so far.
func (t Trend) Reaches(level float64) Days {
	d := Days{math.NaN(), math.NaN(), math.NaN()}
	z := Probits(level) - t.At0
	if math.IsNaN(z) || math.IsInf(z, 0) {
		return d
	}
	if t.PerDay < 0 {
		d.Mid = z / t.PerDay
	}
	// (b x - z)² = c² (v00 + 2 x v01 + x² v11), a quadratic in x.
	c := t.deviate(0.95)
	qa := t.PerDay*t.PerDay - c*c*t.v11
	qb := -2 * (z*t.PerDay + c*c*t.v01)
	qc := z*z - c*c*t.v00
	root := qb*qb - 4*qa*qc
	if root < 0 {
		return d
	}
	x1, x2 := (-qb-math.Sqrt(root))/(2*qa), (-qb+math.Sqrt(root))/(2*qa)
	x1, x2 = min(x1, x2), max(x1, x2)
	switch {
	case qa > 0 && t.PerDay < 0:
		d.Low, d.High = x1, x2
	case qa < 0: // it may never fall; the earliest is the later root
		d.Low = x2
	}
	return d
}

// Going is which way a count goes.
type Going int

// The ways.
const (
	NotShown Going = iota // too few or too scattered counts to say
	Steady                // a fall by a point a month is ruled out
	Falling
	Rising
)

// surely is the chance from which a change counts as shown, and pointAMonth
// the fall that matters.
const (
	surely      = 0.95
	pointAMonth = 0.01 / 30
)

// Going tells a fall from noise.
func (t Trend) Going() Going {
	falling := t.FallingChance()
	mid := (t.First + t.Last) / 2
	v := t.At0 + t.PerDay*mid
	density := math.Exp(-v*v/2) / math.Sqrt(2*math.Pi)
	steepest := density * (t.PerDay - t.deviate(surely)*math.Sqrt(t.v11)) // share a day
	switch {
	case falling >= surely:
		return Falling
	case falling <= 1-surely:
		return Rising
	case steepest > -pointAMonth:
		return Steady
	}
	return NotShown
}
