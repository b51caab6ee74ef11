package kernel_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"awn/barley"
	"awn/kernel"
)

// The tabled curve against the lognormal distribution of a general-purpose
// library. A tenth of a point of chit is more than any count can tell; straight
// lines between the table's points are within a tenth of that.
func TestChitsFollowTheLognormal(t *testing.T) {
	classes := []barley.Class{{Number: 1}}
	g := barley.NewGrain(classes, []barley.Column{{Share: 1, Depth: 1, Packing: 1}}, 1)
	g.DryKg[0] = 1
	const median = 380.0
	for _, spread := range []float64{0.2, 0.28, 0.4} {
		c := constants(t, map[string]float64{"kernel.chit.spread": spread})
		k := kernel.NewChits(c, median)
		want := distuv.LogNormal{Mu: math.Log(median), Sigma: spread}
		for h := 0.0; h < 8*median; h++ {
			g.ThermalTimeCH[0] = h
			if got := k.Share(g); math.Abs(got-want.CDF(h)) > 1e-4 {
				t.Fatalf("spread %g: %.6f after %g °C·h, want %.6f", spread, got, h, want.CDF(h))
			}
		}
	}
}
