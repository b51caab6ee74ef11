package crop

import (
	"math"

	"awn/odds"
)

// Estimate is a figure of the harvest with its error.
type Estimate struct {
	Value, SE              float64
	Freedom                int
	Samples, Farms, Strata int
	DesignEffect           float64 // variance over that of as many samples drawn at will
	WeightEffect           float64 // the part of it that uneven weights make
}

// Interval holds the true figure with the given confidence; NaN where there are
// no degrees of freedom.
//
//	m ± t s
//
// Definition.
func (e Estimate) Interval(confidence float64) (low, high float64) {
	half := odds.StudentQuantile((1+confidence)/2, float64(e.Freedom)) * e.SE
	return e.Value - half, e.Value + half
}

// ChanceAbove is the chance that the true figure is x or more.
//
//	P = T((m - x)/s)
//
// Definition.
// Valid: NaN where there are no degrees of freedom or no error.
func (e Estimate) ChanceAbove(x float64) float64 {
	if !(e.SE > 0) {
		return math.NaN()
	}
	return odds.StudentChance((e.Value-x)/e.SE, float64(e.Freedom))
}

// times is the estimate on another scale.
func (e Estimate) times(by float64) Estimate {
	e.Value, e.SE = by*e.Value, by*e.SE
	return e
}

// Few reports whether so few farms stand behind it that an interval meant for
// 95 % covers less: with about 14 farms 76 to 92 % in repeated invented surveys.
func (e Estimate) Few() bool { return e.Farms < fewFarms }

const fewFarms = 20

// nothing is an estimate of no samples.
func nothing() Estimate {
	nan := math.NaN()
	return Estimate{Value: nan, SE: nan, DesignEffect: nan, WeightEffect: nan}
}

// Mean is the mean per tonne of y over a domain, NaN where y is missing. It is a
// ratio of two estimated sums; its variance is that of its linear part, farms as
// clusters.
//
//	m = Σ w y / Σ w;   z = w (y - m)/Σ w;   v = Σ_h n_h/(n_h - 1) Σ_i (z_hi - z̄_h)²
//
// Recalled: Cochran 1977, ch. 6; Hansen Hurwitz and Madow 1953.
// Valid: NaN without samples; no degrees of freedom with one farm in each stratum.
// Note: farms outside the domain stay in the design with nothing, as they must.
// Check: the survey package of R, 4.1-1, on invented samples.
func (d *Design) Mean(y []float64, in Domain) Estimate {
	in = known(y, in)
	e := nothing()
	e.Samples, e.Farms, e.Strata = d.freedom(in)
	e.Freedom = e.Farms - e.Strata
	total := d.total(in)
	if !(total > 0) {
		return e
	}
	e.Value = d.weighted(y, in) / total
	z := make([]float64, len(y))
	spread, squares := 0.0, 0.0
	for i, w := range d.weight {
		if in[i] {
			z[i] = w * (y[i] - e.Value) / total
			spread += w * (y[i] - e.Value) * (y[i] - e.Value) / total
			squares += w * w
		}
	}
	v, n := d.variance(z, in), float64(e.Samples)
	e.SE = math.Sqrt(v)
	e.WeightEffect = n * squares / (total * total)
	if n > 1 && spread > 0 {
		e.DesignEffect = v / (spread / (n - 1))
	}
	return e
}

// weighted is Σ w y.
func (d *Design) weighted(y []float64, in Domain) (sum float64) {
	for i, w := range d.weight {
		if in[i] {
			sum += w * y[i]
		}
	}
	return sum
}
