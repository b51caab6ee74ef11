package variety

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Stability is how an entry answers to environments.
type Stability struct {
	Entry string
	Mean  float64

	// Finlay and Wilkinson: slope on the mean of the environment. 1 goes with the
	// rest, less holds still, more makes use of good places. NaN if no place differs.
	Slope, SlopeSE float64
	SlopeP         float64 // of the slope being 1
	Deviations     float64 // mean square about the line

	Spread      float64 // variance over environments
	Variation   float64 // its root over the mean
	Ecovalence  float64 // Wricke: sum of squares of its interaction
	Shukla      float64 // variance of its interaction; may come out below 0
	Superiority float64 // Lin and Binns: mean squared distance from the best in each place, halved; small is good
}

// Stabilities works out the stability of every entry of a complete table of at
// least three entries and three environments, and of any other nothing. An
// environment is measured by the mean of the entries in it, the entry itself
// included. Where Lower is wanted the best in a place is the least.
func (t Table) Stabilities(wanted Direction) []Stability {
	if !t.sized(3, 3) {
		return nil
	}
	entry, environment, all := t.means()
	rest := t.interaction()
	e := float64(len(t.Environments))
	wricke, total, index := make([]float64, len(entry)), 0.0, 0.0
	for i, row := range rest {
		for _, x := range row {
			wricke[i] += x * x
		}
		total += wricke[i]
	}
	for _, m := range environment {
		index += (m - all) * (m - all)
	}
	best := t.best(wanted)
	out := make([]Stability, len(entry))
	for i, row := range t.Cell {
		s := Stability{Entry: t.Entries[i], Mean: entry[i], Ecovalence: wricke[i], Spread: stat.Variance(row, nil)}
		s.Variation = math.Sqrt(s.Spread) / math.Abs(entry[i])
		s.Shukla = Shukla(wricke[i], total, len(entry), len(environment))
		for j, x := range row {
			s.Superiority += (x - best[j]) * (x - best[j]) / (2 * e)
		}
		s.line(row, environment, entry[i], all, index)
		out[i] = s
	}
	return out
}

// best is the best figure in each environment.
func (t Table) best(wanted Direction) []float64 {
	out := make([]float64, len(t.Environments))
	for j := range out {
		out[j] = t.Cell[0][j]
		for _, row := range t.Cell {
			if wanted == Lower {
				out[j] = min(out[j], row[j])
			} else {
				out[j] = max(out[j], row[j])
			}
		}
	}
	return out
}

// line fits the slope of one entry on the environments.
func (s *Stability) line(row, environment []float64, mean, all, index float64) {
	free := float64(len(row)) - 2
	for j, x := range row {
		s.Slope += x * (environment[j] - all) / index
	}
	for j, x := range row {
		d := x - mean - s.Slope*(environment[j]-all)
		s.Deviations += d * d / free
	}
	s.SlopeSE = math.Sqrt(s.Deviations / index)
	s.SlopeP = 1
	if s.SlopeSE > 0 {
		s.SlopeP = 2 * distuv.StudentsT{Sigma: 1, Nu: free}.Survival(math.Abs(s.Slope-1)/s.SlopeSE)
	}
}

// Shukla is the stability variance of one of g entries in e environments, from
// its own sum of squares of interaction and that of all.
//
//	s² = (g (g-1) W - sum W) / ((e-1)(g-1)(g-2))
//
// Recalled: Shukla 1972.
// Valid: three entries and two environments or more; NaN below. It may be negative.
// Check: Shukla 1972, table 4.
func Shukla(own, all float64, g, e int) float64 {
	if g < 3 || e < 2 {
		return math.NaN()
	}
	n := float64(g)
	return (n*(n-1)*own - all) / (float64(e-1) * (n - 1) * (n - 2))
}
