package variety

import (
	"context"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"awn/mixed"
)

// Comparison is one entry against the check.
type Comparison struct {
	Entry      string
	Difference mixed.Estimate // of the means, entry less check
	LSD        float64        // what a difference has to exceed if this were the only one looked at: not adjusted
	Need       float64        // what it has to exceed, all candidates taken together (Dunnett)
	P          float64        // of no difference, not adjusted
	PDunnett   float64        // of no difference, adjusted for the number of candidates
	Expected   mixed.Estimate // difference of the predicted effects
	Beats      float64        // chance that the entry is truly better than the check; NaN where no trial joins the two
	// BeatsAllLooked is how sure one may be that it is better, all candidates
	// having been looked at for one that is (Dunnett, one-sided).
	BeatsAllLooked float64
}

// Against compares every other entry with the check at the given confidence of
// LSD and Need. Figures that the trial cannot tell are NaN. It returns nothing if
// the check is not there.
func (a *Analysis) Against(check string, confidence float64) []Comparison {
	c := a.Place(check)
	if c < 0 || a.effects == nil {
		return nil
	}
	var out []Comparison
	correlation := a.sharedError(c)
	candidates := len(a.Entries) - 1
	apart, above := mixed.AgainstCheck(candidates, correlation), mixed.AboveCheck(candidates, correlation)
	for i, e := range a.Entries {
		if i == c {
			continue
		}
		x := Comparison{Entry: e.Name, Difference: unknown(), LSD: math.NaN(), Need: math.NaN(), P: math.NaN(),
			PDunnett: math.NaN(), BeatsAllLooked: math.NaN()}
		x.Expected = a.effects.Difference(i, c)
		x.Beats = a.beats(x.Expected)
		if a.means != nil {
			if x.Difference = a.means.Difference(i, c); !x.Difference.Known() {
				x.Beats = math.NaN() // no trial joins the two
			}
		}
		if d := x.Difference; d.Known() && d.SE > 0 && d.Freedom >= 2 {
			student := distuv.StudentsT{Sigma: 1, Nu: d.Freedom}
			t := d.Value / d.SE
			x.LSD, x.Need = student.Quantile((1+confidence)/2)*d.SE, apart.Quantile(confidence, d.Freedom)*d.SE
			x.P = 2 * student.Survival(math.Abs(t))
			x.PDunnett = 1 - apart.Chance(math.Abs(t), d.Freedom)
			if sign := a.Trait.sign(); sign != 0 {
				x.BeatsAllLooked = above.Chance(sign*t, d.Freedom)
			}
		}
		out = append(out, x)
	}
	return out
}

// beats is the chance that a predicted difference from the check is truly on the
// good side; NaN for a trait with no such side.
func (a *Analysis) beats(d mixed.Estimate) float64 {
	sign := a.Trait.sign()
	switch {
	case sign == 0:
		return math.NaN()
	case d.SE == 0:
		return 0.5
	}
	return distuv.UnitNormal.CDF(sign * d.Value / d.SE)
}

// sharedError is the mean correlation of two differences from the check: a half
// where all means are known equally well, more where the check is known worse.
func (a *Analysis) sharedError(check int) float64 {
	if a.means == nil {
		return math.NaN()
	}
	e, sum, n := a.means.Error, 0.0, 0.0
	spread := func(i int) float64 {
		return math.Sqrt(e.At(i, i) + e.At(check, check) - 2*e.At(i, check))
	}
	for i := range a.Entries {
		if i == check || math.IsNaN(a.means.Value[i]) {
			continue
		}
		for j := range i {
			if j == check || math.IsNaN(a.means.Value[j]) {
				continue
			}
			sum += (e.At(i, j) - e.At(i, check) - e.At(j, check) + e.At(check, check)) / (spread(i) * spread(j))
			n++
		}
	}
	if n == 0 {
		return 0.5 // a single candidate shares with none
	}
	return math.Min(math.Max(sum/n, 0), 0.99)
}

// Pair is two entries compared, with all pairs taken together.
type Pair struct {
	A, B       string
	Difference mixed.Estimate // A less B
	HSD        float64        // what a difference has to exceed (Tukey, Kramer)
	P, PTukey  float64        // of no difference: not adjusted, and adjusted for all pairs
	PHolm      float64
}

// Pairs compares every entry with every other at the given confidence of HSD.
// With hundreds of entries there are tens of thousands of pairs: it stops, with
// its error, when ctx ends.
func (a *Analysis) Pairs(ctx context.Context, confidence float64) ([]Pair, error) {
	if a.means == nil {
		return nil, nil
	}
	var out []Pair
	var p []float64
	k := len(a.Entries)
	all := mixed.AllPairs(k)
	for i := range a.Entries {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for j := i + 1; j < k; j++ {
			x := Pair{A: a.Entries[i].Name, B: a.Entries[j].Name, Difference: a.means.Difference(i, j),
				HSD: math.NaN(), P: math.NaN(), PTukey: math.NaN()}
			if d := x.Difference; d.Known() && d.SE > 0 && d.Freedom >= 2 {
				t := math.Abs(d.Value) / d.SE
				x.HSD = all.Quantile(confidence, d.Freedom) * d.SE / math.Sqrt2
				x.P = 2 * distuv.StudentsT{Sigma: 1, Nu: d.Freedom}.Survival(t)
				x.PTukey = 1 - all.Chance(t*math.Sqrt2, d.Freedom)
			}
			out, p = append(out, x), append(p, x.P)
		}
	}
	for i, x := range mixed.Holm(p) {
		out[i].PHolm = x
	}
	return out, nil
}
