package mixed

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Range and number of points of the quadratures below: beyond 8 standard
// deviations the normal density is under 1e-14.
const (
	normalTail   = 8
	normalPoints = 96
	spreadTail   = 1e-13
	manyFreedom  = 1e6 // from here on the standard deviation counts as known
)

// grid is points and weights of a quadrature under a density.
type grid struct{ at, weight []float64 }

func legendre(n int, low, high float64, density func(float64) float64) grid {
	g := grid{make([]float64, n), make([]float64, n)}
	quad.Legendre{}.FixedLocations(g.at, g.weight, low, high)
	for i, x := range g.at {
		g.weight[i] *= density(x)
	}
	return g
}

// normalGrid integrates under the standard normal density.
var normalGrid = legendre(normalPoints, -normalTail, normalTail, distuv.UnitNormal.Prob)

// spreadPoints is how many points the spread takes: more where it has a long tail.
func spreadPoints(freedom float64) int {
	switch {
	case freedom <= 15:
		return 64
	case freedom <= 90:
		return 32
	}
	return 26
}

// spreadGrid integrates under the density of an estimated standard deviation,
// as a share of the true one, with the given degrees of freedom.
func spreadGrid(freedom float64) grid {
	if freedom >= manyFreedom {
		return grid{[]float64{1}, []float64{1}}
	}
	chi := distuv.ChiSquared{K: freedom}
	low, high := math.Sqrt(chi.Quantile(spreadTail)/freedom), math.Sqrt(chi.Quantile(1-spreadTail)/freedom)
	return legendre(spreadPoints(freedom), low, high, func(s float64) float64 {
		return chi.Prob(s*s*freedom) * 2 * s * freedom
	})
}

// studentised averages the chance that within gives over the spread.
func studentised(freedom float64, within func(s float64) float64) float64 {
	return spreadGrid(freedom).mean(within)
}

// mean averages a chance over the density of the grid.
func (g grid) mean(chance func(x float64) float64) float64 {
	sum := 0.0
	for i, x := range g.at {
		sum += g.weight[i] * chance(x)
	}
	return math.Min(math.Max(sum, 0), 1)
}

// quantile inverts a chance that rises from 0, by false position with the end
// that stays halved (the Illinois rule).
func quantile(p float64, chance func(q float64) float64) float64 {
	low, high := 0.0, 4.0
	below, above := -p, chance(high)-p
	for above < 0 && high < 1e6 {
		low, below = high, above
		high *= 2
		above = chance(high) - p
	}
	for range 200 {
		mid := (low*above - high*below) / (above - below)
		at := chance(mid) - p
		if math.Abs(at) < 1e-10*p*(1-p) || high-low < 1e-9*high {
			return mid
		}
		if at > 0 {
			high, above = mid, at
			below /= 2
		} else {
			low, below = mid, at
			above /= 2
		}
	}
	return (low + high) / 2
}

// Degrees of freedom and numbers of means that the quadratures serve.
const (
	leastFreedom = 2
	mostMeans    = 5000
)

func served(means, least int, freedom float64) bool {
	return means >= least && means <= mostMeans && freedom >= leastFreedom
}

func inside(p float64) bool { return p > 0 && p < 1 }
