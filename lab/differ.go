package lab

import (
	"math"

	"awn/finding"
	"awn/odds"
)

const (
	stage    = "lab"
	practice = "common practice, no source"
)

// DifferenceChance is the chance that two honest results differ by as much or
// more, from the limit that they exceed once in twenty times.
//
//	P = 2 (1 - F(1.960 |a - b|/R95))
//
// Recalled: ISO 5725-6.
// Valid: a limit above 0; NaN outside.
// Check: a difference of the limit itself is met once in twenty times; one of 1.3143 times it, once in a hundred.
func DifferenceChance(difference, limit95 float64) float64 {
	if !(limit95 > 0) {
		return math.NaN()
	}
	return 2 * (1 - odds.NormalChance(odds.NormalQuantile(0.975)*math.Abs(difference)/limit95))
}

// Between is the figure that two laboratories of equal standing come to
// together, with the band in which the mean of many would lie.
func Between(a, b, limit95 float64) odds.Value {
	return odds.WithDeviation((a+b)/2, Deviation(limit95)/math.Sqrt2, odds.Measured)
}

// Compare says what a difference between two laboratories comes to.
func Compare(a, b, limit95 float64) []finding.Finding {
	chance := DifferenceChance(a-b, limit95)
	of := func(code string, severity finding.Severity, act string) []finding.Finding {
		f := finding.New(code, severity, stage, finding.Figure{Name: "chance_tenths", Value: chance})
		f.Act, f.Chance, f.Cost, f.Source = act, 1-chance, 0.2, "ISO 5725-6"
		return []finding.Finding{f}
	}
	switch {
	case math.IsNaN(chance):
		return nil
	case math.Abs(a-b) > limit95:
		return of("lab.results.differ", finding.Alarm, "act.lab.third-laboratory")
	}
	return of("lab.results.agree", finding.Note, "act.lab.take-mean")
}

// CompareReplicates says what the range of replicates of a germination test
// comes to against the widest that sampling explains.
func CompareReplicates(spread, tolerated float64) []finding.Finding {
	if math.IsNaN(spread) || math.IsNaN(tolerated) {
		return nil
	}
	figures := []finding.Figure{{Name: "range_tenths", Value: spread}, {Name: "tolerated_tenths", Value: tolerated}}
	f := finding.New("lab.replicates.agree", finding.Note, stage, figures...)
	if spread > tolerated {
		f = finding.New("lab.replicates.differ", finding.Alarm, stage, figures...)
		f.Act = "act.lab.test-again"
	}
	f.Chance, f.Cost, f.Source = 1-rangeChance, 0.1, practice
	return []finding.Finding{f}
}
