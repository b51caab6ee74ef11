package germinate

import (
	"math"
	"testing"

	"awn/air"
)

// Recalled: ASHRAE 2017, ch. 1, table 2: saturated air at 101.325 kPa holds
// 42.113 kJ/kg and 0.010694 kg/kg at 15 °C, 57.555 kJ/kg and 0.014758 kg/kg at
// 20 °C.
func TestBedAirByTheTableOfMoistAir(t *testing.T) {
	on := air.State{TempC: 15, W: air.SaturationRatio(15, 101325), PressurePa: 101325}
	const x, heat = 0.8, 2.0
	const near = 0.004 // the table counts vapour as not quite perfect, 0.4 % more of it
	// Water leaves the grain with 4186 × 20 J/kg, less the heat of its sorption,
	// which at this moisture is under 100 J/kg: 57 555 - 42 113 - 0.004064 × 83 720.
	want := heat / (57555 - 42113 - 0.004064*4186*20)
	if got := BedAir(heat, 0, on, 20, x); math.Abs(got-want) > near*want {
		t.Errorf("%g kg/(kg s), want %g", got, want)
	}
	// A rise of half of what still air would give takes half of the heat.
	still := StillRise(heat, x)
	if got := BedAir(heat, still/2, on, 20, x); math.Abs(got-want/2) > near*want {
		t.Errorf("with a rise %g kg/(kg s), want %g", got, want/2)
	}
	// By hand: 7200/(1300 + 4186 × 0.8 + 2326 × 0.5904/13.67) = 1.5 K/h.
	if want := 7200 / (1300 + 4186*0.8 + 2326*0.5904/13.67); math.Abs(still-want) > 1e-4*want {
		t.Errorf("still %g K/h, want %g", still, want)
	}
	for name, got := range map[string]float64{
		"colder than its air":           BedAir(heat, 0, on, 14, x),
		"warming by more than it grows": BedAir(heat, 3, on, 20, x),
		"negative heat":                 StillRise(-1, x),
		"cooling":                       HoursTo(24, 20, -1),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: %g", name, got)
		}
	}
	if HoursTo(24, 25, 0) != 0 || math.Abs(HoursTo(24, 20, 0.5)-8) > 1e-12 {
		t.Error("hours to a limit")
	}
}

func TestWhatABedTells(t *testing.T) {
	nan := math.NaN()
	for want, tell := range map[string]Tell{
		"germinate.passing.short":  {PassingM3HT: 200, AskedM3HT: 500, LimitC: 24, Hours: nan, StillHours: 3},
		"germinate.passing.none":   {PassingM3HT: nan, AskedM3HT: 500, RiseKH: 1.5, LimitC: 24, Hours: 2, StillHours: 2},
		"germinate.passing.untold": {PassingM3HT: nan, AskedM3HT: 500, LimitC: 24, Hours: nan, StillHours: 2},
		"germinate.limit.passed":   {PassingM3HT: 500, AskedM3HT: nan, LimitC: 24, Hours: 0},
		"germinate.limit.soon":     {PassingM3HT: 500, AskedM3HT: nan, LimitC: 24, Hours: 6, StillHours: 2},
		"germinate.limit.far":      {PassingM3HT: 500, AskedM3HT: nan, LimitC: 24, Hours: 40, StillHours: 2},
		"germinate.bed.steady":     {PassingM3HT: 500, AskedM3HT: 500, LimitC: 24, Hours: nan, StillHours: 2},
	} {
		if got := tell.Findings(); len(got) == 0 || got[0].Code != want {
			t.Errorf("%+v: %v, want %s", tell, got, want)
		}
	}
}
