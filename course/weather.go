package course

import (
	"math"
	"time"

	"awn/air"
	"awn/plant"
)

// warmestHour is the local hour at which the outside air is warmest.
//
// Assumed: common practice, no source.
const warmestHour = 15

// local is the wall clock of the house atH hours after the piece began. The
// offset is that of the start: durations stay true over a clock change.
func (p *Piece) local(atH float64) time.Time {
	start := time.UnixMilli(p.StartMs).UTC().Add(time.Duration(p.OffsetMin) * time.Minute)
	return start.Add(time.Duration(atH * float64(time.Hour)))
}

// outsideMean is the mean outside air of the month in which a stage begins.
func (p *Piece) outsideMean(atH float64) (tempC, rh float64) {
	month := p.local(atH).Month() - 1
	return p.House.Weather.AirC[month], p.House.Weather.RH[month]
}

// warmestAtH is the first hour after atH, counted from atH, at which the day
// is warmest.
func (p *Piece) warmestAtH(atH float64) float64 {
	t := p.local(atH)
	hour := float64(t.Hour()) + float64(t.Minute())/60
	return math.Mod(warmestHour-hour+24, 24)
}

// waterC is the temperature of the house's water atH hours after the start.
func (p *Piece) waterC(atH float64) float64 {
	return p.House.Weather.WaterC[p.local(atH).Month()-1]
}

// pressurePa is the pressure of the air at the house's altitude.
func pressurePa(h *plant.House) float64 { return air.StandardPressure(h.AltitudeM) }
