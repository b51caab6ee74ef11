package odds

import (
	"math"

	"awn/finding"
)

// Sure is the chance from which a limit counts as met, and below one less it
// as missed, where nobody says otherwise.
//
// Assumed: common practice, no source.
const Sure = 1 - OneSide

// OneSide is the chance that is left on one side of the bands of this package.
const OneSide = (1 - bandConfidence) / 2

// AgainstLimit says what a chance that a lot meets its limit comes to.
func AgainstLimit(chance float64) []finding.Finding {
	of := func(code string, severity finding.Severity, act string, matters float64) []finding.Finding {
		f := finding.New(code, severity, "odds", finding.Figure{Name: "chance_tenths", Value: chance})
		f.Act, f.Chance, f.Cost, f.Source = act, matters, 0.3, "common practice, no source"
		return []finding.Finding{f}
	}
	switch {
	case math.IsNaN(chance):
		return nil
	case chance >= Sure:
		return of("odds.limit.met", finding.Note, "", 1-chance)
	case chance <= 1-Sure:
		return of("odds.limit.missed", finding.Alarm, "", 1-chance)
	}
	return of("odds.limit.near", finding.Caution, "act.odds.look-at-more", min(chance, 1-chance))
}
