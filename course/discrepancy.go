package course

import (
	"maps"
	"strings"

	"awn/malt"
	"awn/odds"
)

const (
	modelPrefix = "model."
	practice    = "common practice, no source"
)

// Discrepancies are how far the malt that comes out may stand from the malt that
// is computed, although every input were right: one line for each figure of malt
// and one each for the wettest layer of the kiln and for what was respired, a
// factor where the shape is log-normal, an addition where it is normal. They are
// judgements, and stay so until a house has closed enough of its own pieces.
//
// They are independent of each other but for what hangs together: coarse extract
// is the fine one less the difference, soluble protein and FAN go with the
// Kolbach index.
var Discrepancies = []odds.Parameter{
	off(malt.Moisture, "kg/kg", 0.004),
	off(malt.ExtractFine, "kg/kg dm", 0.010),
	times(malt.ExtractGap, 1.35),
	times(malt.Colour, 1.3),
	off(malt.KolbachIndex, "1", 0.03),
	times(malt.FAN, 1.15),
	times(malt.DiastaticPower, 1.25),
	times(malt.AlphaAmylase, 1.25),
	times(malt.WortBetaGlucan, 1.6),
	off(malt.Viscosity, "mPa s", 0.06),
	off(malt.Friability, "1", 0.06),
	times(malt.PartlyUnmodified, 1.8),
	times(malt.WhollyUnmodified, 1.6),
	times(malt.DMSPrecursor, 1.35),
	times(wettestGap, 1.5),
	off(breathed, "kg/kg dm", 0.025),
}

// ofLevelBed stands for the gap of the wettest layer where the bed is taken to be
// level: no bed quite is, and it goes to the wet side only.
var ofLevelBed = odds.Parameter{Key: modelPrefix + string(wettestGap), Unit: "1, a factor", Default: 1, Low: 0.8, High: 4,
	Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak}

// What no analysis has: how far the wettest layer of the kiln lies above the mean,
// by which a piece is lost on an uneven bed, and the dry matter that was respired.
const (
	wettestGap malt.Parameter = "wettest_layer_gap"
	breathed   malt.Parameter = "respired"
)

// off is an addition within plus and minus a band, nine times out of ten.
func off(p malt.Parameter, unit string, band float64) odds.Parameter {
	return odds.Parameter{Key: modelPrefix + string(p), Unit: unit, Low: -band, High: band,
		Distribution: odds.Normal, Source: practice, Mark: odds.Weak}
}

// times is a factor between 1/band and band, nine times out of ten.
func times(p malt.Parameter, band float64) odds.Parameter {
	return odds.Parameter{Key: modelPrefix + string(p), Unit: "1, a factor", Default: 1, Low: 1 / band, High: band,
		Distribution: odds.LogNormal, Source: practice, Mark: odds.Weak}
}

func discrepancyInputs(p *Piece) []unsure {
	out := make([]unsure, len(Discrepancies))
	for i, line := range Discrepancies {
		figure := malt.Parameter(strings.TrimPrefix(line.Key, modelPrefix))
		if figure == wettestGap && p.liesLevel() {
			line = ofLevelBed
		}
		out[i] = unsure{
			Input: Input{Key: line.Key, Group: OfModel}, at: line.At,
			put: func(t *trial, x float64) { t.off[figure] = x },
		}
	}
	return out
}

// shift moves what the kiln left and what came of the piece by what the model may
// be off by: all layers with the moisture of the malt, the wettest by its gap
// besides, and what more was respired is missing from the malt.
func (o *Outcome) shift(off map[malt.Parameter]float64) {
	k := &o.Kilned
	gap := k.MoistureWettest - k.MoistureMean
	k.MoistureMean = max(0, k.MoistureMean+off[malt.Moisture])
	k.MoistureDriest = max(0, k.MoistureDriest+off[malt.Moisture])
	k.MoistureWettest = k.MoistureMean + gap*off[wettestGap]

	y := &o.Yield
	if !(y.PerDry > 0) {
		return
	}
	more := max(-y.Respired, off[breathed])
	kept := (y.PerDry - more) / y.PerDry
	y.Respired += more
	y.Malting += more
	y.All += more
	y.Malt.DryKg *= kept
	for _, x := range []*float64{&y.PerReceived, &y.PerCleaned, &y.PerSteeped, &y.PerReceivedDry, &y.PerCleanedDry, &y.PerDry, &o.ExtractSteeped, &o.ExtractReceived} {
		*x *= kept
	}
	y.BarleyPerMalt /= kept
	o.Cost.PerTonneMalt /= kept
}

// shifted is an analysis with what the model may be off by.
func shifted(a malt.Analysis, off map[malt.Parameter]float64) malt.Analysis {
	out := maps.Clone(a)
	set := func(p malt.Parameter, f func(x float64) float64) {
		if r, ok := out[p]; ok {
			r.Value.Mid = f(r.Value.Mid)
			out[p] = r
		}
	}
	fraction := func(x float64) float64 { return min(max(x, 0), 1) }
	add := func(p malt.Parameter) { set(p, func(x float64) float64 { return max(0, x+off[p]) }) }
	scale := func(p malt.Parameter, factor float64) { set(p, func(x float64) float64 { return factor * x }) }

	gap := a[malt.ExtractFine].Value.Mid - a[malt.ExtractCoarse].Value.Mid
	add(malt.ExtractFine)
	set(malt.ExtractCoarse, func(float64) float64 { return out[malt.ExtractFine].Value.Mid - gap*off[malt.ExtractGap] })
	if kolbach := a[malt.SolubleProtein].Value.Mid / a[malt.Protein].Value.Mid; kolbach > 0 {
		factor := fraction(kolbach+off[malt.KolbachIndex]) / kolbach
		scale(malt.SolubleProtein, factor)
		scale(malt.FAN, factor)
	}
	add(malt.Moisture)
	add(malt.Viscosity)
	set(malt.Friability, func(x float64) float64 { return fraction(x + off[malt.Friability]) })
	for _, p := range []malt.Parameter{malt.Colour, malt.FAN, malt.DiastaticPower, malt.AlphaAmylase, malt.WortBetaGlucan, malt.DMSPrecursor} {
		scale(p, off[p])
	}
	for _, p := range []malt.Parameter{malt.PartlyUnmodified, malt.WhollyUnmodified} {
		set(p, func(x float64) float64 { return fraction(x * off[p]) })
	}
	return out
}
