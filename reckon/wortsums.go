package reckon

import (
	"fmt"

	"awn/lab"
	"awn/malt"
	"awn/unit"
)

// maltBehind is the dry matter of malt behind a litre of the wort, g/L, with
// its working.
func maltBehind(g *given) (gramsL float64, worked string, err error) {
	p, e := malt.Plato(g.at("wort")), g.get("extract")
	dry := malt.ExtractDry(e.Value)
	if !g.has("extract") || e.Quantity.Kind == unit.KindAsIs {
		if !g.has("moisture") {
			return 0, "", &Fault{Code: "reckon.input.missing", Got: "extract on dry matter, or moisture", Allowed: []string{"79.8 % dm", "moisture=4.5 %"}}
		}
		w := unit.WetBasis(g.at("moisture"))
		asIs := malt.ExtractAsIs(e.Value)
		if !g.has("extract") {
			asIs = malt.CongressExtract(p, w)
		}
		dry = asIs.Dry(w)
	}
	gramsL = malt.MaltGLitre(p, dry)
	return gramsL, fmt.Sprintf("m = 10 × %s × %s/%s = %s g/L", figures(float64(p), 5), figures(p.KgLitre(), 6), figures(float64(dry), 5), figures(gramsL, 5)), nil
}

// malts is the dry matter of malt as a result.
func maltResult(gramsL float64, worked string) Result {
	return bare("malt_g_l_dm", "malt behind a litre", gramsL, 1, 2, "g/L dm", "malt.MaltGLitre", worked)
}

func fan(g *given) ([]Result, error) {
	m, worked, err := maltBehind(g)
	if err != nil {
		return nil, err
	}
	f := g.get("fan")
	dry, mgL := f.Value, mgPerKgL*f.Value
	dryOf, wortOf := "malt.OfMalt", ""
	if f.Quantity.Kind == unit.KindDM {
		mgL, wortOf, dryOf = malt.OfWort(f.Value, m), "malt.OfWort", ""
	} else {
		dry = malt.OfMalt(mgL, m)
	}
	inMalt, inWort := figures(mgPer100g*dry, 5), figures(mgL, 5)
	all := [2]Result{
		bare("fan_mg_100g_dm", "in the malt", mgPer100g*dry, 1, 1, "mg/100g dm", dryOf, fmt.Sprintf("s = 100 × %s/%s = %s mg/100g", inWort, figures(m, 5), inMalt)),
		bare("fan_mg_l", "in the wort", mgL, 1, 1, "mg/L", wortOf, fmt.Sprintf("c = %s × %s/100 = %s mg/L", inMalt, figures(m, 5), inWort)),
	}
	if wortOf != "" {
		all[0], all[1] = all[1], all[0]
	}
	all[1].Worked = "" // as given
	return []Result{all[0], all[1], maltResult(m, worked)}, nil
}

// Small contents: mg/L in kg/m³, and mg/100 g in kg/kg.
const (
	mgPerKgL  = 1000
	mgPer100g = 1e5
)

func soluble(g *given) ([]Result, error) {
	m, worked, err := maltBehind(g)
	if err != nil {
		return nil, err
	}
	mgL := mgPerKgL * g.at("nitrogen")
	n := malt.OfMalt(mgL, m)
	p := lab.Protein(n)
	out := []Result{
		bare("soluble_nitrogen_dm", "soluble nitrogen", n, 100, 4, "% dm", "malt.OfMalt", fmt.Sprintf("s = %s/(1000 × %s) = %s %%", figures(mgL, 5), figures(m, 5), figures(100*n, 4))),
		bare("soluble_protein_dm", "soluble protein", p, 100, 2, "% dm", "lab.Protein", fmt.Sprintf("protein = 6.25 × %s = %s", figures(100*n, 5), figures(100*p, 4))),
		maltResult(m, worked),
	}
	if t := g.at("total"); g.has("total") {
		k := malt.Kolbach(n, t)
		out = append(out, bare("kolbach", "Kolbach index, S/T", k, 100, 2, "%", "malt.Kolbach", fmt.Sprintf("KI = %s/%s = %s", figures(100*n, 5), figures(100*t, 5), figures(k, 4))))
	}
	return out, nil
}

func hotWater(g *given) ([]Result, error) {
	if g.has("gravity") == g.has("hwe") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "gravity or hot water extract, one of them", Allowed: []string{"1.0298", "308 L°/kg dm"}}
	}
	f, w := g.get("hwe"), unit.WetBasis(g.at("moisture"))
	var out []Result
	dry := malt.ExtractDry(f.Value)
	switch {
	case g.has("gravity"):
		s := malt.Gravity(g.at("gravity"))
		l := malt.HotWaterExtract(s)
		out = append(out, degrees("litre_degrees_asis", "as-is", float64(l), "asis", "malt.HotWaterExtract",
			fmt.Sprintf("L = 10.13 × 1000 × (%s - 1) = %s", plain(float64(s)), figures(float64(l), 5))))
		dry = l.AsIs().Dry(w)
	case f.Quantity.Kind == unit.KindAsIs:
		out = append(out, degrees("litre_degrees_asis", "as-is", float64(malt.ExtractAsIs(f.Value).LitreDegrees()), "asis", "", ""))
		dry = malt.ExtractAsIs(f.Value).Dry(w)
	}
	if len(out) > 0 && !g.has("moisture") {
		return out, nil
	}
	l := dry.LitreDegrees()
	dm, of := "", ""
	if len(out) > 0 {
		dm, of = fmt.Sprintf("L = %s/(1 - %s) = %s", figures(out[0].Value, 5), figures(float64(w), 5), figures(float64(l), 5)), "malt.ExtractAsIs.Dry"
	}
	fine := malt.FineOfHotWater(l)
	return append(out, degrees("litre_degrees_dm", "on dry matter", float64(l), "dm", of, dm),
		bare("extract_fine_dm", "Congress, fine, to expect", float64(fine), 100, 2, "% dm", "malt.FineOfHotWater", fmt.Sprintf("E = 0.2586 × %s + 1.705 = %s %%", figures(float64(l), 5), figures(100*float64(fine), 4)))), nil
}

// degrees is a hot water extract.
func degrees(key, name string, l float64, basis, formula, worked string) Result {
	return bare(key, "hot water extract "+name, l, 1, 1, "L°/kg "+basis, formula, worked)
}
