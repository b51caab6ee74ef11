package silo

import (
	"math"

	"awn/air"
	"awn/plant"
	"awn/unit"
)

// Air is the air outside in one hour.
type Air struct {
	TempC float64
	RH    float64
}

// Of a synthetic year.
const (
	yearDays    = 365
	yearHours   = yearDays * 24
	warmestHour = 15
)

// middles are the middles of the months, in days from the start of the year.
var middles = [12]float64{15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5}

// SyntheticYear makes hours from monthly normals, from a day of the year
// (0 is 1 January) on: temperature and vapour run straight from the middle of
// one month to that of the next, the day swings about its mean, warmest at 15
// h, and its vapour stays. It has no spells of weather: a real year is colder
// and damper, and warmer and drier, by turns.
func SyntheticYear(w plant.Weather, fromDay int) []Air {
	out := make([]Air, yearHours)
	var vapour [12]float64
	for i := range vapour {
		vapour[i] = w.RH[i] * air.SaturationPressure(unit.Celsius(w.AirC[i]))
	}
	for h := range out {
		day := math.Mod(float64(fromDay)+float64(h)/24, yearDays)
		t := between12(w.AirC, day) + w.SwingK*math.Cos(2*math.Pi*(float64(h%24)-warmestHour)/24)
		rh := between12(vapour, day) / air.SaturationPressure(unit.Celsius(t))
		out[h] = Air{t, min(max(rh, 0), 1)}
	}
	return out
}

// between12 is a monthly figure on a day of the year.
func between12(monthly [12]float64, day float64) float64 {
	for i := range middles {
		if day < middles[i] {
			before, from := (i+11)%12, middles[(i+11)%12]
			if i == 0 {
				from -= yearDays
			}
			return line(monthly[before], monthly[i], (day-from)/(middles[i]-from))
		}
	}
	return line(monthly[11], monthly[0], (day-middles[11])/(middles[0]+yearDays-middles[11]))
}

func line(a, b, share float64) float64 { return a + (b-a)*share }
