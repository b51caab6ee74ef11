package mixed

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

func minnesota(t testing.TB) cells {
	c := public(t, "minnesota.barley.yield.txt")
	sparse := map[string]bool{"CompCross": true, "Dryland": true, "Jeans": true, "MechMixture": true}
	year, yield := c.numbers(t, "year"), c.numbers(t, "yield")
	return c.where(func(i int) bool {
		return year[i] >= 1927 && year[i] <= 1936 && !sparse[c["gen_name"][i]] && !math.IsNaN(yield[i])
	})
}

// USDA bulletins on Minnesota barley, 1927 to 1936: 639 means, six random
// terms, unbalanced. lme4 1.1-31.
func TestMinnesota(t *testing.T) {
	c := minnesota(t)
	m := Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", true, "gen_name"), c.term("site", true, "site"), c.term("year", true, "year"),
		c.term("site year", true, "site", "year"), c.term("variety site", true, "gen_name", "site"),
		c.term("variety year", true, "gen_name", "year"),
	}}
	f := fit(t, m)
	variances(t, f, map[string]float64{
		"variety": 7.3399825166, "site": 26.8519420343, "year": 18.0039368642, "site year": 114.128081835,
		"variety site": 1.7202991899, "variety year": 2.7369445756, Residual: 21.8321814348,
	})
	near(t, "log-likelihood", f.LogLik, -2071.5679501722, 1e-4)
	for i, se := range []float64{3.1010642204, 25.0060862842, 18.8039765177, 25.3395487445, 0.87206391388, 1.0504534388, 1.536084763} {
		closeTo(t, "SE of "+f.Components[i].Name, f.Components[i].SE, se, 5e-4)
	}
	effects, err := f.Effects("variety")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Cullis", 1-effects.MeanVariance()/(2*f.Variance("variety")), 0.8104882919, 1e-5)
}

// Steptoe by Morex, 152 lines in up to 16 environments. lme4 1.1-31.
func TestSteptoe(t *testing.T) {
	all := public(t, "steptoe.morex.pheno.txt")
	for _, want := range []struct {
		trait                                      string
		mean, variety, environment, rest, logLik   float64
		seVariety, seEnvironment, seRest, heritage float64
	}{
		{"yield", 5.29331069078643, 0.132009200675245, 1.84783065463417, 0.637996678692051, -3063.04819815762, 0.0198170797361468, 0.67626502042895, 0.0189582965587103, 0.768013346091146},
		{"malt", 74.7181067390484, 1.18976056896247, 2.18362940465985, 1.33530308703783, -2324.21164893413, 0.154161851998479, 1.09621801325213, 0.0544002916384048, 0.888881946063055},
		{"protein", 12.9203937246852, 0.510187824345829, 0.958909338646544, 0.829215961694137, -1973.61684154941, 0.0694471908131835, 0.482189081658495, 0.0337822786826429, 0.846717978355879},
	} {
		y := all.numbers(t, want.trait)
		c := all.where(func(i int) bool { return !math.IsNaN(y[i]) })
		f := fit(t, Model{Y: c.numbers(t, want.trait), Terms: []Term{
			c.term("variety", true, "gen"), c.term("environment", true, "env"),
		}})
		variances(t, f, map[string]float64{"variety": want.variety, "environment": want.environment, Residual: want.rest})
		near(t, "log-likelihood", f.LogLik, want.logLik, 1e-4)
		near(t, "mean", f.Mean().Value, want.mean, 1e-5)
		for i, se := range []float64{want.seVariety, want.seEnvironment, want.seRest} {
			closeTo(t, "SE of "+f.Components[i].Name, f.Components[i].SE, se, 5e-4)
		}
		effects, err := f.Effects("variety")
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Cullis", 1-effects.MeanVariance()/(2*f.Variance("variety")), want.heritage, 1e-5)
	}
}

// drawn is a trial of the given size with a share of cells lost.
func drawn(entries, environments, blocks int, lost float64) Model {
	r := rand.New(rand.NewPCG(7, 7))
	g, e, b, x := draws(r, entries, 0.4), draws(r, environments, 1.1), draws(r, environments*blocks, 0.2), draws(r, entries*environments, 0.3)
	m := Model{Terms: []Term{
		{Name: "variety", Levels: entries, Random: true}, {Name: "environment", Levels: environments},
	}}
	if blocks > 1 {
		m.Terms = append(m.Terms, Term{Name: "variety environment", Levels: entries * environments, Random: true},
			Term{Name: "block", Levels: environments * blocks, Random: true})
	}
	for i := range entries {
		for j := range environments {
			if r.Float64() < lost {
				continue
			}
			for k := range blocks {
				m.Y = append(m.Y, 6+g[i]+e[j]+b[j*blocks+k]+x[i*environments+j]+0.4*r.NormFloat64())
				for t, level := range []int{i, j, i*environments + j, j*blocks + k}[:len(m.Terms)] {
					m.Terms[t].Level = append(m.Terms[t].Level, level)
				}
			}
		}
	}
	return m
}

func draws(r *rand.Rand, n int, sd float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = sd * r.NormFloat64()
	}
	return out
}

func BenchmarkFit(b *testing.B) {
	for _, c := range []struct {
		name string
		Model
	}{
		{"152x16", drawn(152, 16, 1, 0)},
		{"240x37", drawn(240, 37, 1, 0.16)},
		{"240x37x2", drawn(240, 37, 2, 0.16)},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				f, err := c.Fit(context.Background(), Options{})
				if err != nil {
					b.Fatal(err)
				}
				if _, err := f.Effects("variety"); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
