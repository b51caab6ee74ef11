package reckon

import (
	"fmt"

	"awn/malt"
	"awn/unit"
)

func extract(g *given) ([]Result, error) {
	f, w := g.get("extract"), unit.WetBasis(g.at("moisture"))
	dry := malt.ExtractDry(f.Value)
	if f.Quantity.Kind == unit.KindAsIs {
		dry = malt.ExtractAsIs(f.Value).Dry(w)
	}
	out := extracts(dry, dry.AsIs(w), w)
	if c := g.get("coarse"); g.has("coarse") {
		coarse := malt.ExtractDry(c.Value)
		if c.Quantity.Kind == unit.KindAsIs {
			coarse = malt.ExtractAsIs(c.Value).Dry(w)
		}
		out = append(out, differences(dry, coarse, w)...)
	}
	return out, nil
}

// differences are what the coarse grist gives, and what it leaves behind.
func differences(fine, coarse malt.ExtractDry, w unit.WetBasis) []Result {
	d := malt.FineCoarseDifference(fine, coarse)
	return []Result{
		bare("extract_coarse_asis", "coarse as-is", float64(coarse.AsIs(w)), 100, 2, "% asis", "malt.ExtractDry.AsIs", ""),
		bare("extract_coarse_dm", "coarse dry", float64(coarse), 100, 2, "% dm", "malt.ExtractAsIs.Dry", ""),
		bare("extract_difference_dm", "fine less coarse, dry", float64(d), 100, 2, "% dm", "malt.FineCoarseDifference",
			fmt.Sprintf("d = %s - %s = %s", figures(100*float64(fine), 5), figures(100*float64(coarse), 5), figures(100*float64(d), 4))),
	}
}

func congress(g *given) ([]Result, error) {
	p, w := malt.Plato(g.at("wort")), unit.WetBasis(g.at("moisture"))
	asis := malt.CongressExtract(p, w)
	out := extracts(asis.Dry(w), asis, w)
	out[0].Formula = "malt.CongressExtract"
	worked := func(p malt.Plato, e malt.ExtractAsIs) string {
		return fmt.Sprintf("E = %s × (800 + %s)/(100 - %s) = %s %%", plain(float64(p)), figures(100*float64(w), 5), plain(float64(p)), figures(100*float64(e), 5))
	}
	out[0].Worked = worked(p, asis)
	if g.has("coarse") {
		p := malt.Plato(g.at("coarse"))
		coarse := malt.CongressExtract(p, w)
		more := differences(asis.Dry(w), coarse.Dry(w), w)
		more[0].Formula, more[0].Worked = "malt.CongressExtract", worked(p, coarse)
		out = append(out, more...)
	}
	return out, nil
}

// extracts is an extract on both bases in all its units.
func extracts(dry malt.ExtractDry, asis malt.ExtractAsIs, w unit.WetBasis) []Result {
	share := figures(float64(w), 5)
	a, d := figures(100*float64(asis), 5), figures(100*float64(dry), 5)
	return []Result{
		bare("extract_asis", "extract as-is", float64(asis), 100, 2, "% asis", "malt.ExtractDry.AsIs", fmt.Sprintf("E = %s × (1 - %s) = %s %%", d, share, a)),
		bare("extract_dm", "extract dry", float64(dry), 100, 2, "% dm", "malt.ExtractAsIs.Dry", fmt.Sprintf("Ed = %s/(1 - %s) = %s %%", a, share, d)),
		bare("litre_degrees_asis", "litre degrees as-is", float64(asis.LitreDegrees()), 1, 1, "L°/kg asis", "malt.ExtractAsIs.LitreDegrees", "L = 3.865 × "+a+" = "+figures(float64(asis.LitreDegrees()), 4)),
		bare("litre_degrees_dm", "litre degrees dry", float64(dry.LitreDegrees()), 1, 1, "L°/kg dm", "malt.ExtractDry.LitreDegrees", "L = 3.865 × "+d+" = "+figures(float64(dry.LitreDegrees()), 4)),
		bare("points_asis", "points as-is", float64(asis.Points()), 1, 2, "ppg asis", "malt.ExtractAsIs.Points", "ppg = 0.4631 × "+a+" = "+figures(float64(asis.Points()), 4)),
		bare("points_dm", "points dry", float64(dry.Points()), 1, 2, "ppg dm", "malt.ExtractDry.Points", "ppg = 0.4631 × "+d+" = "+figures(float64(dry.Points()), 4)),
	}
}

func colour(g *given) ([]Result, error) {
	f := g.get("colour")
	if g.has("colour") == g.has("absorbance") {
		return nil, &Fault{Code: "reckon.input.missing", Got: "colour or absorbance, one of them", Allowed: []string{"3.5 EBC", "a430=0.2"}}
	}
	if g.has("absorbance") {
		return absorbed(g.at("absorbance")), nil
	}
	x, err := unit.Colour.In(f.Value, f.Quantity.Symbol)
	if err != nil {
		return nil, err
	}
	var ebc malt.ColourEBC
	ebcOf, srmOf, glassOf := "", "malt.ColourEBC.SRM", "malt.ColourEBC.Lovibond"
	var srm malt.ColourSRM
	var glass malt.Lovibond
	switch f.Quantity.Symbol {
	case "SRM":
		srm, srmOf = malt.ColourSRM(x), ""
		ebc, ebcOf = srm.EBC(), "malt.ColourSRM.EBC"
		glass = ebc.Lovibond()
	case "°L":
		glass, glassOf = malt.Lovibond(x), ""
		ebc, ebcOf = glass.EBC(), "malt.Lovibond.EBC"
		srm, srmOf = glass.SRM(), "malt.Lovibond.SRM"
	default:
		ebc = malt.ColourEBC(x)
		srm, glass = ebc.SRM(), ebc.Lovibond()
	}
	return []Result{
		bare("colour_ebc", "colour, EBC", float64(ebc), 1, 2, "EBC", ebcOf, ""),
		bare("colour_srm", "colour, SRM", float64(srm), 1, 2, "SRM", srmOf, ""),
		bare("colour_lovibond", "colour, glasses", float64(glass), 1, 1, "°L", glassOf, ""),
	}, nil
}

// absorbed is colour by its definition on the two scales that have one.
func absorbed(a430 float64) []Result {
	ebc, srm := malt.ColourEBCOfAbsorbance(a430), malt.ColourSRMOfAbsorbance(a430)
	a := figures(a430, 5)
	return []Result{
		bare("colour_ebc", "colour, EBC", float64(ebc), 1, 2, "EBC", "malt.ColourEBCOfAbsorbance", "EBC = 25 × "+a+" = "+figures(float64(ebc), 5)),
		bare("colour_srm", "colour, SRM", float64(srm), 1, 2, "SRM", "malt.ColourSRMOfAbsorbance", "SRM = 12.7 × "+a+" = "+figures(float64(srm), 5)),
		bare("colour_lovibond", "colour, glasses", float64(ebc.Lovibond()), 1, 1, "°L", "malt.ColourEBC.Lovibond", ""),
	}
}

func diastatic(g *given) ([]Result, error) {
	f := g.get("dp")
	wk := malt.WindischKolbach(f.Value)
	lintner := wk.Lintner()
	wkOf, lintnerOf := "", "malt.WindischKolbach.Lintner"
	if f.Quantity.Symbol != "WK" {
		x, err := unit.DiastaticPower.In(f.Value, f.Quantity.Symbol)
		if err != nil {
			return nil, err
		}
		lintner, lintnerOf = malt.Lintner(x), ""
		wk, wkOf = lintner.WindischKolbach(), "malt.Lintner.WindischKolbach"
	}
	return []Result{
		bare("diastatic_power_wk", "Windisch-Kolbach", float64(wk), 1, 1, "WK", wkOf, fmt.Sprintf("WK = 3.5 × %s - 16", figures(float64(lintner), 5))),
		bare("diastatic_power_lintner", "Lintner", float64(lintner), 1, 1, "Lintner", lintnerOf, fmt.Sprintf("L = (%s + 16)/3.5", figures(float64(wk), 5))),
	}, nil
}

func kolbach(g *given) ([]Result, error) {
	s, t := g.get("soluble"), g.get("total")
	if s.Quantity.Kind != t.Quantity.Kind {
		return nil, &Fault{Code: "reckon.kolbach.basis", Got: s.Written + " and " + t.Written}
	}
	k := malt.Kolbach(s.Value, t.Value)
	return []Result{bare("kolbach", "Kolbach index, S/T", k, 100, 2, "%", "malt.Kolbach",
		fmt.Sprintf("KI = %s/%s = %s", figures(100*s.Value, 5), figures(100*t.Value, 5), figures(k, 4)))}, nil
}
