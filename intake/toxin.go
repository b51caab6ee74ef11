package intake

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"awn/finding"
	"awn/odds"
)

// ToxinPlan is how a lot is sampled for a mycotoxin: the ground sample, the
// portion of it that is extracted, and how often that portion is analysed.
type ToxinPlan struct {
	SampleG  float64
	PortionG float64
	Analyses int
}

// Valid reports whether the plan can be carried out.
func (p ToxinPlan) Valid() bool {
	return p.SampleG > 0 && p.PortionG > 0 && p.PortionG <= p.SampleG && p.Analyses > 0 && !math.IsInf(p.SampleG, 1)
}

// The law of variance of deoxynivalenol was found on wheat: no figures for
// barley are known here.
const (
	toxinPower     = 0.833
	toxinSample    = 0.026 // at a sample of 454 g
	toxinPortion   = 0.066 // at a portion of 25 g
	toxinAnalysis  = 0.026 // for one analysis
	toxinSampleG   = 454
	toxinPortionG  = 25
	toxinMostMgKg  = 100
	toxinLeastMgKg = 0.001
)

// Deviation is the standard deviation of a result of deoxynivalenol, all in
// kg per kg.
//
//	s² = C^0.833 (0.026 · 454/ns + 0.066 · 25/g + 0.026/n)        (C and s in mg/kg; ns, g sample and portion in g)
//
// Recalled: Whitaker 2000, wheat. Its coefficients give the four coefficients of variation at 5 mg/kg that were read there.
// Valid: 0.001 to 100 mg/kg; NaN outside.
// Check: Whitaker 2000: 6.3, 10.0, 6.3 and together 13.4 % at 5 mg/kg; testdata/don_oc.csv.
// Note: wheat stands in for barley; how the lot itself is mixed is another matter.
func (p ToxinPlan) Deviation(truth float64) float64 {
	c := 1e6 * truth
	if !p.Valid() || !(c >= toxinLeastMgKg && c <= toxinMostMgKg) {
		return math.NaN()
	}
	per := toxinSample*toxinSampleG/p.SampleG + toxinPortion*toxinPortionG/p.PortionG + toxinAnalysis/float64(p.Analyses)
	return 1e-6 * math.Sqrt(per*math.Pow(c, toxinPower))
}

// AcceptChance is the chance that a lot with a true content of deoxynivalenol
// reads no more than the limit: one point of the plan's operating curve.
//
//	P = Γ(limit; mean C, variance s²)        (Γ the gamma distribution)
//
// Assumed: results follow a gamma distribution, skewed as results of mycotoxins are.
// Valid: contents of 0.001 to 100 mg/kg, a portion within its sample and a limit of 0 or more; NaN outside.
// Check: testdata/don_oc.csv, three plans and three limits.
func (p ToxinPlan) AcceptChance(truth, limit float64) float64 {
	s := p.Deviation(truth)
	if math.IsNaN(s) || !(limit >= 0) {
		return math.NaN()
	}
	shape := truth * truth / (s * s)
	return distuv.Gamma{Alpha: shape, Beta: truth / (s * s)}.CDF(limit)
}

// True is what a lot may truly hold that reads x: the contents at which a
// reading as low, or as high, has one chance in twenty.
func (p ToxinPlan) True(x float64) odds.Value {
	out := odds.Alone(x, odds.Measured)
	if !p.Valid() || !(x >= 1e-6*toxinLeastMgKg && x <= 1e-6*toxinMostMgKg/4) {
		return out
	}
	const edge = 0.05
	at := func(chance float64) float64 {
		low, high := math.Log(1e-6*toxinLeastMgKg), math.Log(1e-6*toxinMostMgKg)
		for high-low > 1e-9 {
			mid := (low + high) / 2
			if p.AcceptChance(math.Exp(mid), x) > chance {
				low = mid
			} else {
				high = mid
			}
		}
		return math.Exp(low)
	}
	out.Low, out.High = at(1-edge), at(edge)
	return out
}

// AgainstLimit says what a reading comes to against a limit for what the lot
// may truly hold.
func (p ToxinPlan) AgainstLimit(read, limit float64) []finding.Finding {
	truth := p.True(read)
	if !truth.Banded() || !(limit > 0) {
		return nil
	}
	figures := []finding.Figure{figure("read_mg_kg", 1e6*read), figure("low_mg_kg", 1e6*truth.Low), figure("high_mg_kg", 1e6*truth.High), figure("limit_mg_kg", 1e6*limit)}
	f := finding.New("intake.toxin.below", finding.Note, stage, figures...)
	f.Chance, f.Cost, f.Source = 0.05, 0.5, "Whitaker 2000"
	switch {
	case truth.Low > limit:
		f = finding.New("intake.toxin.above", finding.Alarm, stage, figures...)
		f.Act, f.Chance, f.Cost, f.Source = "act.intake.toxin-apart", 0.95, 1, "Whitaker 2000"
	case truth.High > limit:
		f = finding.New("intake.toxin.unsure", finding.Caution, stage, figures...)
		f.Act, f.Chance, f.Cost, f.Source = "act.intake.larger-sample", 0.5, 0.5, "Whitaker 2000"
	}
	return []finding.Finding{f}
}

// mostSamples is how many portions of 454 g a sampler is asked for at most.
const mostSamples = 40

// SampleFor is the smallest sample, in whole multiples of 454 g, by which a
// lot of a bad true content is accepted with no more than the given chance.
// Portion and analyses stay as in the plan. It reports false where no sample
// of up to 18 kg will do: the portion and the analyses then decide.
func (p ToxinPlan) SampleFor(bad, limit, buyersRisk float64) (ToxinPlan, bool) {
	for n := 1; n <= mostSamples; n++ {
		p.SampleG = toxinSampleG * float64(n)
		if c := p.AcceptChance(bad, limit); c <= buyersRisk {
			return p, true
		}
	}
	return p, false
}
