package course

import (
	"math"

	"awn/germinate"
	"awn/malt"
	"awn/programme"
)

// number is one figure of the account, by the key that JSON and documents use.
type number struct {
	key string
	of  func(o *Outcome) float64
}

// numbers are the figures of a whole account but for those of the malt and of
// the stages, which depend on what was asked.
var numbers = []number{
	{"kilned.moisture_mean_wb", func(o *Outcome) float64 { return o.Kilned.MoistureMean }},
	{"kilned.moisture_wettest_wb", func(o *Outcome) float64 { return o.Kilned.MoistureWettest }},
	{"kilned.moisture_driest_wb", func(o *Outcome) float64 { return o.Kilned.MoistureDriest }},
	{"kilned.spread_sd_wb", func(o *Outcome) float64 { return o.Kilned.SpreadSD }},
	{"kilned.break_h", func(o *Outcome) float64 { return o.Kilned.BreakH }},
	{"kilned.break_wettest_wb", func(o *Outcome) float64 { return o.Kilned.BreakWettest }},
	{"kilned.colour_mean_ebc", func(o *Outcome) float64 { return o.Kilned.ColourMean }},
	{"kilned.colour_least_ebc", func(o *Outcome) float64 { return o.Kilned.ColourLeast }},
	{"kilned.colour_most_ebc", func(o *Outcome) float64 { return o.Kilned.ColourMost }},
	{"kilned.alpha_amylase_left", func(o *Outcome) float64 { return o.Kilned.Left.AlphaAmylase }},
	{"kilned.beta_amylase_left", func(o *Outcome) float64 { return o.Kilned.Left.BetaAmylase }},
	{"kilned.endo_glucanase_left", func(o *Outcome) float64 { return o.Kilned.Left.EndoGlucanase }},
	{"kilned.exo_glucanase_left", func(o *Outcome) float64 { return o.Kilned.Left.ExoGlucanase }},
	{"kilned.smm_left", func(o *Outcome) float64 { return o.Kilned.Left.SMM }},

	{"growth.acrospire", func(o *Outcome) float64 { return o.Growth.Acrospire }},
	{"growth.overgrown", func(o *Outcome) float64 { return o.Growth.Overgrown }},
	{"growth.undergrown", func(o *Outcome) float64 { return o.Growth.Undergrown }},
	{"growth.wug", func(o *Outcome) float64 { return o.Growth.WholeCorns }},
	{"growth.pug", func(o *Outcome) float64 { return o.Growth.PartlyCorns }},
	{"growth.idle", func(o *Outcome) float64 { return o.Growth.Idle }},
	grown("age_d", func(a *germinate.Analysis) float64 { return a.AgeD }),
	grown("beta_glucan_dm", func(a *germinate.Analysis) float64 { return a.BetaGlucan }),
	grown("wort_beta_glucan_mg_l", func(a *germinate.Analysis) float64 { return a.WortBetaGlucanMgL }),
	grown("friability", func(a *germinate.Analysis) float64 { return a.Friability }),
	grown("kolbach", func(a *germinate.Analysis) float64 { return a.Kolbach }),
	grown("fan_mg_100g_dm", func(a *germinate.Analysis) float64 { return a.FANMg100g }),
	grown("alpha_amylase_du_dm", func(a *germinate.Analysis) float64 { return a.AlphaAmylaseDU }),
	grown("diastatic_power_lintner", func(a *germinate.Analysis) float64 { return a.DiastaticPowerASBC }),
	grown("limit_dextrinase", func(a *germinate.Analysis) float64 { return a.LimitDextrinase }),
	grown("viscosity_mpas", func(a *germinate.Analysis) float64 { return a.ViscosityMPas }),
	grown("extract_fine_dm", func(a *germinate.Analysis) float64 { return a.ExtractFine }),

	{"yield.malt_kg", func(o *Outcome) float64 { return o.Yield.Malt.Kg() }},
	{"yield.culms_kg", func(o *Outcome) float64 { return o.Yield.Culms.Kg() }},
	{"yield.screenings_kg", func(o *Outcome) float64 { return o.Yield.Screens.Kg() }},
	{"yield.dust_kg", func(o *Outcome) float64 { return o.Yield.Dust.Kg() }},
	{"yield.per_received", func(o *Outcome) float64 { return o.Yield.PerReceived }},
	{"yield.per_cleaned", func(o *Outcome) float64 { return o.Yield.PerCleaned }},
	{"yield.per_steeped", func(o *Outcome) float64 { return o.Yield.PerSteeped }},
	{"rested.moisture_wb", func(o *Outcome) float64 { return float64(o.Rested.Moisture) }},
	{"yield.extract_steeped_kg_t", func(o *Outcome) float64 { return o.ExtractSteeped }},
	{"yield.extract_received_kg_t", func(o *Outcome) float64 { return o.ExtractReceived }},
	{"yield.per_dry", func(o *Outcome) float64 { return o.Yield.PerDry }},
	{"yield.barley_per_malt", func(o *Outcome) float64 { return o.Yield.BarleyPerMalt }},
	{"yield.leached_dm", func(o *Outcome) float64 { return o.Yield.Leached }},
	{"yield.respired_dm", func(o *Outcome) float64 { return o.Yield.Respired }},
	{"yield.respired_kiln_dm", func(o *Outcome) float64 { return o.Yield.RespiredKiln }},
	{"yield.culms_dm", func(o *Outcome) float64 { return o.Yield.CulmsShare }},
	{"yield.screenings_dm", func(o *Outcome) float64 { return o.Yield.ScreensShare }},
	{"yield.dust_dm", func(o *Outcome) float64 { return o.Yield.DustShare }},
	{"yield.malting_loss_dm", func(o *Outcome) float64 { return o.Yield.Malting }},
	{"yield.all_losses_dm", func(o *Outcome) float64 { return o.Yield.All }},

	{"brewed.extract_asis", func(o *Outcome) float64 { return o.Brewed.ExtractAsIs.Mid }},
	{"brewed.extract_dm", func(o *Outcome) float64 { return o.Brewed.ExtractDry.Mid }},
	{"brewed.wort_hl_t", func(o *Outcome) float64 { return o.Brewed.WortHLTonne.Mid }},
	{"brewed.attenuation_limit", func(o *Outcome) float64 { return o.Brewed.AttenuationLimit.Mid }},
	{"brewed.final_plato", func(o *Outcome) float64 { return o.Brewed.FinalPlato.Mid }},
	{"brewed.abv", func(o *Outcome) float64 { return o.Brewed.AlcoholByVolume.Mid }},
	{"brewed.spirit_l_t_asis", func(o *Outcome) float64 { return o.Brewed.SpiritLTonne.Mid }},

	{"cost.water_m3", func(o *Outcome) float64 { return o.Cost.WaterM3 }},
	{"cost.effluent_m3", func(o *Outcome) float64 { return o.Cost.EffluentM3 }},
	{"cost.cod_kg", func(o *Outcome) float64 { return o.Cost.CODKg }},
	{"cost.heat_to_air_kwh", func(o *Outcome) float64 { return o.Cost.HeatToAirKWh }},
	{"cost.fuel_lhv_kwh", func(o *Outcome) float64 { return o.Cost.FuelLHVKWh }},
	{"cost.fuel_hhv_kwh", func(o *Outcome) float64 { return o.Cost.FuelHHVKWh }},
	{"cost.power_kwh", func(o *Outcome) float64 { return o.Cost.PowerKWh }},
	{"cost.duration_h", func(o *Outcome) float64 { return o.Cost.Hours }},
	{"cost.co2e_kg", func(o *Outcome) float64 { return o.Cost.CO2eKg }},
	{"cost.water_cost", func(o *Outcome) float64 { return o.Cost.WaterCost }},
	{"cost.heat_cost", func(o *Outcome) float64 { return o.Cost.HeatCost }},
	{"cost.power_cost", func(o *Outcome) float64 { return o.Cost.PowerCost }},
	{"cost.vessel_cost", func(o *Outcome) float64 { return o.Cost.VesselCost }},
	{"cost.by_product_value", func(o *Outcome) float64 { return o.Cost.ByProductValue }},
	{"cost.per_tonne_cost", func(o *Outcome) float64 { return o.Cost.PerTonneMalt }},

	{"lot.moisture_wb", func(o *Outcome) float64 { return o.Lot.Moisture.Mid }},
	{"lot.protein_dm", func(o *Outcome) float64 { return o.Lot.Protein.Mid }},
	{"lot.capacity", func(o *Outcome) float64 { return o.Lot.Capacity.Mid }},
	{"lot.dormant", func(o *Outcome) float64 { return o.Lot.Dormant.Mid }},
	{"lot.water_sensitivity", func(o *Outcome) float64 { return o.Lot.WaterSensitivity.Mid }},
}

func grown(key string, of func(*germinate.Analysis) float64) number {
	return number{"growth." + key, func(o *Outcome) float64 { return of(&o.Growth.Mean) }}
}

// figuresOf is every figure of an account by its key, in a fixed order; NaN for
// what an outcome does not have. form is the outcome by which the order is set.
func figuresOf(form, o *Outcome, a malt.Analysis) (keys []string, values []float64) {
	add := func(key string, x float64) { keys, values = append(keys, key), append(values, x) }
	for _, n := range numbers {
		add(n.key, n.of(o))
	}
	for _, p := range malt.Parameters() {
		for _, basis := range basesOf(form.Malt, p) {
			f, _ := a.On(p, basis)
			add("malt."+p.Key(basis), f.Value.Mid)
		}
	}
	for i := range form.Stages {
		stageFigures(&o.Stages[i], &o.Curve, add)
	}
	return keys, values
}

// basesOf are the bases on which a figure of malt is told: the usual one, if it can
// be given on it, and the one on which it was computed.
func basesOf(a malt.Analysis, p malt.Parameter) []malt.Basis {
	var out []malt.Basis
	usual := p.Bases()[0]
	if _, reason := a.On(p, usual); reason == malt.Given {
		out = append(out, usual)
	}
	if f, ok := a[p]; ok && f.Basis != usual {
		out = append(out, f.Basis)
	}
	return out
}

// extremes are the readings of a stage of which the worst or the mean is told.
var extremes = []struct {
	reading programme.Reading
	kind    string
}{
	{programme.TempMean, "mean"}, {programme.TempHigh, "most"}, {programme.OxygenLeast, "least"},
	{programme.CarbonDioxideMost, "most"}, {programme.RoomDioxide, "most"}, {programme.TempGap, "most"},
}

func stageFigures(s *StageOutcome, c *Curve, add func(string, float64)) {
	name := s.Stage.String()
	add(name+".to_h", s.ToH)
	add(name+".span_h", s.ToH-s.FromH)
	for r := programme.None + 1; r < programme.Readings; r++ {
		add(endKey(s.Stage, r), s.End[r])
	}
	for _, e := range extremes {
		add(name+"."+e.kind+"."+e.reading.Key(), c.told(s, e.reading, e.kind))
	}
}

// endKey is the key of a reading at the end of a stage.
func endKey(s Stage, r programme.Reading) string { return s.String() + ".end." + r.Key() }

// told is the mean of a reading over a stage by time, or the most or least of
// it; NaN where the stage has no such reading.
func (c *Curve) told(s *StageOutcome, reading programme.Reading, kind string) float64 {
	sum, hours, worst := 0.0, 0.0, nan
	lastH, last := s.FromH, s.Start[reading]
	see := func(h, x float64) {
		if math.IsNaN(x) {
			return
		}
		if better := x > worst; math.IsNaN(worst) || better == (kind == "most") {
			worst = x
		}
		if !math.IsNaN(last) {
			sum += (x + last) / 2 * (h - lastH)
			hours += h - lastH
		}
		lastH, last = h, x
	}
	for i, h := range c.TimeH {
		if h > s.FromH && h < s.ToH {
			see(h, c.At[i][reading])
		}
	}
	see(s.ToH, s.End[reading])
	if kind != "mean" {
		return worst
	}
	return sum / hours
}
