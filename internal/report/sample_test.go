package report

import (
	"math"

	"awn/barley"
	"awn/brew"
	"awn/course"
	"awn/dress"
	"awn/finding"
	"awn/germinate"
	"awn/internal/house"
	"awn/lab"
	"awn/malt"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// sample is an invented piece in round numbers, made by hand: it is here to be
// written about, not to be right.
func sample() Report {
	nan := math.NaN()
	o := &course.Outcome{
		Piece: &course.Piece{
			Code: "P26-0007", StartMs: 1772427600000, OffsetMin: 60, CastKg: 48000,
			House:         plant.House{Name: "Hallow Sound malthouse", Place: "Wennemark"},
			Programme:     samplePlan(),
			Specification: malt.Specification{Name: "Harbour Pale", Buyer: "Skerry Brewery"},
		},
		Lot: barley.Lot{
			Code: "L26-0112", Variety: "Solveig", Rows: 2, CropYear: 2025,
			Moisture: odds.WithDeviation(0.121, 0.002, odds.Measured), Protein: odds.WithDeviation(0.108, 0.001, odds.Measured),
			KernelMassMg: odds.Alone(44.5, odds.Measured), TestWeightKgHL: odds.Value{Mid: 66, Low: 62, High: 70, Standing: odds.Practice},
			Capacity: odds.Value{Mid: 0.98, Low: 0.96, High: 0.99, Standing: odds.Measured}, Dormant: odds.Alone(0.01, odds.Measured),
			WaterSensitivity:  odds.Value{Mid: 0.12, Low: 0.05, High: 0.19, Standing: odds.Measured},
			ChitThermalTimeCH: odds.Alone(390, odds.Measured), BetaGlucan: odds.Value{Mid: 0.039, Low: 0.027, High: 0.044, Standing: odds.Weak},
			Uptake: odds.Value{Mid: 1.02, Low: 0.6, High: 1.4, Standing: odds.Weak}, GreenSMM: barley.Unknown(),
			Counts4mL: []lab.Count{},
		},
		Kilned: course.Kilned{
			MoistureMean: 0.043, MoistureWettest: 0.064, MoistureDriest: 0.031, SpreadSD: 0.008, BreakH: 8.4, BreakWettest: 0.315,
			ColourMean: 3.4, ColourLeast: 2.7, ColourMost: 4.3,
			Left: barley.Heat{AlphaAmylase: 0.92, BetaAmylase: 0.59, EndoGlucanase: 0.69, ExoGlucanase: 0.41, SMM: 0.48, ColourEBC: 3.4},
		},
		Growth: sampleGrowth(),
		Cleaned: dress.Cleaned{
			Received: dress.Stream{DryKg: 43500, Moisture: 0.13}, Dust: dress.Stream{DryKg: 200, Moisture: 0.13}, Cleaned: dress.Stream{DryKg: 43300, Moisture: 0.13},
			Screened: dress.Stream{DryKg: 1108, Moisture: 0.13}, Steeped: dress.Stream{DryKg: 42192, Moisture: 0.121}, DriedKg: 497, For: 178,
		},
		Rested: dress.Rested{Days: 28, Moisture: 0.046, Gained: 0.0033, TempC: 16, Outer: 0.12, DewC: -4, WallC: 12},
		Water:  course.SteepWater{SupplyC: 9, FreshM3: 132, ReusedM3: 40, ReusedC: 16.5, ReusedCODKg: 61, WarmedJ: 4.2e9, PH: 7.6, HardnessMgL: 210, IronL: nan},
		Yield: dress.Yield{
			Malt: dress.Stream{DryKg: 38100, Moisture: 0.043}, Culms: dress.Stream{DryKg: 1480, Moisture: 0.043},
			Screens: dress.Stream{DryKg: 230, Moisture: 0.043}, Dust: dress.Stream{DryKg: 80, Moisture: 0.043},
			PerReceived: nan, PerCleaned: nan, PerSteeped: 0.829, PerDry: 0.903, BarleyPerMalt: 1.206,
			Leached: 0.009, Respired: 0.041, RespiredKiln: 0.0046, CulmsShare: 0.0351, ScreensShare: 0.0055, DustShare: 0.0019,
			Malting: 0.0897, All: 0.0971,
		},
		Brewed: brew.Prospect{
			ExtractAsIs: odds.Alone(0.777, odds.Checked), ExtractDry: odds.Alone(0.812, odds.Checked), Wort: 12,
			WortHLTonne: odds.Alone(58.9, odds.Checked), AttenuationLimit: odds.Value{Mid: 0.81, Low: 0.79, High: 0.83, Standing: odds.Practice},
			FinalPlato: odds.Alone(2.3, odds.Practice), AlcoholByVolume: odds.Alone(0.0523, odds.Practice), SpiritLTonne: odds.Alone(nan, odds.Weak),
		},
		Cost: course.Cost{
			Currency: "EUR", BarleyT: 48, WaterM3: 172, EffluentM3: 151, CODKg: 412, HeatToAirKWh: 27400, FuelLHVKWh: 30400,
			FuelHHVKWh: 33700, PowerKWh: 5900, Hours: 166, CO2eKg: nan, BarleyCost: 10560, WaterCost: 344, HeatCost: 1348,
			PowerCost: 826, VesselCost: 3320, ByProductValue: 260, PerTonneMalt: 405.4,
		},
	}
	sampleStages(o)
	sampleMalt(o)
	o.Findings = sampleFindings()
	return Report{Outcome: o, Version: house.Version{Release: "0.0.0", Model: 1}, Inputs: []Input{
		{"lot/1", "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"},
		{"plant/1", "60303ae22b998861bce3b28f33eec1be758a213c86c93c076dbe9f558c11c752"},
	}}
}

func samplePlan() programme.Programme {
	return programme.Programme{
		Name:      "Pale, two immersions",
		Germinate: []programme.GerminateStep{{TurnEvH: 12}},
	}
}

func sampleGrowth() germinate.Modification {
	at := func(k float64) germinate.Analysis {
		return germinate.Analysis{
			AgeD: 4.4 * k, BetaGlucan: 0.0021 / k / k, WortBetaGlucanMgL: 118 / k / k, Friability: 0.88 * k, Kolbach: 0.421 * k,
			FANMg100g: 158 * k, AlphaAmylaseDU: 58 * k, DiastaticPowerASBC: 112 * k, LimitDextrinase: 0.45 * k, ViscosityMPas: 1.5 / k,
			ExtractFine: 0.812 * math.Sqrt(k), CoarseFineGap: 0.013,
		}
	}
	return germinate.Modification{
		Mean: at(1), Living: at(1.02), Worst: at(0.93), Acrospire: 0.71,
		Quarters: [5]float64{0.035, 0.05, 0.335, 0.53, 0.05}, Overgrown: 0.05, Undergrown: 0.085, WholeCorns: 0.021, PartlyCorns: 0.032, Idle: 0.021,
	}
}

// sampleStages fills stages, curve and beds with smooth made-up shapes.
func sampleStages(o *course.Outcome) {
	steps := map[course.Stage][]course.StepOutcome{
		course.Steep: {
			{Name: "immersion", FromH: 0, ToH: 7}, {Name: "air-rest", FromH: 7, ToH: 20}, {Name: "immersion", FromH: 20, ToH: 25},
			{Name: "air-rest", FromH: 25, ToH: 40, Ended: course.ByReading, Until: programme.Until{Reading: programme.Chit, Value: 0.9, Rising: true, LatestH: 20}},
			{Name: "couch", FromH: 40, ToH: 44},
		},
		course.Germinate: {{Name: "germinate", FromH: 44, ToH: 142}},
		course.Kiln: {
			{Name: "wither", FromH: 142, ToH: 150.4, Ended: course.ByReading, Until: programme.Until{Reading: programme.Break, Value: 1, Rising: true, LatestH: 14}},
			{Name: "cure", FromH: 150.4, ToH: 166, Ended: course.AtLatest, Until: programme.Until{Reading: programme.WorstLayer, Value: 0.06, LatestH: 15.6}},
		},
	}
	for t := 0.0; t <= 166; t++ {
		o.Curve.TimeH = append(o.Curve.TimeH, t)
		o.Curve.At = append(o.Curve.At, sampleMoment(t))
	}
	lines := map[course.Stage][]barley.Line{
		course.Steep: {
			{Good: barley.Dry, Code: "steep.leached", Amount: -380}, {Good: barley.Dry, Code: "steep.respired", Amount: -190},
			{Good: barley.Water, Code: "steep.absorbed", Amount: 27300}, {Good: barley.Water, Code: "steep.evaporated", Amount: -410},
			{Good: barley.Water, Code: "steep.metabolic", Amount: 105},
			{Good: barley.HeatJ, Code: "steep.respired", Amount: 3.3e9}, {Good: barley.HeatJ, Code: "steep.absorbed", Amount: 1.6e9},
			{Good: barley.HeatJ, Code: "steep.walls", Amount: -2e8},
			{Good: barley.Oxygen, Code: "steep.air", Amount: 210}, {Good: barley.Oxygen, Code: "steep.respired", Amount: -210},
		},
		course.Germinate: {
			{Good: barley.Dry, Code: "germinate.respired", Amount: -1540}, {Good: barley.Water, Code: "germinate.evaporated", Amount: -4150},
			{Good: barley.Water, Code: "germinate.sprayed", Amount: 1900}, {Good: barley.Water, Code: "germinate.metabolic", Amount: 856},
			{Good: barley.HeatJ, Code: "germinate.respired", Amount: 2.7e10}, {Good: barley.HeatJ, Code: "germinate.air", Amount: -2.6e10},
			{Good: barley.CarbonDioxide, Code: "germinate.respired", Amount: 2508}, {Good: barley.CarbonDioxide, Code: "germinate.air", Amount: -2508},
		},
		course.Kiln: {
			{Good: barley.Dry, Code: "kiln.respired", Amount: -194}, {Good: barley.Water, Code: "kiln.air-on", Amount: 9100},
			{Good: barley.Water, Code: "kiln.air-off", Amount: -38890}, {Good: barley.HeatJ, Code: "kiln.air-on", Amount: 9.9e10},
			{Good: barley.HeatJ, Code: "kiln.air-off", Amount: -1.0e11},
		},
	}
	for _, s := range []struct {
		stage    course.Stage
		from, to float64
	}{{course.Steep, 0, 44}, {course.Germinate, 44, 142}, {course.Kiln, 142, 166}} {
		o.Stages = append(o.Stages, course.StageOutcome{
			Stage: s.stage, FromH: s.from, ToH: s.to, Steps: steps[s.stage],
			Start: sampleMoment(s.from), End: sampleMoment(s.to - 1e-9),
			Balance: course.Balance{Lines: lines[s.stage], Closure: [5]float64{2e-14, 7e-14, 3e-15, 1e-14, 9e-13}},
		})
		for i := range steps[s.stage] {
			steps[s.stage][i].End = sampleMoment(steps[s.stage][i].ToH - 1e-9)
		}
		if s.stage != course.Steep {
			o.Bed = append(o.Bed, sampleField(s.stage, s.from, s.to))
		}
	}
}

// sampleMoment is one moment of the made-up course.
func sampleMoment(t float64) programme.Values {
	v := programme.Blank()
	set := func(r programme.Reading, x float64) { v[r] = x }
	set(programme.DryMatter, 42192-13*t)
	switch {
	case t < 44:
		set(programme.Moisture, 0.121+0.315*(1-math.Exp(-t/13)))
		set(programme.Drained, v[programme.Moisture]+0.018*(1-math.Exp(-t/2)))
		set(programme.TempMean, 14.5+2*math.Sin(t/7))
		set(programme.TempHigh, v[programme.TempMean]+0.8)
		set(programme.Chit, 0.96/(1+math.Exp(-(t-33)/3)))
		set(programme.OxygenLeast, 0.16+0.05*math.Cos(t/7))
		set(programme.CarbonDioxideMost, 0.03-0.02*math.Cos(t/7))
	case t < 142:
		g := (t - 44) / 98
		set(programme.Moisture, 0.446-0.02*g)
		set(programme.DriestLayer, 0.446-0.035*g)
		set(programme.WorstLayer, 0.446-0.012*g)
		set(programme.TempMean, 16+1.8*math.Sin(3*g))
		set(programme.TempLow, 15+1.2*math.Sin(3*g))
		set(programme.TempHigh, 17+2.9*math.Sin(3*g))
		set(programme.AirOn, 14)
		set(programme.Chit, 0.97)
		set(programme.Acrospire, 0.71*g)
		set(programme.AcrospireP10, 0.5*g*g)
		set(programme.AcrospireP90, math.Min(1.2, 0.95*math.Sqrt(g)))
		set(programme.OxygenLeast, 0.2-0.02*math.Sin(3*g))
		set(programme.CarbonDioxideMost, 0.003+0.006*math.Sin(3*g))
	default:
		k := (t - 142) / 24
		set(programme.Moisture, 0.043+0.383*math.Exp(-5*k*k))
		set(programme.DriestLayer, 0.031+0.395*math.Exp(-16*k*k))
		set(programme.WorstLayer, 0.064+0.362*math.Exp(-3*math.Pow(k, 3)*4))
		set(programme.TempMean, 22+58*k*k)
		set(programme.TempLow, 20+50*math.Pow(k, 3))
		set(programme.TempHigh, 50+33*k)
		set(programme.AirOn, 55+29*k)
		set(programme.AirOff, 25+55*math.Max(0, k-0.35)/0.65)
	}
	return v
}

// sampleField is a bed that dries, or warms, from the floor upwards.
func sampleField(stage course.Stage, from, to float64) course.Field {
	f := course.Field{Stage: stage, Layers: 12}
	for i := range 49 {
		g := float64(i) / 48
		f.TimeH = append(f.TimeH, from+g*(to-from))
		for layer := range f.Layers {
			z := (float64(layer) + 0.5) / float64(f.Layers)
			m, c := 0.446-0.025*g-0.015*g*(1-z), 15+2*math.Sin(3*g)+2.5*z*math.Sin(3*g)
			if stage == course.Kiln {
				dry := 1 / (1 + math.Exp((g*1.9-z-0.15)/0.12))
				m, c = 0.03+0.02*z+0.38*dry, 84-10*z-52*dry-20*(1-g)
			}
			f.Moisture = append(f.Moisture, m)
			f.TempC = append(f.TempC, c)
		}
	}
	return f
}

// sampleMalt is an analysis and a specification, judged as the program does.
func sampleMalt(o *course.Outcome) {
	set := func(x, half float64, basis malt.Basis, standing odds.Standing) malt.Result {
		return malt.Result{Value: odds.Value{Mid: x, Low: x - half, High: x + half, Standing: standing}, Basis: basis}
	}
	o.Malt = malt.Analysis{
		malt.Moisture: set(0.043, 0.005, malt.WetBasis, odds.Weak), malt.ExtractFine: set(0.812, 0.01, malt.Dry, odds.Checked),
		malt.Protein: set(0.108, 0.002, malt.Dry, odds.Measured), malt.SolubleProtein: set(0.0499, 0.004, malt.Dry, odds.Weak),
		malt.Friability: set(0.88, 0.05, malt.NoBasis, odds.Weak), malt.WortBetaGlucan: set(118, 70, malt.InWort, odds.Checked),
		malt.Colour: set(3.4, 1, malt.ScaleEBC, odds.Weak), malt.DiastaticPower: set(112, 20, malt.ScaleLintner, odds.Weak),
		malt.Viscosity: {Value: odds.Alone(1.495, odds.Weak)},
	}
	o.Piece.Specification.Limits = []malt.Limit{
		malt.AtMost(malt.Moisture, 0.05, malt.WetBasis), malt.AtLeast(malt.ExtractFine, 0.805, malt.Dry),
		malt.Between(malt.KolbachIndex, 0.38, 0.44, malt.NoBasis), malt.AtLeast(malt.Friability, 0.85, malt.NoBasis),
		malt.AtMost(malt.WortBetaGlucan, 180, malt.InWort), malt.Between(malt.Colour, 2.5, 4, malt.ScaleEBC),
		malt.AtMost(malt.DMSPrecursor, 5, malt.Dry),
	}
	o.Judged = malt.Judge(o.Piece.Specification, o.Malt)
}

func sampleFindings() []finding.Finding {
	wet := finding.New("kiln.strip.wet", finding.Alarm, "kiln",
		finding.Figure{Name: "worst_layer_wb", Value: 0.064}, finding.Figure{Name: "limit_wb", Value: 0.06}, finding.Figure{Name: "mean_wb", Value: 0.043})
	wet.AtH, wet.Column, wet.Layer, wet.Act, wet.Chance, wet.Cost = 166, 0, 11, "act.kiln.extend-fresh-air", 0.9, 0.3
	wet.Source = "common practice, no source"
	high := finding.New("malt.kolbach.above", finding.Caution, "malt", finding.Figure{Name: "kolbach", Value: 0.462}, finding.Figure{Name: "limit_kolbach", Value: 0.44})
	high.Act, high.Chance, high.Cost = "act.germinate.shorter-or-colder", 0.6, 0.05
	warm := finding.New("germinate.bed.hot", finding.Caution, "germinate", finding.Figure{Name: "gap_k", Value: 4.4}, finding.Figure{Name: "hours_h", Value: 9})
	warm.AtH, warm.Act, warm.Chance, warm.Cost = 92, "act.germinate.more-air", 0.5, 0.03
	note := finding.New("lot.test-weight.assumed", finding.Note, "lot", finding.Figure{Name: "value", Value: 66}, finding.Figure{Name: "low", Value: 62}, finding.Figure{Name: "high", Value: 70})
	note.Act, note.Chance, note.Cost = "act.lot.measure-test-weight", 0.1, 0.001
	return []finding.Finding{wet, high, warm, note}
}
