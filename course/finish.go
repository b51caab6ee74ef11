package course

import (
	"math"
	"slices"

	"awn/barley"
	"awn/brew"
	"awn/dress"
	"awn/finding"
	"awn/germinate"
	"awn/kiln"
	"awn/malt"
	"awn/odds"
	"awn/unit"
)

// finish dresses the malt, judges it and adds up what it took.
func (r *runner) finish() error {
	o, p := r.out, r.piece
	o.Growth = r.c.germinate.Modification(r.grain, &r.lot)
	moisture := unit.WetBasis(o.Kilned.MoistureMean)
	yield, err := dress.Dress(&r.c.dress, p.House.Dressing, r.charge(moisture))
	if err != nil {
		return err
	}
	o.Yield = yield
	o.Malt = analysis(&r.lot, o.Growth, o.Kilned, r.sent(o.Kilned.MoistureMean))
	o.ExtractSteeped = extractKgT(o.Growth.Mean.ExtractFine, yield.PerDry)
	o.ExtractReceived = extractKgT(o.Growth.Mean.ExtractFine, yield.PerReceivedDry)
	o.Judged = malt.Judge(p.Specification, o.Malt)
	o.Brewed = brew.Of(o.Malt, malt.Plato(r.c.own.BrewedPlato), r.c.brew)
	o.Cost = r.cost()
	r.scope()
	o.Findings = o.Growth.Findings(o.Findings)
	o.Findings = yield.Findings(o.Findings)
	o.Findings = o.Rested.Findings(o.Findings, moisture)
	o.Findings = judged(o.Findings, o.Judged)
	o.Findings = o.hidden(o.Findings)
	o.Findings = ranked(o.Findings)
	return nil
}

// charge is the piece as it comes to the deculmer.
func (r *runner) charge(moisture unit.WetBasis) dress.Charge {
	c := dress.Charge{
		ReceivedKg: r.out.Cleaned.Received.Kg(), CleanedKg: r.out.Cleaned.Cleaned.Kg(), Pit: r.out.Cleaned.Received.Moisture,
		SteepedKg: r.piece.CastKg, Barley: unit.WetBasis(r.lot.Moisture.Mid),
		LeachedKg: r.leached, RespiredKg: r.respired, RespiredKilnKg: r.kilned.RespiredKg,
		KilnedDryKg: r.grain.TotalDryKg(), Malt: moisture,
	}
	if r.piece.Begin != nil {
		// What happened before the first stage is not known: the yield is that
		// from the dry matter as it began.
		c.SteepedKg = r.castDryKg / (1 - r.lot.Moisture.Mid)
	}
	return c
}

// extractKgT is the extract from a tonne of dry matter of barley, kg: a share of
// the dry matter of malt that dissolves, times the malt of that barley.
func extractKgT(extractDry, maltPerDry float64) float64 { return kgPerT * extractDry * maltPerDry }

// ranked puts the weightiest finding first.
func ranked(all []finding.Finding) []finding.Finding {
	slices.SortStableFunc(all, func(a, b finding.Finding) int {
		switch {
		case a.Weight() > b.Weight():
			return -1
		case a.Weight() < b.Weight():
			return 1
		}
		return 0
	})
	return all
}

// kilnedOf is what the kiln left in the layers of g, whose break was found; g is the piece as stripped, and
// greenEBC the colour of its green malt, to which each layer added.
func kilnedOf(found kiln.Break, g *barley.Grain, greenEBC float64) Kilned {
	k := Kilned{
		MoistureDriest: math.Inf(1), ColourLeast: math.Inf(1), ColourMost: math.Inf(-1), MoistureWettest: math.Inf(-1),
	}
	total, water := g.TotalDryKg(), g.TotalWaterKg()
	k.MoistureMean = water / (water + total)
	variance := 0.0
	for cell := range g.Cells() {
		share := g.CellDryKg(cell) / total
		x := g.CellMoistureDB(cell)
		wb := x / (1 + x)
		k.MoistureDriest, k.MoistureWettest = min(k.MoistureDriest, wb), max(k.MoistureWettest, wb)
		variance += share * (wb - k.MoistureMean) * (wb - k.MoistureMean)
		h := g.Heat[cell]
		h.ColourEBC += greenEBC
		k.ColourLeast, k.ColourMost = min(k.ColourLeast, h.ColourEBC), max(k.ColourMost, h.ColourEBC)
		k.ColourMean += share * h.ColourEBC
		k.Left.AlphaAmylase += share * h.AlphaAmylase
		k.Left.BetaAmylase += share * h.BetaAmylase
		k.Left.EndoGlucanase += share * h.EndoGlucanase
		k.Left.ExoGlucanase += share * h.ExoGlucanase
		k.Left.SMM += share * h.SMM
	}
	k.Left.ColourEBC = k.ColourMean
	k.SpreadSD = math.Sqrt(variance)
	k.BreakH, k.BreakWettest = found.AtH, found.WorstWB
	return k
}

// How well the model's figures of a malt are known. Extract, the S/T ratio and
// the beta-glucan of wort are held against one published malting from end to
// end, within tolerances that docs/method states; the rest is judgement.
const (
	checked = odds.Checked
	weak    = odds.Weak
)

// analysis is the malt as a laboratory would find it, at the moisture at which
// it is sent out.
func analysis(lot *barley.Lot, growth germinate.Modification, k Kilned, moistureWB float64) malt.Analysis {
	grown := growth.Mean
	a := malt.Analysis{}
	set := func(p malt.Parameter, x float64, basis malt.Basis, standing odds.Standing) {
		if !math.IsNaN(x) {
			a[p] = malt.Result{Value: odds.Alone(x, standing), Basis: basis}
		}
	}
	protein := lot.Protein.Mid
	set(malt.Moisture, moistureWB, malt.WetBasis, weak)
	set(malt.ExtractFine, grown.ExtractFine, malt.Dry, checked)
	set(malt.ExtractCoarse, grown.ExtractFine-grown.CoarseFineGap, malt.Dry, weak)
	set(malt.Colour, k.ColourMean, malt.ScaleEBC, weak)
	set(malt.Protein, protein, malt.Dry, lot.Protein.Standing)
	set(malt.SolubleProtein, protein*grown.Kolbach, malt.Dry, weak)
	set(malt.FAN, grown.FANMg100g, malt.Per100g, weak)
	set(malt.DiastaticPower, grown.DiastaticPowerASBC, malt.ScaleLintner, weak)
	set(malt.AlphaAmylase, grown.AlphaAmylaseDU, malt.Dry, weak)
	set(malt.WortBetaGlucan, grown.WortBetaGlucanMgL, malt.InWort, checked)
	set(malt.Viscosity, grown.ViscosityMPas, malt.NoBasis, weak)
	set(malt.Friability, grown.Friability, malt.NoBasis, weak)
	set(malt.PartlyUnmodified, growth.PartlyCorns, malt.NoBasis, weak)
	set(malt.WhollyUnmodified, growth.WholeCorns, malt.NoBasis, weak)
	if lot.GreenSMM.Known() {
		set(malt.DMSPrecursor, lot.GreenSMM.Mid*k.Left.SMM, malt.Dry, weak)
	}
	return a
}
