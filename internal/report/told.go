package report

import (
	"math"

	"awn/course"
	"awn/odds"
	"awn/programme"
)

// band is the odds of a figure, if draws were made.
func (r Report) band(key string) (course.Band, bool) {
	if r.Odds == nil {
		return course.Band{}, false
	}
	return r.Odds.Find(key)
}

// told writes a figure with the range that eight of ten draws lie in, where
// there are draws; band is its key in the account, unit the end of its name.
func (r Report) told(band, unit string, x float64) string {
	b, ok := r.band(band)
	if !ok || math.IsNaN(x) {
		return r.figure(unit, x)
	}
	return r.Units.Doubt(unit, odds.Value{Mid: x, Low: b.P10, High: b.P90})
}

// toldWeight is told for a mass of grain.
func (r Report) toldWeight(band string, kg float64) string {
	b, ok := r.band(band)
	switch {
	case !ok:
		return r.weight(kg)
	case kg < smallKg:
		return r.told(band, "kg", kg)
	}
	return r.Units.Doubt("t", odds.Value{Mid: kg / 1000, Low: b.P10 / 1000, High: b.P90 / 1000})
}

// toldEnd is told for a reading at the end of a stage.
func (r Report) toldEnd(s *course.StageOutcome, reading programme.Reading, unit string) string {
	return r.told(s.Stage.String()+".end."+reading.Key(), unit, s.End[reading])
}

// toldLimit is the figure of a limit with the range of its draws, or with its
// own band.
func (r Report) toldLimit(i int) odds.Value {
	v := r.Outcome.Judged[i].Found.Value
	if r.Odds != nil {
		v.Low, v.High = r.Odds.Lines[i].P10, r.Odds.Lines[i].P90
	}
	return v
}

// toldMean is told for the mean temperature of a stage.
func (r Report) toldMean(s *course.StageOutcome) string {
	return r.told(s.Stage.String()+".mean."+programme.TempMean.Key(), "c", r.mean(s, programme.TempMean))
}

// toldMoney is told for a sum of money.
func (r Report) toldMoney(band string, x float64) string {
	b, ok := r.band(band)
	money := r.money(x)
	if !ok || money == "" {
		return money
	}
	return r.Units.Say("told.money", "money", money, "low", r.Units.Number(b.P10, 0), "high", r.Units.Number(b.P90, 0))
}

// drawn is a figure with the range of its draws, or with its own band.
func (r Report) drawn(band string, v odds.Value) odds.Value {
	if b, ok := r.band(band); ok {
		v.Low, v.High = b.P10, b.P90
	}
	return v
}
