package course_test

import (
	"math"
	"testing"

	"awn/plant"
	"awn/programme"
)

// Rests whose air the programme gives are said to be made, with the warmth that
// takes; without, they draw from outside and take none. Worked by hand: 1.2041
// kg/m³ and 1006 J/(kg K), the air of the month.
func TestRestsSayWhichAirTheyDraw(t *testing.T) {
	p := load(t, "piece.yaml")
	o := run(t, p)
	want, hours := 0.0, 0.0
	for i, s := range p.Programme.Steep {
		if s.SuctionM3HT > 0 {
			step := o.Stages[0].Steps[i]
			hours += step.ToH - step.FromH
			want += s.SuctionM3HT * 60 * (step.ToH - step.FromH) * 1.2041 * 1006 * (17 - 7)
		}
	}
	near(t, "hours", o.Made.MadeH, hours, 1e-9)
	near(t, "warmth, J", o.Made.WarmedJ, want, 1e-9*want)
	near(t, "air, °C", o.Made.RestC, 17, 1e-9)

	p.Programme.Steep = append([]programme.SteepStep(nil), p.Programme.Steep...)
	for i := range p.Programme.Steep {
		p.Programme.Steep[i].AirC = math.NaN()
	}
	o = run(t, p)
	near(t, "air from outside, °C", o.Made.RestC, 7, 1e-9)
	if o.Made.MadeH != 0 || o.Made.WarmedJ != 0 || !(o.Made.RestH > 10) {
		t.Errorf("%+v", o.Made)
	}
}

// A winter heater gives what frost takes, up to what it can; the account counts it
// with the fuel. Without one the air under the bed is cold, and that is told.
func TestWinterHeater(t *testing.T) {
	p := load(t, "piece.yaml")
	for m := range p.House.Weather.AirC {
		p.House.Weather.AirC[m] = -15
	}
	p.House.Germinators = append([]plant.Germinator(nil), p.House.Germinators...)
	p.Programme.Germinate = append([]programme.GerminateStep(nil), p.Programme.Germinate...)
	for i := range p.Programme.Germinate {
		p.Programme.Germinate[i].Fresh = 1
	}
	heater := func(kW float64) float64 {
		p.House.Germinators[p.Germinator].Air.HeatingKW = kW
		o := run(t, p)
		s := stage(t, o, 1)
		if most := kW * 3.6e6 * (s.ToH - s.FromH); o.Made.HeatJ > most*(1+1e-9) {
			t.Errorf("%.0f kW gave %.3g J, at most %.3g", kW, o.Made.HeatJ, most)
		}
		if _, cold := told(o, "germinate.air.cold"); cold != (kW < 400) {
			t.Errorf("with %.0f kW the air is cold: %v", kW, cold)
		}
		return o.Made.HeatJ
	}
	if none, some, all := heater(0), heater(200), heater(1500); !(none == 0 && some > 0 && all > some) {
		t.Errorf("%.3g, %.3g and %.3g J", none, some, all)
	}
}
