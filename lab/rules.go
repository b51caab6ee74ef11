package lab

import (
	"math"

	"awn/odds"
)

// Rule is a pattern of readings that chance alone seldom makes.
type Rule string

// The rules, by what they are.
const (
	BeyondAction Rule = "beyond-action" // one reading beyond three standard deviations
	TwoOfThree   Rule = "two-of-three"  // two of three on one side beyond two
	FourOfFive   Rule = "four-of-five"  // four of five on one side beyond one
	EightInRow   Rule = "eight-in-row"  // eight on one side of the centre
)

// Rules are all of them.
func Rules() []Rule { return []Rule{BeyondAction, TwoOfThree, FourOfFive, EightInRow} }

// memory is what a chart remembers of the readings so far: for the last readings
// whether each lay beyond two or one standard deviations, above and below, newest
// in the lowest bit, and how many stood in a row on one side (below is negative).
type memory struct {
	two, one [2]uint8
	row      int
}

const inRow = 8

// next is the memory after a reading, in standard deviations from the centre.
func (m memory) next(z float64) memory {
	for side, up := range [2]float64{z, -z} {
		m.two[side] = m.two[side] << 1 & 0b111
		m.one[side] = m.one[side] << 1 & 0b11111
		if up > 2 {
			m.two[side] |= 1
		}
		if up > 1 {
			m.one[side] |= 1
		}
	}
	switch {
	case z > 0:
		m.row = min(max(m.row, 0)+1, inRow)
	case z < 0:
		m.row = max(min(m.row, 0)-1, -inRow)
	default:
		m.row = 0
	}
	return m
}

// broken reports whether the reading that the memory ends with completes the
// pattern of a rule.
func (m memory) broken(r Rule, z float64) bool {
	for side, up := range [2]float64{z, -z} {
		switch {
		case r == BeyondAction && up > Action,
			r == TwoOfThree && up > 2 && ones(m.two[side]) >= 2,
			r == FourOfFive && up > 1 && ones(m.one[side]) >= 4,
			r == EightInRow && m.row*(1-2*side) >= inRow:
			return true
		}
	}
	return false
}

func ones(b uint8) (n int) {
	for ; b != 0; b &= b - 1 {
		n++
	}
	return n
}

// Broken lists the rules that each reading completes, in standard deviations
// from the centre. A missing reading (NaN) completes none and is passed over.
func Broken(z []float64) [][]Rule {
	out := make([][]Rule, len(z))
	m := memory{}
	for i, x := range z {
		if math.IsNaN(x) {
			continue
		}
		m = m.next(x)
		for _, r := range Rules() {
			if m.broken(r, x) {
				out[i] = append(out[i], r)
			}
		}
	}
	return out
}

// zones are readings that stand for each zone of a chart.
var zones = [...]float64{-3.5, -2.5, -1.5, -0.5, 0.5, 1.5, 2.5, 3.5}

// zoneChance is the chance of a zone when nothing is wrong.
func zoneChance(z float64) float64 {
	out := 1.0
	if math.Abs(z) < 3 {
		out = odds.NormalChance(math.Ceil(math.Abs(z)))
	}
	return out - odds.NormalChance(math.Floor(math.Abs(z)))
}

// The chance that a chart has kept silent falls by the same share each time, once
// settled: when two shares agree to this, not before the rules have had time to come
// into play, and after so many readings at the latest.
const (
	settled  = 1e-12
	earliest = 100
	latest   = 1000
)

// only forgets what none of the rules asks for.
func (m memory) only(rules []Rule) memory {
	var out memory
	for _, r := range rules {
		switch r {
		case TwoOfThree:
			out.two[0], out.two[1] = m.two[0]&0b11, m.two[1]&0b11
		case FourOfFive:
			out.one[0], out.one[1] = m.one[0]&0b1111, m.one[1]&0b1111
		case EightInRow:
			out.row = m.row
		}
	}
	return out
}

// FalseAlarms is how many readings pass on average until one of the rules is broken
// although nothing is wrong.
//
//	ARL = sum over t of P(no rule is broken by t readings)
//
// Definition. Readings are normal and independent, centre and deviation known.
// Valid: at least one rule; NaN for none.
// Check: Champ and Woodall 1987: 370.4, 225.4, 166.0, 152.7, 91.7.
// Note: limits from few readings of the house give false alarms more often.
func FalseAlarms(rules ...Rule) float64 {
	if len(rules) == 0 {
		return math.NaN()
	}
	place := map[memory]int{{}: 0}
	states := []memory{{}}
	var steps [][len(zones)]int // by state and zone the next state; -1 an alarm
	for at := 0; at < len(states); at++ {
		var row [len(zones)]int
		for k, z := range zones {
			next := states[at].next(z)
			row[k] = -1
			if alarmed(next, rules, z) {
				continue
			}
			next = next.only(rules)
			to, known := place[next]
			if !known {
				to = len(states)
				place[next], states = to, append(states, next)
			}
			row[k] = to
		}
		steps = append(steps, row)
	}
	var chance [len(zones)]float64
	for k, z := range zones {
		chance[k] = zoneChance(z)
	}
	return waited(steps, chance)
}

func alarmed(m memory, rules []Rule, z float64) bool {
	for _, r := range rules {
		if m.broken(r, z) {
			return true
		}
	}
	return false
}

// waited sums the chance of silence over time; once settled it falls by one share.
func waited(steps [][len(zones)]int, chance [len(zones)]float64) float64 {
	now, sum, before, silent, share := make([]float64, len(steps)), 0.0, 0.0, 1.0, 0.0
	now[0] = 1
	for i := range latest {
		if i > earliest && math.Abs(silent/before-share) < settled {
			break
		}
		if i > 0 {
			share = silent / before
		}
		sum, before = sum+silent, silent
		next := make([]float64, len(steps))
		silent = 0
		for s, p := range now {
			for k, to := range steps[s] {
				if to >= 0 {
					next[to] += p * chance[k]
					silent += p * chance[k]
				}
			}
		}
		now = next
	}
	return sum + silent/(1-silent/before)
}
