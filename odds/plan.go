package odds

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Plan is an accept rule: look at N kernels, accept if at most C of them are
// bad. ">= 95 of 100 germinate" is Plan{N: 100, C: 5}.
type Plan struct {
	N, C int
}

// Valid reports whether the rule can be carried out.
func (p Plan) Valid() bool { return p.N > 0 && p.C >= 0 && p.C <= p.N }

// AcceptChance is the chance that the rule accepts a lot in which the share
// bad of all kernels is bad: one point of its operating curve.
//
//	P = sum over k = 0..C of binomial(N, k) bad^k (1-bad)^(N-k)
//
// Definition.
// Valid: bad 0 to 1 and 0 <= C <= N; NaN outside.
// Check: testdata/germ_oc.csv, and the sum term by term.
// Note: kernels are drawn from a lot so large that drawing does not change it.
func (p Plan) AcceptChance(bad float64) float64 {
	switch {
	case !p.Valid() || !(bad >= 0 && bad <= 1):
		return math.NaN()
	case p.C == p.N || bad == 0:
		return 1
	case bad == 1:
		return 0
	}
	return distuv.Binomial{N: float64(p.N), P: bad}.CDF(float64(p.C))
}

// BadAt is the share of bad kernels at which the rule accepts with the given
// chance: the inverse of the operating curve. A C of N accepts everything and
// gives NaN.
//
//	bad = B(1-chance; C+1, N-C)        (B the beta quantile)
//
// Definition.
// Valid: chance strictly between 0 and 1; NaN outside.
func (p Plan) BadAt(chance float64) float64 {
	if !p.Valid() || p.C == p.N || !inside(chance) {
		return math.NaN()
	}
	return distuv.Beta{Alpha: float64(p.C + 1), Beta: float64(p.N - p.C)}.Quantile(1 - chance)
}
