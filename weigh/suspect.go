package weigh

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// FalseAlarm is the share of loads with honest readings of which it may be
// said that something is wrong. Half of it goes to the sum of squares, half to
// the reading that is furthest away.
const FalseAlarm = 0.05

// tied is how alike two readings must be to be held for one suspect.
const tied = 1 - 1e-6

// Suspect is a reading that may be wrong, with all that cannot be told from it.
type Suspect struct {
	Readings []int   // indices, the first the likeliest
	Odds     float64 // chance that it is the wrong one
	Rest     float64 // chance that honest readings differ as the others then do; NaN where nothing checks them
}

// Verdict is what is to be held of the readings together.
type Verdict struct {
	Wrong    bool      // they differ by more than honest readings do
	Honest   float64   // chance that none is wrong, by the odds before and the readings
	Suspects []Suspect // one wrong at a time, the likeliest first
}

// Verdict names what may be wrong. Before anything was read a fault has the
// chance and the size that the constants say, wherever it sits.
func (s *Settled) Verdict(c Constants) Verdict {
	groups := s.groups()
	if len(groups) == 0 {
		return Verdict{Honest: 1 - c.FaultChance}
	}
	v := Verdict{Honest: 1 - c.FaultChance}
	checked, furthest := 0, 0.0
	for _, g := range groups {
		checked += len(g)
		furthest = max(furthest, math.Abs(s.Readings[g[0]].Away))
	}
	each := c.FaultChance / float64(checked)
	sum := v.Honest
	for _, g := range groups {
		weight := 0.0
		for _, i := range g {
			weight += each * Evidence(s.Readings[i].Away, c.FaultSize*c.FaultSize*s.Readings[i].Share)
		}
		sum += weight
		v.Suspects = append(v.Suspects, Suspect{g, weight, s.without(g[0])})
	}
	v.Honest /= sum
	for i := range v.Suspects {
		v.Suspects[i].Odds /= sum
	}
	slices.SortStableFunc(v.Suspects, func(a, b Suspect) int { return cmp.Compare(b.Odds, a.Odds) })
	both := 2 * distuv.UnitNormal.Survival(furthest) * float64(len(groups))
	v.Wrong = s.Chance < FalseAlarm/2 || both < FalseAlarm/2
	return v
}

// groups are the readings that are checked, those that cannot be told apart
// together.
func (s *Settled) groups() (out [][]int) {
	for i, r := range s.Readings {
		if !r.Checked {
			continue
		}
		k := slices.IndexFunc(out, func(g []int) bool { return math.Abs(s.alike.At(i, g[0])) > tied })
		if k < 0 {
			out = append(out, []int{i})
		} else {
			out[k] = append(out[k], i)
		}
	}
	for _, g := range out { // the one whose fault would have to be smallest, in its own deviations, comes first
		slices.SortStableFunc(g, func(a, b int) int { return cmp.Compare(s.Readings[b].Share, s.Readings[a].Share) })
	}
	return out
}

// without is the chance that honest readings differ as those do that are left
// when one is set aside.
func (s *Settled) without(i int) float64 {
	away := s.Readings[i].Away
	return ChanceOf(max(0, s.ChiSquare-away*away), s.Freedom-1)
}

// Evidence is how many times likelier a reading is that stands so many
// standard deviations away if it is wrong by an unknown amount than if it is
// honest. Spread is the variance of that amount in the same deviations.
//
//	B = exp(z²/2 · τ²/(1 + τ²))/sqrt(1 + τ²)
//
// Definition.
// Valid: a spread of 0 and more; NaN outside.
// Check: the ratio of two normal densities, of variance 1 + τ² and 1.
func Evidence(away, spread float64) float64 {
	if !(spread >= 0) {
		return math.NaN()
	}
	// A reading beyond 30 deviations is as wrong as one at 30.
	z := min(math.Abs(away), mostAway)
	return math.Exp(z*z/2*spread/(1+spread)) / math.Sqrt(1+spread)
}

const mostAway = 30
