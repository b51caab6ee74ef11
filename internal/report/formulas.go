package report

import (
	"strings"

	"awn/reckon"
)

// formulaGroup is the formulas of one package.
type formulaGroup struct {
	Package  string
	Formulas []reckon.Formula
}

// formulaSection is the appendix: every formula of the model with its source.
func (r Report) formulaSection() section {
	s := section{ID: "formulas", Title: r.Units.Say("section.formulas"), Intro: r.Units.Say("intro.formulas"), Wide: true}
	for _, f := range reckon.Catalogue() {
		if leave[f.Package] {
			continue
		}
		if n := len(s.Formulas); n == 0 || s.Formulas[n-1].Package != f.Package {
			s.Formulas = append(s.Formulas, formulaGroup{Package: f.Package})
		}
		// The program says NaN for what is not known; a reader need not.
		f.Valid = strings.ReplaceAll(f.Valid, "NaN", r.Units.Say("formula.nothing"))
		g := &s.Formulas[len(s.Formulas)-1]
		g.Formulas = append(g.Formulas, f)
	}
	return s
}

// behind names the formulas that the figures of the account rest on, by the
// key of the figure, nearest first.
var behind = map[string][]string{
	"uptake":       {"kernel.Uptake.MeanDB", "kernel.Constants.Diffusivity", "kernel.UptakeOfProtein"},
	"chit":         {"kernel.Chits.Share", "kernel.Constants.ChitRate", "kernel.Constants.ChitByMoisture"},
	"oxygen":       {"kernel.Clock.Demand", "kernel.Constants.OxygenFactor"},
	"temperature":  {"barley.TempFromEnthalpy", "barley.GrainEnthalpy"},
	"bed-moisture": {"kiln.InnerRate", "kiln.Film", "barley.ChungPfost.Humidity", "air.SaturationPressure"},
	"acrospire":    {"germinate.Constants.Acrospire"},
	"age_d":        {"kernel.Constants.GrowthByTemp", "kernel.Constants.GrowthByMoisture"},

	"beta_glucan_dm":          {"germinate.Constants.BetaGlucan"},
	"wort_beta_glucan_mg_l":   {"germinate.Constants.WortBetaGlucan", "germinate.Constants.BetaGlucan"},
	"friability":              {"germinate.Constants.Friability"},
	"kolbach":                 {"germinate.Constants.Kolbach"},
	"soluble_protein_dm":      {"germinate.Constants.Kolbach", "malt.Kolbach"},
	"fan_mg_100g_dm":          {"germinate.Constants.FAN"},
	"fan_mg_l":                {"malt.OfMalt", "germinate.Constants.FAN"},
	"alpha_amylase_du_dm":     {"germinate.Constants.AlphaAmylase", "germinate.Survival"},
	"diastatic_power_lintner": {"germinate.Constants.DiastaticPower", "germinate.Survival"},
	"diastatic_power_wk":      {"malt.Lintner.WindischKolbach", "germinate.Constants.DiastaticPower"},
	"limit_dextrinase":        {"germinate.Constants.LimitDextrinase"},
	"viscosity_mpas":          {"germinate.Constants.Viscosity"},
	"extract_fine_dm":         {"germinate.Constants.ExtractFine"},
	"extract_fine_asis":       {"malt.ExtractDry.AsIs", "germinate.Constants.ExtractFine"},
	"extract_coarse_dm":       {"germinate.Constants.CoarseFineGap"},
	"extract_difference_dm":   {"germinate.Constants.CoarseFineGap"},
	"colour_ebc":              {"kiln.Constants.ColourRate"},
	"smm_mg_kg_dm":            {"kiln.Constants.SMMLoss"},
	"moisture_wb":             {"kiln.InnerRate", "barley.GAB.Moisture"},
	"left.alpha":              {"kiln.Enzyme.Loss"},
	"left.beta":               {"kiln.Enzyme.Loss"},
	"left.endo":               {"kiln.Enzyme.Loss"},
	"left.exo":                {"kiln.Enzyme.Loss"},
	"left.smm":                {"kiln.Constants.SMMLoss"},
	"wort_hl_t":               {"brew.WortHLTonne"},
	"final_plato":             {"brew.ApparentExtract"},
	"alcohol_abv":             {"brew.AlcoholByVolume"},
	"spirit_yield_l_t_asis":   {"brew.SpiritLTonne", "brew.FermentableExtract"},
	"yield.culms":             {"dress.Stream.Kg"},
}

// leave says which formulas are left out of the appendix: those that no
// figure of a course rests on.
var leave = map[string]bool{"finding": true, "lab": true}
