package mixed

import (
	"context"
	"math"
	"testing"
)

func fit(t testing.TB, m Model) *Fit {
	t.Helper()
	f, err := m.Fit(context.Background(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !f.Converged {
		t.Errorf("not arrived after %d steps", f.Iterations)
	}
	return f
}

// components are figures of lme4 1.1-31. Its optimiser stops at about 1e-5 of a
// component, so 1e-4 is asked for.
const componentShare = 1e-4

func variances(t *testing.T, f *Fit, want map[string]float64) {
	t.Helper()
	for name, v := range want {
		closeTo(t, "variance "+name, f.Variance(name), v, componentShare)
	}
}

// Immer's ten barleys, one value for each of 120 cells. lme4 1.1-31, and the
// closed forms of the balanced table.
func TestTwoWay(t *testing.T) {
	c := table(t, "immer.csv")
	m := Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", true, "variety"), c.term("environment", true, "site", "year"),
	}}
	f := fit(t, m)
	variances(t, f, map[string]float64{"variety": 8.0002490337, "environment": 85.0265677545, Residual: 20.9494354144})
	near(t, "log-likelihood", f.LogLik, -380.4943018495, 1e-6)
	for i, se := range []float64{4.6010213214, 37.1499270624, 2.9776231044} {
		closeTo(t, "SE of "+f.Components[i].Name, f.Components[i].SE, se, componentShare)
	}
	mean := f.Mean()
	near(t, "mean", mean.Value, 34.4205553333, 1e-8)
	near(t, "SE of the mean", mean.SE, 2.8390403708, 1e-5)
	effects, err := f.Effects("variety")
	if err != nil {
		t.Fatal(err)
	}
	trebi := effects.At(c.place("variety")["Trebi"])
	near(t, "Trebi", trebi.Value, 4.0875, 5e-5)
	near(t, "its error", trebi.SE, 1.4456090794, 1e-5)
	near(t, "Cullis", 1-effects.MeanVariance()/(2*f.Variance("variety")), 0.82087215698, 1e-6)

	m.Terms[0].Random = false
	f = fit(t, m)
	near(t, "log-likelihood, varieties fixed", f.LogLik, -356.3266899469, 1e-6)
	means, err := f.Means("variety")
	if err != nil {
		t.Fatal(err)
	}
	trebi = means.At(c.place("variety")["Trebi"])
	near(t, "mean of Trebi", trebi.Value, 39.4, 5e-5)
	near(t, "its SE", trebi.SE, 2.9717559736, 1e-5)
	d := means.Difference(0, 1)
	near(t, "SED", d.SE, 1.8685750107, 1e-6)
	near(t, "degrees of freedom in a balanced table", d.Freedom, 99, 1e-4)
}

// Sites by years. lme4 1.1-31.
func TestSitesAndYears(t *testing.T) {
	c := table(t, "immer.csv")
	f := fit(t, Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", true, "variety"), c.term("site", true, "site"), c.term("year", true, "year"),
		c.term("site year", true, "site", "year"), c.term("variety site", true, "variety", "site"),
		c.term("variety year", true, "variety", "year"),
	}})
	variances(t, f, map[string]float64{
		"variety": 6.790151547, "site": 44.7082763236, "year": 6.9696841328, "site year": 40.581035957,
		"variety site": 6.0811679974, "variety year": 1.4459831759, Residual: 14.6323821131,
	})
	near(t, "log-likelihood", f.LogLik, -377.6530200165, 1e-6)
}

// Five of the barleys, totals of three blocks: variety by year is zero. lme4.
func TestComponentAtZero(t *testing.T) {
	c := table(t, "immer.csv")
	five := map[string]bool{"Manchuria": true, "Peatland": true, "Svansota": true, "Trebi": true, "Velvet": true}
	c = c.where(func(i int) bool { return five[c["variety"][i]] })
	y := c.numbers(t, "yield")
	for i := range y {
		y[i] = math.Round(30*y[i]) / 10 // the totals have one decimal
	}
	f := fit(t, Model{Y: y, Terms: []Term{
		c.term("variety", true, "variety"), c.term("site", true, "site"), c.term("year", true, "year"),
		c.term("site year", true, "site", "year"), c.term("variety site", true, "variety", "site"),
		c.term("variety year", true, "variety", "year"),
	}})
	if v := f.Variance("variety year"); v != 0 {
		t.Errorf("variety by year %v, want 0", v)
	}
	closeTo(t, "variety", f.Variance("variety"), 92.154, componentShare)
	closeTo(t, "variety site", f.Variance("variety site"), 46.741, componentShare)
	closeTo(t, "site", f.Variance("site"), 277.19, componentShare)
	closeTo(t, "year", f.Variance("year"), 80.66, componentShare)
	closeTo(t, "site year", f.Variance("site year"), 250.12, componentShare)
	closeTo(t, "residual", f.Variance(Residual), 128.17, componentShare)
	near(t, "log-likelihood", f.LogLik, -255.4747, 1e-4)
	effects, err := f.Effects("variety year")
	if err != nil || len(effects.Value) != 10 || effects.Value[3] != 0 {
		t.Errorf("effects of a term at zero: %v, %v", effects, err)
	}
}

// Gilmour, Thompson and Cullis 1995 print 4262, 15600, 14810 and 8062; lme4
// gives the further digits.
func TestSlateHall(t *testing.T) {
	c := table(t, "slatehall.csv")
	f := fit(t, Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", false, "variety"), c.term("rep", true, "rep"),
		c.term("row", true, "rep", "row"), c.term("column", true, "rep", "col"),
	}})
	near(t, "printed rep", f.Variance("rep"), 4262, 0.5)
	near(t, "printed row", f.Variance("row"), 15600, 5.5)
	near(t, "printed column", f.Variance("column"), 14810, 5.5)
	near(t, "printed residual", f.Variance(Residual), 8062, 0.5)
	variances(t, f, map[string]float64{"column": 14811.5495683457, "row": 15595.0603610162, "rep": 4262.3874166192, Residual: 8061.805967904})
	near(t, "log-likelihood", f.LogLik, -822.6529699217, 1e-4)
	means, err := f.Means("variety")
	if err != nil {
		t.Fatal(err)
	}
	first := means.At(c.place("variety")["G01"])
	near(t, "G01", first.Value, 1283.5869709995, 1e-2)
	near(t, "its SE", first.SE, 60.1994015656, 1e-2)
	near(t, "SED", math.Sqrt(means.MeanVariance()), 62.01933516, 1e-3)
}

// Replicated and holed. lme4 1.1-31.
func TestReplicatedWithHoles(t *testing.T) {
	c := table(t, "simulated.csv")
	m := Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", true, "variety"), c.term("environment", false, "environment"),
		c.term("variety environment", true, "variety", "environment"), c.term("block", true, "environment", "block"),
	}}
	f := fit(t, m)
	variances(t, f, map[string]float64{"variety": 0.1332869503, "variety environment": 0.12139827703, "block": 0.020945807946, Residual: 0.12267404326})
	near(t, "log-likelihood", f.LogLik, -237.5189709409, 1e-5)
	effects, err := f.Effects("variety")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "V01", effects.At(0).Value, -0.57787380293, 1e-5)
	near(t, "its error", effects.At(0).SE, 0.1624278986, 1e-5)
	near(t, "mean variance of a difference", effects.MeanVariance(), 0.041893023715, 1e-6)

	m.Terms[0].Random = false
	f = fit(t, m)
	variances(t, f, map[string]float64{"variety environment": 0.12183788926, "block": 0.020937742143, Residual: 0.12252919711})
	near(t, "log-likelihood, both fixed", f.LogLik, -227.6146403032, 1e-5)
	means, err := f.Means("variety")
	if err != nil {
		t.Fatal(err)
	}
	// Means over environments of equal weight; the errors printed there carry
	// the adjustment of Kenward and Roger, some parts in ten thousand.
	near(t, "mean of V01", means.At(0).Value, 5.33765454, 1e-5)
	closeTo(t, "its SE", means.At(0).SE, 0.15695601524, 2e-3)
	closeTo(t, "its degrees of freedom", means.At(0).Freedom, 101.6547618846, 1e-3)
}

// All 153 differences with their degrees of freedom, against those of Kenward
// and Roger, which for one contrast rest on the same information.
func TestDegreesOfFreedom(t *testing.T) {
	c := table(t, "simulated.csv")
	f := fit(t, Model{Y: c.numbers(t, "yield"), Terms: []Term{
		c.term("variety", false, "variety"), c.term("environment", true, "environment"),
		c.term("variety environment", true, "variety", "environment"), c.term("block", true, "environment", "block"),
	}})
	near(t, "log-likelihood", f.LogLik, -236.857219096, 1e-5)
	means, err := f.Means("variety")
	if err != nil {
		t.Fatal(err)
	}
	pairs, place := table(t, "simulated_pairs.csv"), c.place("variety")
	difference, sed, freedom := pairs.numbers(t, "difference"), pairs.numbers(t, "sed"), pairs.numbers(t, "freedom_kr")
	for i := range pairs["a"] {
		d := means.Difference(place[pairs["a"][i]], place[pairs["b"][i]])
		near(t, "difference", d.Value, difference[i], 2e-5)
		closeTo(t, "its error", d.SE, sed[i], componentShare)
		closeTo(t, "its degrees of freedom", d.Freedom, freedom[i], componentShare)
	}
	// Environments random: few, so the mean of a variety has few degrees of
	// freedom. The reference adds the adjustment of Kenward and Roger.
	closeTo(t, "degrees of freedom of a mean", means.At(0).Freedom, 8.183711875, 0.01)
	near(t, "mean of V01", means.At(0).Value, 5.3373735229, 2e-5)
}
