package reckon

import (
	"fmt"

	"awn/barley"
	"awn/finding"
	"awn/lab"
	"awn/odds"
	"awn/unit"
)

func moisture(g *given) ([]Result, error) {
	w := unit.WetBasis(g.at("moisture"))
	x := w.DryBasis()
	r := moistureScale.result("moisture_wb", "moisture, wet basis", float64(w), "unit.DryBasis.WetBasis",
		fmt.Sprintf("w = %s/(1 + %s) = %s", figures(float64(x), 5), figures(float64(x), 5), figures(float64(w), 5)))
	r.Shown = r.Shown[:1]
	d := bare("moisture_db", "moisture, dry basis", float64(x), 100, 2, "% db", "unit.WetBasis.DryBasis",
		fmt.Sprintf("X = %s/(1 - %s) = %s", figures(float64(w), 5), figures(float64(w), 5), figures(float64(x), 5)))
	return []Result{r, d}, nil
}

func water(g *given) ([]Result, error) {
	kg, from, to := g.at("mass"), unit.WetBasis(g.at("from")), unit.WetBasis(g.at("to"))
	after := barley.WeightAt(kg, from, to)
	change, name := kg-after, "water to take out"
	if change < 0 {
		change, name = -change, "water to add"
	}
	const of = "barley.WeightAt"
	out := []Result{
		massScale.result("mass_kg", "mass then", after, of, fmt.Sprintf("m2 = %s × (1 - %s)/(1 - %s) = %s kg",
			figures(kg, 7), figures(float64(from), 5), figures(float64(to), 5), figures(after, 6))),
		massScale.result("water_kg", name, change, of, fmt.Sprintf("|%s - %s| = %s kg", figures(kg, 7), figures(after, 7), figures(change, 5))),
		shareScale.result("change", "share of the first mass", change/kg, of, ""),
	}
	if after < kg {
		out = append(out, bare("shrink_per_point", "shrink per point", barley.ShrinkPerPoint(to), 100, 4, "%", "barley.ShrinkPerPoint",
			fmt.Sprintf("s = 1/(100 × (1 - %s)) = %s", figures(float64(to), 5), figures(barley.ShrinkPerPoint(to), 5))))
	}
	return out, nil
}

func steeped(g *given) ([]Result, error) {
	dry, from, wet, leach := g.at("dry"), g.at("moisture"), g.at("wet"), g.at("leach")
	w := barley.SteepedMoisture(dry, unit.WetBasis(from), wet, leach)
	r := moistureScale.result("moisture_wb", "steeped moisture", float64(w), "barley.SteepedMoisture",
		fmt.Sprintf("w2 = 1 - %s × (1 - %s) × (1 - %s)/%s = %s", figures(dry, 5), figures(from, 5), figures(leach, 4), figures(wet, 5), figures(float64(w), 4)))
	if g.get("surface").Word == "unblotted" {
		low, high := float64(w-barley.FilmMost), float64(w-barley.FilmLeast)
		r = moistureScale.between(r, low, high)
		f := finding.New("steep.sample.not-blotted", finding.Caution, "steep",
			finding.Figure{Name: "moisture_wb", Value: float64(w)}, finding.Figure{Name: "low_wb", Value: low}, finding.Figure{Name: "high_wb", Value: high})
		f.Act, f.Source = "act.steep.blot", "common practice, no source"
		g.say(f)
	}
	return []Result{r}, nil
}

// gramsPerKg turns kg into grams.
const gramsPerKg = 1000

func testWeight(g *given) ([]Result, error) {
	f, of := g.get("tw"), "barley.TestWeightDensity"
	density, worked := f.Value, "ρ = 10 × "+figures(f.Value/10, 5)+" = "+figures(f.Value, 5)+" kg/m³"
	if f.In.Name == unit.CupWeight.Name {
		grams := gramsPerKg * f.Value
		tw := barley.CupTestWeight(grams)
		density, of = barley.TestWeightDensity(tw), "barley.CupTestWeight"
		worked = fmt.Sprintf("TW = -0.3063 + 0.2089 × %s = %s kg/hL", figures(grams, 5), figures(tw, 5))
	}
	s := scale{unit.TestWeight, []string{"kg/hL:2", "lb/bu:2", "lb/bu imperial:2", "g/L:0"}}
	r := s.result("test_weight_kg_m3", "test weight", density, of, worked)
	return []Result{r}, nil
}

func protein(g *given) ([]Result, error) {
	f := g.get("protein")
	if g.has("n") == g.has("protein") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "protein or nitrogen", Allowed: []string{"protein 11.2 % dm", "n=1.8 % dm"}}
	}
	p := f.Value
	if g.has("n") {
		f = g.get("n")
		p = lab.Protein(f.Value)
	}
	n := lab.Nitrogen(p)
	on := f.Quantity.Symbol
	end := suffixOf(f.Quantity.Kind, f.In)
	return []Result{
		bare("protein"+end, "protein", p, 100, 2, on, "lab.Protein", fmt.Sprintf("protein = 6.25 × %s = %s", figures(100*n, 5), figures(100*p, 5))),
		bare("nitrogen"+end, "nitrogen", n, 100, 3, on, "lab.Nitrogen", fmt.Sprintf("N = %s/6.25 = %s", figures(100*p, 5), figures(100*n, 5))),
	}, nil
}

func basis(g *given) ([]Result, error) {
	f, w := g.get("content"), unit.WetBasis(g.at("moisture"))
	dry := f.Value
	if f.Quantity.Kind == unit.KindAsIs {
		dry = lab.OnDryMatter(f.Value, w)
	}
	asIs := lab.AsItStands(dry, w)
	a, d := figures(100*asIs, 5), figures(100*dry, 5)
	out := []Result{
		bare("content_dm", "on dry matter", dry, 100, 3, "% dm", "lab.OnDryMatter", fmt.Sprintf("xd = %s/(1 - %s) = %s", a, figures(float64(w), 5), d)),
		bare("content_asis", "as it stands", asIs, 100, 3, "% asis", "lab.AsItStands", fmt.Sprintf("x = %s × (1 - %s) = %s", d, figures(float64(w), 5), a)),
	}
	if g.has("on") {
		on := unit.WetBasis(g.at("on"))
		at := lab.AsItStands(dry, on)
		out = append(out, bare("content_at_basis", "at the other moisture", at, 100, 3, "% at "+plain(round(100*float64(on), 6))+" % wb", "lab.AsItStands",
			fmt.Sprintf("x = %s × (1 - %s) = %s", d, figures(float64(on), 5), figures(100*at, 5))))
	}
	return out, nil
}

func count(g *given) ([]Result, error) {
	p, err := kernels(g.at("count"), g.at("of"))
	if err != nil {
		return nil, err
	}
	sure := g.at("confidence")
	low, high := p.ClopperPearson(sure)
	score, scoreHigh := p.Wilson(sure)
	share := shareScale.result("share", "share of the lot", p.Fraction(), "odds.Proportion.ClopperPearson",
		fmt.Sprintf("p = %d/%d = %s; exact limits of %s %%", p.Hits, p.Of, figures(p.Fraction(), 5), plain(round(100*sure, 3))))
	share = shareScale.between(share, low, high)
	other := shareScale.result("share_score", "the same, score limits", p.Fraction(), "odds.Proportion.Wilson", "")
	return []Result{share, shareScale.between(other, score, scoreHigh)}, nil
}

func equilibrium(g *given) ([]Result, error) {
	if g.has("rh") == g.has("moisture") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "humidity or moisture, one of them", Allowed: []string{"65 %", "13.5 % wb"}}
	}
	set, formula, err := isotherms(g.get("grain").Word)
	if err != nil {
		return nil, err
	}
	t := unit.Celsius(g.at("t"))
	if g.has("rh") {
		rh := unit.RelativeHumidity(g.at("rh"))
		x := set[0].Moisture(t, rh)
		r := moistureScale.result("moisture_wb", "moisture at rest", float64(x.WetBasis()), formula+".Moisture",
			fmt.Sprintf("X at %s °C and RH %s = %s", plain(round(float64(t), 3)), figures(float64(rh), 4), figures(float64(x), 4)))
		low, high := set.Moisture(t, rh)
		return []Result{moistureScale.between(r, float64(low.WetBasis()), float64(high.WetBasis()))}, nil
	}
	x := unit.WetBasis(g.at("moisture")).DryBasis()
	rh := set[0].Humidity(t, x)
	r := shareScale.result("relative_humidity", "humidity at rest", float64(rh), formula+".Humidity",
		fmt.Sprintf("RH at %s °C and X = %s: %s", plain(round(float64(t), 3)), figures(float64(x), 4), figures(float64(rh), 4)))
	low, high := set.Humidity(t, x)
	return []Result{shareScale.between(r, float64(low), float64(high))}, nil
}

// isotherms are those that claim the grain, the default first.
func isotherms(grain string) (barley.Spread, string, error) {
	var c barley.Constants
	if err := odds.Fill(&c, barley.Parameters, nil); err != nil {
		return nil, "", err
	}
	if grain != "malt" {
		return append(barley.Spread{barley.BarleyIsotherm(c)}, barley.BarleySpread()...), "barley.ChungPfost", nil
	}
	set := barley.Spread{barley.MaltIsotherm(c)}
	for _, p := range barley.Parameters {
		if p.Key == "barley.malt-emc.multiplier" {
			for _, m := range []float64{p.Low, p.High} {
				c.MaltEMC = m
				set = append(set, barley.MaltIsotherm(c))
			}
		}
	}
	return set, "barley.GAB", nil
}
