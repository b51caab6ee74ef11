package variety

import (
	"math"

	"awn/finding"
)

// StressSusceptibility is how much more of its yield an entry loses under stress
// than the trial: below 1 it holds better. It favours entries that yield little
// anyway, so show the yield under stress beside it.
//
//	SSI = (1 - ys/yp) / (1 - Ys/Yp)        (y of the entry, Y the mean; s under stress, p without)
//
// Source: Fischer and Maurer 1978.
// Valid: all yields without stress above 0 and a stress that lowered the mean; NaN else.
// Check: testdata/stress.csv.
func StressSusceptibility(stressed, free, meanStressed, meanFree float64) float64 {
	if !(free > 0 && meanFree > 0 && stressed >= 0 && meanStressed >= 0 && meanStressed < meanFree) {
		return math.NaN()
	}
	return (1 - stressed/free) / (1 - meanStressed/meanFree)
}

// StressTolerance is large for an entry that yields much in both.
//
//	STI = ys yp / Yp²        (Y the mean; s under stress, p without)
//
// Source: Scientific Reports 2025, table 1.
// Valid: yields from 0, mean above 0; NaN else.
// Check: testdata/stress.csv.
func StressTolerance(stressed, free, meanFree float64) float64 {
	if !(stressed >= 0 && free >= 0 && meanFree > 0) {
		return math.NaN()
	}
	return stressed * free / (meanFree * meanFree)
}

// GeometricYield is the geometric mean of the yields with and without stress.
//
//	GMP = sqrt(ys yp)
//
// Source: Scientific Reports 2025, table 1.
// Valid: yields from 0; NaN else.
// Check: testdata/stress.csv.
func GeometricYield(stressed, free float64) float64 {
	if !(stressed >= 0 && free >= 0) {
		return math.NaN()
	}
	return math.Sqrt(stressed * free)
}

// Drought is an entry with and without stress.
type Drought struct {
	Entry          string
	Stressed, Free float64 // mean yields
	Susceptibility float64 // below 1 it loses less than the trial; NaN if the stress did not lower the mean
	Tolerance      float64
	Geometric      float64
}

// slightStress is the loss of the mean below which susceptibilities hang on
// little. Common practice, no source.
const slightStress = 0.15

// drought sets what entries yield in the environments under stress against those
// without. An entry counts that has a figure in all of them.
func (t Trials) drought(stressed, free []string) ([]Drought, []Remark) {
	yield := ""
	for _, x := range t.Traits {
		if kind(x.Name) == "yield" && yield == "" {
			yield = x.Name
		}
	}
	table := t.Table(yield)
	var out []Drought
	var meanStressed, meanFree float64
	for _, entry := range table.Entries {
		d := Drought{Entry: entry, Stressed: table.mean(entry, stressed), Free: table.mean(entry, free)}
		if math.IsNaN(d.Stressed) || math.IsNaN(d.Free) {
			continue
		}
		meanStressed, meanFree = meanStressed+d.Stressed, meanFree+d.Free
		out = append(out, d)
	}
	n := float64(len(out))
	if n < 2 {
		return nil, []Remark{remark("trial.drought.nothing", finding.Caution, yield)}
	}
	for i := range out {
		d := &out[i]
		d.Susceptibility = StressSusceptibility(d.Stressed, d.Free, meanStressed/n, meanFree/n)
		d.Tolerance = StressTolerance(d.Stressed, d.Free, meanFree/n)
		d.Geometric = GeometricYield(d.Stressed, d.Free)
	}
	if !(meanStressed < meanFree) {
		return out, []Remark{remark("trial.drought.none", finding.Caution, yield, figure("stressed", meanStressed/n), figure("free", meanFree/n))}
	}
	if lost := 1 - meanStressed/meanFree; lost < slightStress {
		return out, []Remark{remark("trial.drought.slight", finding.Note, yield, figure("share", lost))}
	}
	return out, nil
}

// mean of an entry over environments; NaN if it is missing in one, or there is none.
func (t Table) mean(entry string, environments []string) float64 {
	one := t.onto([]string{entry}, environments)
	sum := 0.0
	for _, x := range one.Cell[0] {
		sum += x
	}
	return sum / float64(len(environments))
}
