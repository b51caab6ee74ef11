package kernel

import (
	"math"

	"awn/barley"
)

// Chits counts the kernels of a lot that have chitted. Its curve is tabled
// once: every class of every cell is looked up at every look at a piece.
type Chits struct {
	perCH float64 // points of the table per °C·h
	share []float64
}

// sureDeviates is how many spreads above the median all waking kernels have
// chitted: the normal distribution is 1 to 4e-6 there. Straight lines between
// chitPoints on the way up to it are within 1e-4 of Chitted.
const (
	sureDeviates = 4.5
	chitPoints   = 512
)

// NewChits returns the curve of a lot whose median thermal time to chit is
// medianCH, °C·h.
func NewChits(c *Constants, medianCH float64) *Chits {
	sureCH := medianCH * math.Exp(sureDeviates*c.ChitSpread)
	k := &Chits{perCH: chitPoints / sureCH, share: make([]float64, chitPoints+1)}
	for i := range k.share {
		k.share[i] = c.Chitted(float64(i)/k.perCH, medianCH)
	}
	return k
}

// after is Chitted, tabled.
func (k *Chits) after(thermalTimeCH float64) float64 {
	x := thermalTimeCH * k.perCH
	switch {
	case x <= 0:
		return 0
	case !(x < chitPoints):
		return 1
	}
	i := int(x)
	return k.share[i] + (x-float64(i))*(k.share[i+1]-k.share[i])
}

// Share is the share of all kernels, by number, that have chitted. Each class
// counts by the lognormal of its own thermal time, not by a step at its own
// quantile, so that the share rises smoothly. The kernels of a class stand in
// the cells as the dry matter of the piece does.
//
//	P = Σ n F(ln(h/m)/s)      (over classes that grow, n their share by number)
//
// Source: Onofri undated, by way of Chitted.
func (k *Chits) Share(g *barley.Grain) float64 {
	total, chitted := 0.0, 0.0
	for cell := range g.Cells() {
		dry, hours := g.Of(g.DryKg, cell), g.Of(g.ThermalTimeCH, cell)
		here, kg := 0.0, 0.0
		for i := range g.Classes {
			kg += dry[i]
			if class := &g.Classes[i]; !class.Idle {
				here += class.Number * k.after(hours[i])
			}
		}
		total += kg
		chitted += kg * here
	}
	return chitted / total
}
