package kiln

import (
	"math"
	"testing"

	"awn/barley"
)

// Wilson 1979: half of the S-methylmethionine is split in 35 min at 100 °C.
// Dickenson 1979: 38 min at pH 5.2, 32.5 min at pH 5.5, and twice as fast with
// every 6 K. Maltsters hold 84 °C for 5.5 h and 90 °C for 3 h for alike
// (common practice): 0.357 and 0.325 left.
func TestSMM(t *testing.T) {
	c := fill[Constants](t, Parameters)
	halfLife := func(tempC float64) float64 { return 60 * math.Ln2 / c.SMMLoss(tempC) }
	near(t, "half-life at 100 °C, min", halfLife(100), 35, 3)
	near(t, "its double", halfLife(94)/halfLife(100), 2, 1e-12)
	near(t, "left after 5.5 h at 84 °C", math.Exp(-5.5*c.SMMLoss(84)), 0.357, 0.001)
	near(t, "left after 3 h at 90 °C", math.Exp(-3*c.SMMLoss(90)), 0.325, 0.001)
}

// The pale programme, bottom, middle and top, by an independent computation of
// the same rates on its own bed. Tolerance: 0.01 of the green malt's, for the
// two beds differ by 0.1 K.
func TestCureOfThePaleRun(t *testing.T) {
	r := start(t, paleSetup(t), greenMalt(330, 0.8182, 18))
	kilned(t, r, paleSteps())
	g := r.Shape()
	r.Grain(g)
	for _, at := range []struct {
		layer                   int
		beta, endo, smm, colour float64 // NaN where it was not given
	}{
		{0, 0.566, 0.620, 0.322, 3.93 - 2},
		{30, 0.608, 0.704, math.NaN(), math.NaN()},
		{59, 0.583, 0.744, 0.688, 2.62 - 2},
	} {
		h := g.Heat[at.layer]
		near(t, "beta-amylase", h.BetaAmylase, at.beta, 0.01)
		near(t, "endo-beta-glucanase", h.EndoGlucanase, at.endo, 0.01)
		if !math.IsNaN(at.smm) {
			near(t, "SMM", h.SMM, at.smm, 0.01)
			near(t, "colour made", h.ColourEBC, at.colour, 0.02)
		}
	}
	mean := barley.Heat{}
	for _, h := range g.Heat {
		mean.AlphaAmylase += h.AlphaAmylase / 60
		mean.BetaAmylase += h.BetaAmylase / 60
		mean.EndoGlucanase += h.EndoGlucanase / 60
		mean.ExoGlucanase += h.ExoGlucanase / 60
		mean.SMM += h.SMM / 60
		mean.ColourEBC += h.ColourEBC / 60
	}
	// What the rates were tuned to, so no check of them but of the sums.
	near(t, "alpha-amylase", mean.AlphaAmylase, 0.93, 0.01)
	near(t, "beta-amylase", mean.BetaAmylase, 0.60, 0.01)
	near(t, "endo-beta-glucanase", mean.EndoGlucanase, 0.70, 0.01)
	near(t, "exo-beta-glucanase", mean.ExoGlucanase, 0.40, 0.01)
	near(t, "SMM", mean.SMM, 0.475, 0.01)
	near(t, "colour made", mean.ColourEBC, 3.3-2, 0.3) // pale malt, common practice
}

// The sums of a kiln held at one temperature are those of the formulas.
func TestCureAgreesWithFormulas(t *testing.T) {
	s := paleSetup(t)
	s.Layers = 3
	r := start(t, s, greenMalt(330, 0.06, 82.4))
	c := &r.columns[0]
	for range 10 {
		r.cure(360)
	}
	for n, e := range s.Constants.Enzymes() {
		near(t, "enzyme", c.cure[n]/e.Loss(82.4, 0.06/1.06), 1, 1e-4)
	}
	near(t, "SMM", c.cure[4]/s.Constants.SMMLoss(82.4), 1, 1e-4)
	near(t, "colour", c.cure[5]/s.Constants.ColourRate(82.4), 1, 1e-4)
}

func TestFormulasEndWhereTheyAreValid(t *testing.T) {
	c := fill[Constants](t, Parameters)
	for name, got := range map[string]float64{
		"rate, cold": InnerRate(-41, 0.3), "rate, hot": InnerRate(131, 0.3), "rate, negative": InnerRate(60, -0.1),
		"film, negative": Film(-1), "SMM, hot": c.SMMLoss(131), "colour, NaN": c.ColourRate(math.NaN()),
		"enzyme, wetter than water": c.Enzymes()[0].Loss(60, 1.1), "enzyme, hot": c.Enzymes()[0].Loss(140, 0.1),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: %g, want NaN", name, got)
		}
	}
}
