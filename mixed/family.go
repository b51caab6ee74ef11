package mixed

import "math"

// Family is comparisons that are judged together: all candidates with the check,
// or all pairs. What is dear in its chances, that with the standard deviation
// known, does not depend on the degrees of freedom; it is worked out once, on an
// even grid, for all comparisons of the family. Chances differ from those of the
// functions of one comparison by less than 1e-6, and by less than 1e-4 where
// differences go together by more than 0.7.
type Family struct {
	low   float64
	known []float64 // chance with the standard deviation known, familyStep apart from low on
}

// Grid of a family, which an interpolation of the fifth degree goes through.
// Beyond its reach nothing is left of the chance.
const (
	familyStep  = 1.0 / 32
	familyReach = 12
	rangeReach  = 18
	familyNodes = 6
)

// AgainstCheck is m differences from one check, either way; any two have the given
// correlation. It returns nil where DunnettChance is NaN.
func AgainstCheck(m int, correlation float64) *Family {
	if !served(m, 1, leastFreedom) || !shared(correlation) {
		return nil
	}
	return family(0, familyReach, besideCheck(m, correlation))
}

// AboveCheck is m differences from one check, upwards only.
func AboveCheck(m int, correlation float64) *Family {
	if !served(m, 1, leastFreedom) || !shared(correlation) {
		return nil
	}
	return family(-familyReach, familyReach, aboveCheck(m, correlation))
}

// AllPairs is all differences of two among k means, as their studentised range.
// It returns nil where TukeyChance is NaN.
func AllPairs(k int) *Family {
	if !served(k, 2, leastFreedom) {
		return nil
	}
	return family(0, rangeReach, rangeOf(k))
}

func family(low, high float64, known func(t float64) float64) *Family {
	f := &Family{low: low, known: make([]float64, int((high-low)/familyStep)+1)}
	for i := range f.known {
		f.known[i] = known(low + float64(i)*familyStep)
	}
	return f
}

// Chance is the chance that no comparison of the family exceeds t, studentised
// with the given degrees of freedom, if none truly differs.
//
//	P = ∫ f(s) P(t s | deviation known) ds        (f the density of s, an estimated standard deviation over the true one)
//
// Definition.
// Valid: freedom from 2; t from 0, of either sign for AboveCheck; NaN outside, and for a family that is nil.
// Check: TukeyChance, DunnettChance and DunnettOneSidedChance.
func (f *Family) Chance(t, freedom float64) float64 {
	if f == nil || !(freedom >= leastFreedom) || math.IsNaN(t) || t < 0 && f.low == 0 {
		return math.NaN()
	}
	return f.under(spreadGrid(freedom), t)
}

// Quantile is the studentised difference that no comparison of the family exceeds
// with chance p, if none truly differs.
//
//	t = P⁻¹(p)        (P of Chance)
//
// Definition.
// Valid: p strictly between 0 and 1, from 0.5 for AboveCheck; freedom from 2; NaN outside, and for a family that is nil.
// Check: testdata/dunnett.csv and testdata/tukey.csv.
func (f *Family) Quantile(p, freedom float64) float64 {
	if f == nil || !(freedom >= leastFreedom) || !inside(p) || p < 0.5 && f.low < 0 {
		return math.NaN()
	}
	g := spreadGrid(freedom)
	return quantile(p, func(t float64) float64 { return f.under(g, t) })
}

// under averages over the spread.
func (f *Family) under(g grid, t float64) float64 {
	return g.mean(func(s float64) float64 { return f.at(t * s) })
}

// at is the chance with the standard deviation known.
func (f *Family) at(t float64) float64 {
	x := (t - f.low) / familyStep
	switch {
	case x <= 0:
		return f.known[0]
	case x >= float64(len(f.known)-1):
		return 1
	}
	first := min(max(int(x)-familyNodes/2+1, 0), len(f.known)-familyNodes)
	x -= float64(first)
	y := f.known[first : first+familyNodes]
	a, b, c, d, e, h := x, x-1, x-2, x-3, x-4, x-5
	// Lagrange's form; the divisors are the products of the distances of the nodes.
	return b*c*d*e*h*y[0]/-120 + a*c*d*e*h*y[1]/24 + a*b*d*e*h*y[2]/-12 +
		a*b*c*e*h*y[3]/12 + a*b*c*d*h*y[4]/-24 + a*b*c*d*e*y[5]/120
}
