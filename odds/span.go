package odds

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Range of the quadrature below: beyond 8 standard deviations the normal
// density is under 1e-14, and 128 points resolve the rest to 1e-10.
const (
	spanTail   = 8
	spanPoints = 128
)

// SpanChance is the chance that the range of k standard normal draws (largest
// less smallest) is no more than q.
//
//	P = k ∫ f(z) (F(z) - F(z-q))^(k-1) dz        (f, F the standard normal density and distribution)
//
// Definition.
// Valid: k from 2 to 100; NaN outside.
// Check: for k = 2 the closed form 2 F(q/sqrt 2) - 1.
func SpanChance(q float64, k int) float64 {
	if math.IsNaN(q) || k < 2 || k > 100 {
		return math.NaN()
	}
	if q <= 0 {
		return 0
	}
	density := func(z float64) float64 {
		within := NormalChance(z) - NormalChance(z-q)
		return distuv.UnitNormal.Prob(z) * math.Pow(within, float64(k-1))
	}
	return float64(k) * quad.Fixed(density, -spanTail, spanTail+q, spanPoints, nil, 0)
}

// SpanQuantile is the range of k standard normal draws (largest less smallest)
// that is not exceeded with chance p: the studentised range when the standard
// deviation is known.
//
//	p = k ∫ f(z) (F(z) - F(z-q))^(k-1) dz        (f, F the standard normal density and distribution)
//
// Definition.
// Valid: p strictly between 0 and 1, k from 2 to 100; NaN outside.
// Check: for k = 2 the closed form sqrt(2) z((1+p)/2); for 3 and 4 the printed table of the studentised range, recalled.
func SpanQuantile(p float64, k int) float64 {
	if !inside(p) || k < 2 || k > 100 {
		return math.NaN()
	}
	low, high := 0.0, 2.0*spanTail
	for high-low > 1e-9 {
		if mid := (low + high) / 2; SpanChance(mid, k) < p {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
