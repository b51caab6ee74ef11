package silo

import (
	"cmp"
	"math"
	"slices"
)

// Reading is one sensor at one time. Figures that were not read are NaN.
type Reading struct {
	Day      float64 // since filling
	Height   float64 // 0 at the floor, 1 at the top
	TempC    float64
	Moisture float64 // wet basis
}

// gapDays is after how long without a reading the time between counts as not
// watched: bins are to be read every two weeks.
//
// Source: CGC storage undated.
const gapDays = 14

// Gap is a time without readings.
type Gap struct{ FromDay, ToDay float64 }

// reading is what the sensors of one day say.
type reading struct {
	day                    float64
	warmestC, meanC        float64
	moistest, topLessRest  float64 // wet basis; of moisture, the top sensor less the mean of the others
	sensors, moistureCount int
}

// byDay gathers readings, oldest first. A day without a temperature is left
// out.
func byDay(readings []Reading) []reading {
	sorted := slices.DeleteFunc(slices.Clone(readings), func(r Reading) bool { return !(r.Day >= 0) })
	slices.SortStableFunc(sorted, func(a, b Reading) int { return cmp.Compare(a.Day, b.Day) })
	var out []reading
	for len(sorted) > 0 {
		n := 1
		for n < len(sorted) && sorted[n].Day == sorted[0].Day {
			n++
		}
		if d := gather(sorted[:n]); d.sensors > 0 {
			out = append(out, d)
		}
		sorted = sorted[n:]
	}
	return out
}

// gather is one day of sensors.
func gather(rs []Reading) reading {
	d := reading{day: rs[0].Day, warmestC: math.NaN(), meanC: math.NaN(), moistest: math.NaN(), topLessRest: math.NaN()}
	sum, top, topAt, rest := 0.0, math.NaN(), math.Inf(-1), 0.0
	for _, r := range rs {
		if !math.IsNaN(r.TempC) {
			sum += r.TempC
			d.sensors++
			if !(d.warmestC >= r.TempC) {
				d.warmestC = r.TempC
			}
		}
		if !math.IsNaN(r.Moisture) {
			d.moistureCount++
			rest += r.Moisture
			if !(d.moistest >= r.Moisture) {
				d.moistest = r.Moisture
			}
			if r.Height > topAt {
				topAt, top = r.Height, r.Moisture
			}
		}
	}
	d.meanC = sum / float64(d.sensors)
	if d.moistureCount > 1 {
		d.topLessRest = top - (rest-top)/float64(d.moistureCount-1)
	}
	return d
}

// History turns readings into spells up to today, by the warmest sensor and
// the moistest. Between two readings the mean of both is taken; over a gap the
// warmer, so that what nobody watched is not counted too cheaply. Before the
// first reading and after the last theirs holds. It also returns the gaps.
// Moisture that was never read is that of the intake.
func History(readings []Reading, intakeWB, today float64) (spells []Spell, gaps []Gap) {
	days := byDay(readings)
	days = slices.DeleteFunc(days, func(d reading) bool { return d.day > today })
	if len(days) == 0 {
		return nil, nil
	}
	wet := intakeWB
	add := func(from, to, tempC float64) {
		if to > from {
			spells = append(spells, Spell{to - from, wet, tempC})
		}
		if to-from > gapDays {
			gaps = append(gaps, Gap{from, to})
		}
	}
	moist := func(d reading) float64 {
		if math.IsNaN(d.moistest) {
			return wet
		}
		return d.moistest
	}
	wet = moist(days[0])
	add(0, days[0].day, days[0].warmestC)
	for i := 1; i < len(days); i++ {
		a, b := days[i-1], days[i]
		t := (a.warmestC + b.warmestC) / 2
		if b.day-a.day > gapDays {
			t = max(a.warmestC, b.warmestC)
		}
		wet = max(moist(a), moist(b))
		add(a.day, b.day, t)
		wet = moist(b)
	}
	last := days[len(days)-1]
	add(last.day, today, last.warmestC)
	return spells, gaps
}

// atEdge moves a spell to the edge of the laws where grain is drier or colder
// than they were found for, which makes it age faster than it does, and
// reports whether it lies beyond their other edge, where nothing can be said.
func atEdge(s Spell) (edge Spell, beyond bool) {
	beyond = !(s.Moisture <= clockMostWB && s.TempC <= clockMostC)
	s.Moisture, s.TempC = max(s.Moisture, clockLeastWB), max(s.TempC, ageingLeastC)
	return s, beyond
}

// atEdges is atEdge of each; beyond counts the days for which nothing can be
// said.
func atEdges(spells []Spell) (inside []Spell, beyondDays float64) {
	for _, s := range spells {
		edge, beyond := atEdge(s)
		if beyond {
			beyondDays += s.Days
			continue
		}
		inside = append(inside, edge)
	}
	return inside, beyondDays
}
