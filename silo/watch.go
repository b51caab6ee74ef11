package silo

import (
	"math"

	"awn/finding"
	"awn/lab"
	"awn/odds"
)

// Limits of what the readings of a store give warning of.
const (
	riseWindow  = 60   // days that a rise is looked for in
	riseLooks   = 4    // readings that it takes
	gapK        = 8    // warm core beside cold air: water begins to move
	mouldWB     = 0.18 // at or above for mouldDays: critical
	mouldDays   = 14
	insectC     = 15 // grain should be below this after insectDays
	insectDays  = 14
	mouldERH    = 0.70
	energyLimit = 0.95
)

// Watch reads the sensors for what is going wrong: heating, water on the move,
// mould, insects, and times when nobody looked. outsideC is the mean outside
// of late, NaN where it is not known.
func Watch(readings []Reading, intakeWB, today, outsideC float64) (out []finding.Finding) {
	days := byDay(readings)
	add := func(f finding.Finding, act, source string, chance, cost float64) {
		f.Act, f.Source, f.Chance, f.Cost = act, source, chance, cost
		out = append(out, f)
	}
	if len(days) == 0 {
		add(finding.New("silo.readings.none", finding.Caution, stage), "act.silo.read", "CGC storage undated", 0.5, 0.2)
		return out
	}
	spells, gaps := History(readings, intakeWB, today)
	for _, g := range gaps {
		add(finding.New("silo.readings.gap", finding.Note, stage, figure("gap_d", g.ToDay-g.FromDay), figure("from_d", g.FromDay)),
			"act.silo.read", "CGC storage undated", 0.3, 0.05)
	}
	if kPerWeek, surely := rise(days, today); surely > 0 {
		add(finding.New("silo.temperature.rising", finding.Alarm, stage, figure("week_k", kPerWeek), figure("at_least_k", surely),
			figure("warmest_c", days[len(days)-1].warmestC)), "act.silo.inspect", practice, 0.9, 0.6)
	}
	last := days[len(days)-1]
	if gap := last.warmestC - outsideC; gap >= gapK {
		add(finding.New("silo.temperature.gap", finding.Caution, stage, figure("gap_k", gap), figure("warmest_c", last.warmestC), figure("outside_c", outsideC)),
			"act.silo.cool", "CGC storage undated", 0.4, 0.2)
	}
	if p, ok := lab.FindPrecision("moisture", "barley", ""); ok {
		if limit := p.R95.AtFrom; last.topLessRest > limit {
			add(finding.New("silo.moisture.top", finding.Caution, stage, figure("points_wb", last.topLessRest), figure("limit_wb", limit)),
				"act.silo.inspect", p.Source, 0.7, 0.3)
		}
	}
	wet := 0.0
	for _, s := range spells {
		if s.Moisture >= mouldWB {
			wet += s.Days
		}
	}
	if wet > mouldDays {
		add(finding.New("silo.mould.critical", finding.Alarm, stage, figure("wet_d", wet), figure("limit_wb", mouldWB), figure("limit_d", mouldDays)),
			"act.silo.dry", "MAGB 2013", 0.8, 0.5)
	}
	if today > insectDays && last.warmestC >= insectC {
		add(finding.New("silo.cooling.behind", finding.Caution, stage, figure("warmest_c", last.warmestC), figure("limit_c", insectC)),
			"act.silo.cool", "AHDB undated", 0.4, 0.2)
	}
	return out
}

// rise is how fast the warmest sensor warms, K a week, and how fast it does so
// at least (one chance in twenty of less): above 0 only where the readings
// show a rise.
func rise(days []reading, today float64) (perWeek, atLeast float64) {
	n, sx, sy, sxx, sxy, syy := 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
	for _, d := range days {
		if d.day < today-riseWindow || d.day > today {
			continue
		}
		x := d.day - today
		n, sx, sy = n+1, sx+x, sy+d.warmestC
		sxx, sxy, syy = sxx+x*x, sxy+x*d.warmestC, syy+d.warmestC*d.warmestC
	}
	if n < riseLooks {
		return math.NaN(), math.NaN()
	}
	vx, vxy, vy := sxx-sx*sx/n, sxy-sx*sy/n, syy-sy*sy/n
	slope := vxy / vx
	left := max(0, vy-slope*vxy)
	return 7 * slope, 7 * (slope - odds.StudentQuantile(0.95, n-2)*math.Sqrt(left/(n-2)/vx))
}
