package odds

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// NormalQuantile is the standard normal deviate below which the share p lies.
//
//	z = F⁻¹(p)        (F the standard normal distribution)
//
// Definition.
// Valid: p strictly between 0 and 1; NaN outside.
// Check: the deviates 1.6449, 1.9600 and 2.5758 of any statistical table.
func NormalQuantile(p float64) float64 {
	if !inside(p) {
		return math.NaN()
	}
	return distuv.UnitNormal.Quantile(p)
}

// NormalChance is the share of a standard normal distribution below z.
//
//	p = F(z)
//
// Definition.
func NormalChance(z float64) float64 { return distuv.UnitNormal.CDF(z) }

// StudentQuantile is the deviate of Student's distribution with the given
// degrees of freedom below which the share p lies.
//
//	t = T⁻¹(p; freedom)
//
// Definition.
// Valid: p strictly between 0 and 1, freedom above 0; NaN outside.
// Check: the printed table of Student's distribution, recalled.
func StudentQuantile(p, freedom float64) float64 {
	if !inside(p) || !(freedom > 0) {
		return math.NaN()
	}
	return distuv.StudentsT{Sigma: 1, Nu: freedom}.Quantile(p)
}

// StudentChance is the share of Student's distribution with the given degrees of
// freedom that lies below t.
//
//	P = T(t; freedom)
//
// Definition.
// Valid: freedom above 0; NaN outside.
// Check: inverse of StudentQuantile.
func StudentChance(t, freedom float64) float64 {
	if math.IsNaN(t) || !(freedom > 0) {
		return math.NaN()
	}
	return distuv.StudentsT{Sigma: 1, Nu: freedom}.CDF(t)
}

// Quantile is the value below which the share p of the draws lies, by linear
// interpolation between them. The draws are in rising order.
//
//	h = (n-1) p;   x[floor h] + (h - floor h) (x[floor h + 1] - x[floor h])
//
// Recalled: Hyndman and Fan 1996, type 7.
// Valid: p 0 to 1 and at least one draw; NaN outside.
func Quantile(sorted []float64, p float64) float64 {
	if len(sorted) == 0 || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	h := float64(len(sorted)-1) * p
	i := int(h)
	if i == len(sorted)-1 {
		return sorted[i]
	}
	return sorted[i] + (h-float64(i))*(sorted[i+1]-sorted[i])
}
