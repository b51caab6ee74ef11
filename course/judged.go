package course

import (
	"awn/finding"
	"awn/malt"
)

// remedies name the change of course that brings a figure back within a limit
// it missed, on either side. A figure without a remedy is a matter of the lot.
var remedies = map[malt.Parameter]struct{ below, above string }{
	malt.Moisture:         {"act.kiln.cure-shorter", "act.kiln.cure-longer"},
	malt.Colour:           {"act.kiln.cure-hotter", "act.kiln.cure-cooler"},
	malt.KolbachIndex:     {"act.germinate.longer", "act.germinate.shorter-or-colder"},
	malt.SolubleProtein:   {"act.germinate.longer", "act.germinate.shorter-or-colder"},
	malt.FAN:              {"act.germinate.longer", "act.germinate.shorter-or-colder"},
	malt.DiastaticPower:   {"act.kiln.cure-cooler", ""},
	malt.AlphaAmylase:     {"act.germinate.longer", ""},
	malt.WortBetaGlucan:   {"", "act.germinate.longer"},
	malt.Viscosity:        {"", "act.germinate.longer"},
	malt.Friability:       {"act.germinate.longer", ""},
	malt.ExtractGap:       {"", "act.germinate.longer"},
	malt.PartlyUnmodified: {"", "act.germinate.longer"},
	malt.WhollyUnmodified: {"", "act.lot.choose-another"},
	malt.ExtractFine:      {"act.lot.choose-another", ""},
	malt.ExtractCoarse:    {"act.germinate.longer", ""},
	malt.Protein:          {"act.lot.choose-another", "act.lot.choose-another"},
	malt.DMSPrecursor:     {"", "act.kiln.cure-hotter"},
}

// What a missed limit is taken to cost, as a share of the piece's value, and
// how likely it is to be missed indeed where the model gives no band.
//
// Assumed: common practice, no source: a downgrade costs about a twentieth.
const (
	downgradeShare = 0.05
	missedChance   = 0.6
)

// judged appends a finding for each limit that the malt fails.
func judged(dst []finding.Finding, verdicts []malt.Verdict) []finding.Finding {
	for _, v := range verdicts {
		if v.Word != malt.Fails {
			continue
		}
		side, limit, act := "below", v.Limit.Min, remedies[v.Limit.Parameter].below
		if v.Found.Value.Mid > v.Limit.Max {
			side, limit, act = "above", v.Limit.Max, remedies[v.Limit.Parameter].above
		}
		key := v.Limit.Parameter.Key(v.Limit.Basis)
		f := finding.New("malt."+string(v.Limit.Parameter)+"."+side, finding.Caution, "malt",
			finding.Figure{Name: key, Value: v.Found.Value.Mid},
			finding.Figure{Name: "limit_" + key, Value: limit})
		f.Act, f.Chance, f.Cost = act, missedChance, downgradeShare
		dst = append(dst, f)
	}
	return dst
}
