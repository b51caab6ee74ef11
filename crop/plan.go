package crop

import (
	"math"
	"slices"
)

// PlanStratum is a stratum in the plan of a survey.
type PlanStratum struct {
	Stratum
	Weight float64 // its part of the tonnes
	S2     float64 // variance between farms
	Frame  float64 // farms that grow it; NaN or +Inf where many
	Now    int     // farms in this survey
	Mean   float64 // of the quality; NaN without a figure
	Pooled bool    // S2 is that of all strata together, for want of farms
}

// Plan is how many farms each stratum shall give.
type Plan struct {
	Strata []PlanStratum
	Farms  []int
	Total  int
	SE     float64 // what it promises
	Real   float64 // farms wanted before they are made whole
}

// PlanStrata are the strata of the survey as a plan of one quality needs them.
// The variance between farms is that of the stratum, or the pooled one where
// fewer than two farms have a figure.
func (s *Survey) PlanStrata(d *Design, y []float64) (strata []PlanStratum, pooled float64) {
	total := 0.0
	for _, f := range s.Frames {
		total += f.Tonnes
	}
	sum, freedom := 0.0, 0.0
	for _, f := range s.Frames {
		if !(f.Tonnes > 0) {
			continue
		}
		in := s.domain(func(x Sample) bool { return x.stratum() == f.Stratum })
		e := d.Mean(y, in)
		_, farms, _ := d.freedom(in)
		p := PlanStratum{Stratum: f.Stratum, Weight: f.Tonnes / total, Frame: f.Farms, Now: farms, Mean: e.Value, S2: math.NaN()}
		if e.Farms > 1 {
			p.S2 = float64(farms) * e.SE * e.SE
			sum, freedom = sum+float64(farms-1)*p.S2, freedom+float64(farms-1)
		}
		strata = append(strata, p)
	}
	pooled = sum / freedom // NaN where no stratum has two farms
	for i := range strata {
		if math.IsNaN(strata[i].S2) {
			strata[i].S2, strata[i].Pooled = pooled, true
		}
	}
	return strata, pooled
}

// Wanted is how many farms bring the standard error of the mean down to se, with
// farms where they tell most; whether the frame is used up as farms are taken is
// the caller's to say.
//
//	n = (Σ W S)²/(V + Σ W² S²/N)
//
// Recalled: Cochran 1977, eq. 5.25.
// Valid: se above 0; NaN where no variance is known.
// Check: invented samples, by a calculation in R.
func Wanted(strata []PlanStratum, se float64, rest bool) float64 {
	sum, left := 0.0, 0.0
	for _, p := range strata {
		sum += p.Weight * math.Sqrt(p.S2)
		if rest && p.Frame > 0 {
			left += p.Weight * p.Weight * p.S2 / p.Frame
		}
	}
	if !(se > 0) {
		return math.NaN()
	}
	return sum * sum / (se*se + left)
}

// PlanVariance is the variance of the mean that a number of farms in each stratum
// promises.
//
//	V = Σ W² S²/n (1 - n/N)
//
// Recalled: Cochran 1977, ch. 5.
// Valid: farms in every stratum; +Inf otherwise.
// Check: Cochran 1977, table 5.1, recalled.
func PlanVariance(strata []PlanStratum, farms []int, rest bool) float64 {
	v := 0.0
	for i, p := range strata {
		n := float64(farms[i])
		part := p.Weight * p.Weight * p.S2 / n
		if rest && p.Frame > 0 {
			part *= 1 - n/p.Frame
		}
		v += part
	}
	return v
}

// fewestPlanned farms are asked of every stratum, so that its spread can be told.
const fewestPlanned = 2

// mostPlanned farms end the search: no survey is larger.
const mostPlanned = 20000

// Allocate gives whole farms to strata, each next one where it takes most off the
// variance, until the standard error is met or every farm is in.
//
// Recalled: Wright 2012.
func Allocate(strata []PlanStratum, se float64, rest bool) Plan {
	p := Plan{Strata: slices.Clone(strata), Farms: make([]int, len(strata)), Real: Wanted(strata, se, rest)}
	for i, s := range strata {
		p.Farms[i] = fewestPlanned
		if rest && s.Frame > 0 {
			p.Farms[i] = int(min(fewestPlanned, s.Frame))
		}
		p.Total += p.Farms[i]
	}
	v := PlanVariance(strata, p.Farms, rest)
	for v > se*se && p.Total < mostPlanned {
		best, most := -1, 0.0
		for i, s := range strata {
			n := float64(p.Farms[i])
			if rest && s.Frame > 0 && n >= s.Frame {
				continue
			}
			if gain := s.Weight * s.Weight * s.S2 / (n * (n + 1)); gain > most {
				best, most = i, gain
			}
		}
		if best < 0 {
			break
		}
		p.Farms[best]++
		p.Total++
		v -= most
	}
	p.SE = math.Sqrt(PlanVariance(strata, p.Farms, rest))
	return p
}
