package course

import (
	"math"
	"slices"
	"strings"

	"awn/finding"
	"awn/programme"
)

// sulphiteMgKg is what a label must name of sulphites.
//
// Recalled: EU 2011, annex II, as sulphur dioxide.
const sulphiteMgKg = 10.0

// sulphites are how sulphur dioxide and what gives it are written.
var sulphites = []string{"sulph", "sulf", "so2", "so₂"}

func isSulphite(a programme.Addition) bool {
	name := strings.ToLower(a.Substance)
	return slices.ContainsFunc(sulphites, func(s string) bool { return strings.Contains(name, s) })
}

// residues tells what is left of additions in the malt, and what its certificate
// must say of them.
func residues(dst []finding.Finding, all []programme.Addition) []finding.Finding {
	tell := func(code, act, source string, severity finding.Severity, chance, cost float64, figures ...finding.Figure) {
		f := finding.New(code, severity, "programme", figures...)
		f.Act, f.Chance, f.Cost, f.Source = act, chance, cost, source
		dst = append(dst, f)
	}
	const practice = "common practice, no source"
	for _, a := range all {
		switch {
		case !(a.LimitMgKg > 0):
		case math.IsNaN(a.ResidueMgKg):
			tell("programme.addition.residue-unknown", "act.addition.measure-residue", practice, finding.Caution, 0.5, downgradeShare,
				finding.Figure{Name: "limit_mg_kg", Value: a.LimitMgKg})
		case a.ResidueMgKg > a.LimitMgKg:
			tell("programme.addition.residue-high", "act.addition.below-limit", practice, finding.Alarm, 0.9, downgradeShare,
				finding.Figure{Name: "residue_mg_kg", Value: a.ResidueMgKg}, finding.Figure{Name: "limit_mg_kg", Value: a.LimitMgKg})
		}
		if isSulphite(a) && !(a.ResidueMgKg < sulphiteMgKg) {
			tell("programme.addition.sulphite", "act.addition.declare-sulphite", "EU 2011", finding.Caution, 0.8, downgradeShare,
				finding.Figure{Name: "label_mg_kg", Value: sulphiteMgKg})
		}
	}
	if len(all) > 0 {
		tell("programme.addition.certificate", "act.addition.name-on-certificate", practice, finding.Note, 0.5, 0.01,
			finding.Figure{Name: "additions_n", Value: float64(len(all))})
	}
	return dst
}
