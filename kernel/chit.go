package kernel

import (
	"math"

	"awn/barley"
)

// sureDeviates is how many spreads above the median all waking kernels have
// chitted: the normal distribution is 1 to 1e-9 there.
const sureDeviates = 6.0

// Chit is the share of all kernels, by number, that have chitted. Each class
// counts by the lognormal of its own thermal time, not by a step at its own
// quantile, so that the share rises smoothly. The kernels of a class stand in
// the cells as the dry matter of the piece does.
//
//	P = Σ n F(ln(h/m)/s)      (over classes that grow, n their share by number)
//
// Source: Onofri undated, by way of Chitted.
func (k *Clock) Chit(g *barley.Grain) float64 {
	n := len(g.Classes)
	sureCH := k.medianCH * math.Exp(sureDeviates*k.c.ChitSpread)
	total, chitted := 0.0, 0.0
	for cell := 0; cell < len(g.DryKg); cell += n {
		dry, here := 0.0, 0.0
		last, share := -1.0, 0.0 // classes of one sieve fraction mostly share their thermal time
		for i, class := range g.Classes {
			dry += g.DryKg[cell+i]
			if class.Idle {
				continue
			}
			if h := g.ThermalTimeCH[cell+i]; h != last {
				last, share = h, 1
				if h < sureCH {
					share = k.c.Chitted(h, k.medianCH)
				}
			}
			here += class.Number * share
		}
		total += dry
		chitted += dry * here
	}
	return chitted / total
}
