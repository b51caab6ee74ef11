package report

import (
	"awn/malt"
)

// found is a finding in words.
type found struct {
	Severity, Reason, Change, Source string
	Mark                             string // which stroke stands in the margin
}

// findings are all that there are, weightiest first.
func (r Report) findings() []found { return inWords(r.Outcome.Findings, r.Units) }

// nearest keeps at most n limits in their order: those that fail or cannot be
// judged first, then the others as the specification lists them.
func nearest(verdicts []malt.Verdict, rows []limitRow, n int) []limitRow {
	if len(rows) <= n {
		return rows
	}
	keep := make([]bool, len(rows))
	for _, failing := range [2]bool{true, false} {
		for i, v := range verdicts {
			if n > 0 && !keep[i] && (v.Word != malt.Passes) == failing {
				keep[i] = true
				n--
			}
		}
	}
	var out []limitRow
	for i, k := range keep {
		if k {
			out = append(out, rows[i])
		}
	}
	return out
}
