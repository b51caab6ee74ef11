package variety

import "math"

// curve is a quantile as a function of degrees of freedom. It is worked out at
// four places, and between them it is the cubic in 1/freedom through these: so
// smooth are quantiles in it that five figures hold over a stretch of threefold
// freedom. Over a wider one each is worked out by itself.
type curve struct {
	inverse, value [4]float64
	wide           bool
	quantile       func(freedom float64) float64
}

// Stretch of freedom over which a curve serves; beyond manyFreedom 1/freedom
// hardly moves, however wide the stretch.
const (
	curveStretch = 3
	manyFreedom  = 60
	leastFreedom = 5 // below it quantiles turn too sharply
)

// quantiles is the curve over the degrees of freedom that freedom gives for the
// entries.
func (a *Analysis) quantiles(freedom func(entry int) float64, quantile func(freedom float64) float64) curve {
	low, high := math.Inf(1), 0.0
	for i := range a.Entries {
		if f := freedom(i); f >= 2 {
			low, high = min(low, f), max(high, f)
		}
	}
	c := curve{quantile: quantile, wide: high == 0 || low < manyFreedom && high > curveStretch*low || low < leastFreedom}
	if c.wide {
		return c
	}
	// A tenth of room on either side keeps the four places apart.
	from, to := 1.1/low, 1/(1.1*high)
	for k := range c.inverse {
		c.inverse[k] = from + (to-from)*float64(k)/3
		c.value[k] = quantile(1 / c.inverse[k])
	}
	return c
}

// at is the quantile at some degrees of freedom.
func (c curve) at(freedom float64) float64 {
	if c.wide {
		return c.quantile(freedom)
	}
	sum := 0.0
	for k, x := range c.inverse {
		part := c.value[k]
		for l, y := range c.inverse {
			if l != k {
				part *= (1/freedom - y) / (x - y)
			}
		}
		sum += part
	}
	return sum
}

// differenceFreedom is the degrees of freedom of the difference of two means;
// NaN for an entry and itself.
func (a *Analysis) differenceFreedom(i, j int) float64 {
	if i == j || a.means == nil {
		return nan
	}
	return a.means.Difference(i, j).Freedom
}
