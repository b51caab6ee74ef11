package reckon

import (
	"fmt"

	"awn/brew"
	"awn/malt"
	"awn/unit"
)

func wort(g *given) ([]Result, error) {
	if g.has("plato") == g.has("sg") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "strength or gravity, one of them", Allowed: []string{"12 °P", "1.048"}}
	}
	p, sg := malt.Plato(g.at("plato")), malt.Gravity(g.at("sg"))
	pOf, sgOf, worked := "", "malt.Plato.Gravity", ""
	if g.has("sg") {
		p, pOf, sgOf = sg.Plato(), "malt.Gravity.Plato", ""
		s := plain(float64(sg))
		worked = fmt.Sprintf("P = 135.997 × %s³ - 630.272 × %s² + 1111.14 × %s - 616.868", s, s, s)
	} else {
		sg = p.Gravity()
	}
	return []Result{
		bare("wort_plato", "strength", float64(p), 1, 3, "°P", pOf, worked),
		bare("gravity", "gravity 20/20", float64(sg), 1, 5, "", sgOf, ""),
		bare("density_kg_l", "density at 20 °C", p.KgLitre(), 1, 5, "kg/L", "malt.Plato.KgLitre", fmt.Sprintf("ρ = 0.998203 × %s", figures(float64(sg), 6))),
		bare("extract_g_l", "extract", p.ExtractGLitre(), 1, 2, "g/L", "malt.Plato.ExtractGLitre",
			fmt.Sprintf("e = 10 × %s × %s", figures(float64(p), 5), figures(p.KgLitre(), 6))),
	}, nil
}

// hectolitre is its volume in m³.
const hectolitre = 0.1

func grist(g *given) ([]Result, error) {
	p, err := strength(g, "wort", "sg")
	if err != nil {
		return nil, err
	}
	hl, e, y := g.at("volume")/hectolitre, g.get("extract"), g.at("yield")
	if e.Quantity.Kind != unit.KindAsIs {
		return nil, &Fault{Code: "reckon.extract.asis", Got: e.Written}
	}
	kg := brew.WortExtractKg(p, hl)
	m := brew.MaltKg(kg, malt.ExtractAsIs(e.Value), y)
	return []Result{
		massScale.result("malt_kg", "malt", m, "brew.MaltKg", fmt.Sprintf("m = %s/(%s × %s) = %s kg", figures(kg, 6), figures(e.Value, 5), figures(y, 4), figures(m, 5))).without("bu"),
		scale{unit.Mass, []string{"kg~6", "lb~6"}}.result("extract_kg", "extract in the wort", kg, "brew.WortExtractKg",
			fmt.Sprintf("X = %s L × %s × %s kg/L = %s kg", figures(100*hl, 6), figures(float64(p)/100, 4), figures(p.KgLitre(), 6), figures(kg, 6))),
	}, nil
}

// strength is an extract that was given as such or as a gravity.
func strength(g *given, plato, gravity string) (malt.Plato, error) {
	if g.has(plato) == g.has(gravity) {
		return 0, &Fault{Code: "reckon.input.missing", Got: g.entry.named(plato).Doc + " or its gravity, one of them", Allowed: []string{g.entry.named(plato).form(), g.entry.named(gravity).form()}}
	}
	if g.has(gravity) {
		return malt.Gravity(g.at(gravity)).Plato(), nil
	}
	return malt.Plato(g.at(plato)), nil
}

func alcohol(g *given) ([]Result, error) {
	o, err := strength(g, "original", "og")
	if err != nil {
		return nil, err
	}
	ae, err := strength(g, "final", "fg")
	if err != nil {
		return nil, err
	}
	re := brew.RealExtract(o, ae)
	byMass := brew.AlcoholByMass(o, re)
	byVolume := brew.AlcoholByVolume(byMass, ae.Gravity())
	os, as, rs := figures(float64(o), 5), figures(float64(ae), 5), figures(float64(re), 5)
	return []Result{
		shareScale.result("alcohol_by_volume", "alcohol by volume", byVolume, "brew.AlcoholByVolume",
			fmt.Sprintf("v = %s × %s/0.79074 = %s %%", figures(100*byMass, 5), figures(float64(ae.Gravity()), 6), figures(100*byVolume, 4))),
		shareScale.result("alcohol_by_mass", "alcohol by mass", byMass, "brew.AlcoholByMass",
			fmt.Sprintf("A = (%s - %s)/(2.0665 - 0.010665 × %s) = %s %%", os, rs, os, figures(100*byMass, 5))),
		bare("real_extract_plato", "real extract", float64(re), 1, 3, "°P", "brew.RealExtract", fmt.Sprintf("RE = 0.1808 × %s + 0.8192 × %s", os, as)),
		shareScale.result("apparent_attenuation", "apparent attenuation", brew.ApparentAttenuation(o, ae), "brew.ApparentAttenuation", fmt.Sprintf("AA = (%s - %s)/%s", os, as, os)),
		shareScale.result("real_attenuation", "real attenuation", brew.RealAttenuation(o, re), "brew.RealAttenuation",
			fmt.Sprintf("RDF = (%s - %s)/(%s × (1 - 0.005161 × %s))", os, rs, os, rs)),
	}, nil
}

func spirit(g *given) ([]Result, error) {
	e, f := g.get("extract"), g.at("fermentability")
	if e.Quantity.Kind != unit.KindAsIs {
		return nil, &Fault{Code: "reckon.extract.asis", Got: e.Written}
	}
	fe := brew.FermentableExtract(malt.ExtractAsIs(e.Value), f)
	psy := brew.SpiritLTonne(fe)
	return []Result{
		bare("spirit_l_t", "pure alcohol", psy, 1, 1, "L/t asis", "brew.SpiritLTonne", fmt.Sprintf("PSY = 6.06 × %s = %s", figures(100*float64(fe), 5), figures(psy, 4))),
		bare("fermentable_extract_asis", "fermentable extract", float64(fe), 100, 3, "% asis", "brew.FermentableExtract",
			fmt.Sprintf("FE = %s × %s", figures(100*e.Value, 5), figures(f, 4))),
	}, nil
}

func original(g *given) ([]Result, error) {
	a, re := g.at("alcohol"), malt.Plato(g.at("real"))
	oe := brew.OriginalExtract(a, re)
	x, rs := figures(100*a, 5), figures(float64(re), 5)
	return []Result{
		bare("original_plato", "original extract", float64(oe), 1, 3, "°P", "brew.OriginalExtract",
			fmt.Sprintf("OE = 100 × (2.0665 × %s + %s)/(100 + 1.0665 × %s) = %s", x, rs, x, figures(float64(oe), 5))),
		shareScale.result("real_attenuation", "real attenuation", brew.RealAttenuation(oe, re), "brew.RealAttenuation",
			fmt.Sprintf("RDF = (%s - %s)/(%s × (1 - 0.005161 × %s))", figures(float64(oe), 5), rs, figures(float64(oe), 5), rs)),
	}, nil
}

func fermented(g *given) ([]Result, error) {
	f := g.get("extract")
	on := scale{unit.Mass, []string{"kg~6", "lb~6"}}.like(f)
	x := written(f.Value, f)
	part := func(key, name, formula, worked string, kg float64) Result {
		return on.result(key, name, kg, formula, fmt.Sprintf("m = %s%s/2.0665 = %s %s", worked, x, written(kg, f), f.Quantity.Symbol))
	}
	return []Result{
		part("ethanol_kg", "ethanol", "brew.EthanolKg", "", brew.EthanolKg(f.Value)),
		part("carbon_dioxide_kg", "carbon dioxide", "brew.CarbonDioxideKg", "0.9565 × ", brew.CarbonDioxideKg(f.Value)),
		part("yeast_kg", "yeast, dry", "brew.YeastKg", "0.11 × ", brew.YeastKg(f.Value)),
	}, nil
}
