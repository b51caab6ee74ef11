package silo

import (
	"math"

	"awn/odds"
)

// ReleaseC is the temperature below which dormancy is not counted on to go.
// Sources disagree; a house may ease it in Aeration.
//
// Assumed: common practice; Woods 2000 would ease it.
const ReleaseC = 15

// Dormant is the share still dormant after so many days at 15 to 20 °C, from
// the share at the start: it goes evenly and is gone after so many weeks, two
// to eight unless the house knows better. A measured share overrides it.
//
//	d = d0 max(0, 1 - days/(7 weeks))
//
// Assumed: common practice, no source.
// Valid: shares of 0 to 1, days of 0 and more; unknown outside.
func Dormant(start, days float64, weeks odds.Value) odds.Value {
	if !(start >= 0 && start <= 1 && days >= 0) {
		return odds.Alone(math.NaN(), odds.Weak)
	}
	return weeks.Map(func(w float64) float64 { return start * max(0, 1-days/(7*w)) })
}

// dormancyWeeks is the place of its line in Parameters.
const dormancyWeeks = 5

// dormancy is how long dormancy lasts, in weeks: the range of the table, or
// the figure that the house gave in its place.
func (c *Constants) dormancy() odds.Value {
	if c.DormancyWeeks != Parameters[dormancyWeeks].Default {
		return odds.Exact(c.DormancyWeeks, odds.Measured)
	}
	return odds.Default(Parameters[dormancyWeeks])
}

// WarmDays is how many days of the spells were warm enough for dormancy to go.
//
//	Σ days at aboveC and more
//
// Definition.
func WarmDays(spells []Spell, aboveC float64) float64 {
	days := 0.0
	for _, s := range spells {
		if s.TempC >= aboveC {
			days += s.Days
		}
	}
	return days
}
