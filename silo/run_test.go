package silo

import (
	"math"
	"testing"

	"awn/air"
	"awn/barley"
	"awn/odds"
	"awn/plant"
	"awn/unit"
)

// coast is an invented coast: monthly normals of a mild climate.
var coast = plant.Weather{
	AirC:   [12]float64{6, 6, 7, 9, 12, 14, 16, 16, 14, 11, 8, 7},
	RH:     [12]float64{0.85, 0.83, 0.81, 0.78, 0.77, 0.78, 0.79, 0.80, 0.82, 0.84, 0.85, 0.86},
	SwingK: 3,
}

// harvested is a silo of 310 t filled in August, invented.
func harvested() Setup {
	var c barley.Constants
	if err := odds.Fill(&c, barley.Parameters, nil); err != nil {
		panic(err)
	}
	return Setup{
		RadiusM: 4, DepthM: 10, Layers: UsualLayers, BulkKgM3: 620, Moisture: []float64{0.14}, TempC: []float64{25},
		Fan:      plant.Fan{ShutOffPa: 1500, FreeM3S: 3, Efficiency: 0.6, LossPa: 50},
		Aeration: UsualAeration(false), PressurePa: air.StandardPa, Constants: Defaults(), Isotherm: barley.BarleyIsotherm(c),
	}
}

const august = 220

// steady is so many hours of one air.
func steady(a Air, hours int) []Air {
	out := make([]Air, hours)
	for i := range out {
		out[i] = a
	}
	return out
}

func started(t testing.TB, s Setup) *Run {
	t.Helper()
	r, err := Start(s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Dry matter, water and heat of a year, against an inventory taken apart from
// the lines: heat is worked out from temperature and moisture alone.
func TestYearCloses(t *testing.T) {
	for name, change := range map[string]func(*Setup){
		"aerated": func(*Setup) {},
		"still":   func(s *Setup) { s.Aeration = Aeration{} },
		"always":  func(s *Setup) { s.Aeration = Aeration{Allowed: true, ColderByK: -100, MostRH: 1, TargetC: -50} },
		"damp":    func(s *Setup) { s.Moisture = []float64{0.19} },
		"warm top": func(s *Setup) {
			s.TempC = make([]float64, s.Layers)
			for i := range s.TempC {
				s.TempC[i] = 15 + float64(i)
			}
		},
	} {
		s := harvested()
		change(&s)
		r := started(t, s)
		r.Through(SyntheticYear(coast, august))
		dry, water, heat := r.Closing()
		if worst := max(math.Abs(dry), math.Abs(water), math.Abs(heat)); !(worst < 1e-9) {
			t.Errorf("%s: closes within %.2g, %.2g, %.2g", name, dry, water, heat)
		}
		for i, l := range r.Layers() {
			if !(l.TempC > -20 && l.TempC < 65 && l.Moisture > 0.05 && l.Moisture < 0.3 && l.Used > 0 && l.Probits > 0 && l.DryLoss > 0) {
				t.Errorf("%s, layer %d: %+v", name, i, l)
			}
		}
		t.Logf("%s: fan %d h, %.1f kWh/t, closes within %.1g, %.1g, %.1g; last %+v", name, r.FanHours(), r.FanKWhT(), dry, water, heat, r.Layers()[s.Layers-1])
	}
}

// Air of one state blown for long brings every layer to the temperature of the
// air and to the moisture that the isotherm gives at its humidity.
func TestBlownGrainComesToRestWithTheAir(t *testing.T) {
	s := harvested()
	s.Aeration = Aeration{Allowed: true, ColderByK: -100, MostRH: 1, TargetC: -50}
	s.Fan.ShutOffPa, s.Fan.FreeM3S = 8000, 40
	s.DepthM, s.Layers = 1, 10
	s.Constants.RespirationFactor = 0
	s.Constants.ConductivityWMK = 1e-9
	r := started(t, s)
	outside := Air{10, 0.7}
	for range 500 {
		r.Through([]Air{outside, outside, outside, outside})
	}
	on := air.State{TempC: 10, W: air.HumidityRatio(10, 0.7, s.PressurePa), PressurePa: s.PressurePa}.Heated(r.workJKg)
	rh := air.RelativeHumidity(on.TempC, on.W, s.PressurePa)
	want := s.Isotherm.Moisture(on.TempC, rh)
	for i, l := range r.Layers() {
		near(t, "temperature", l.TempC, float64(on.TempC), 1e-6)
		if got := l.Moisture / (1 - l.Moisture); math.Abs(got-float64(want)) > 1e-6 {
			t.Errorf("layer %d: %.6f, the isotherm gives %.6f", i, got, float64(want))
		}
	}
}

// A cooling of 25 to 15 °C by air that leaves at rest with the grain, against
// the hours of CoolingHours: the least there is. A front that is not sharp,
// and drying on the way, take the bed from the ideal by less than the effort
// of the parameter table.
func TestCoolingTakesAtLeastTheIdealHours(t *testing.T) {
	s := harvested()
	s.Aeration = Aeration{Allowed: true, ColderByK: -100, MostRH: 1, TargetC: -50}
	s.Constants.RespirationFactor, s.Constants.ConductivityWMK = 0, 1e-9
	r := started(t, s)
	x := unit.WetBasis(0.14).DryBasis()
	rh := s.Isotherm.Humidity(15, x)
	airOn := 15 - r.workJKg/1006 // after the fan it is 15 °C
	w := air.HumidityRatio(15, rh, s.PressurePa)
	outside := Air{airOn, float64(air.RelativeHumidity(unit.Celsius(airOn), w, s.PressurePa))}
	flow := r.velocityMS / air.SpecificVolume(15, w, s.PressurePa) * 3600 / (s.BulkKgM3 * s.DepthM / 1000)
	ideal := CoolingHours(grainJKgK(0.14), 25, 15, 0.64, flow, s.PressurePa)
	hours := 0
	for ; r.meanC() > 15.5 && hours < 2000; hours++ {
		r.Through([]Air{outside})
	}
	ratio := float64(hours) / ideal
	t.Logf("%d h against %.0f at %.1f kg/(h t)", hours, ideal, flow)
	if !(ratio > 0.9 && ratio < 2.5) {
		t.Errorf("cooled in %.2f times the ideal hours", ratio)
	}
}

// Halving the layers moves the year little: mean temperature within 0.3 K and
// mean moisture within 0.1 points at any month's end.
func TestLayersConverge(t *testing.T) {
	run := func(n int) *Run {
		s := harvested()
		s.Layers = n
		r := started(t, s)
		r.Through(SyntheticYear(coast, august))
		return r
	}
	a, b := run(20), run(40)
	for d := 29; d < 365; d += 30 {
		near(t, "mean temperature", a.days[d].MeanC, b.days[d].MeanC, 0.3)
	}
	mean := func(r *Run) (sum float64) {
		for _, l := range r.Layers() {
			sum += l.Moisture / float64(len(r.layers))
		}
		return sum
	}
	near(t, "mean moisture", mean(a), mean(b), 0.001)
}

// Without air a silo cools as a cylinder does: after the time constant of its
// core the layers in the middle have lost 1 - 1/e of their difference, save
// what the first month's sharper gradient adds. The mean of a cylinder late in
// cooling falls with the same constant.
func TestStillSiloCoolsAsACylinder(t *testing.T) {
	s := harvested()
	s.Aeration, s.Constants.RespirationFactor = Aeration{}, 0
	s.Layers, s.DepthM = 21, 40
	r := started(t, s)
	tau := CoreDays(s.RadiusM, s.Constants.ConductivityWMK, s.BulkKgM3, barley.EnthalpySlope(unit.WetBasis(0.14).DryBasis())*0.86)
	for range int(tau) {
		r.Through(steady(Air{5, 0.8}, 24))
	}
	near(t, "middle", r.Layers()[10].TempC, 5+20/math.E, 0.15)
}

// The life of a layer at one moisture and temperature is that of the laws.
func TestLifeFollowsTheLaws(t *testing.T) {
	s := harvested()
	s.Aeration, s.Constants.RespirationFactor, s.Constants.ConductivityWMK = Aeration{}, 1e-12, 1e-9
	s.TempC, s.UsedBefore = []float64{20}, 0.25
	r := started(t, s)
	r.Through(steady(Air{20, 0.7}, 24*50))
	l := r.Layers()[7]
	near(t, "clock", l.Used, 0.25+50/FraserMuir{}.SafeDays(0.14, 20), 1e-6)
	near(t, "probits", l.Probits, 50/EllisRoberts.ProbitDays(0.14, 20), 1e-6)
}

func TestDormancyHoldsTheFan(t *testing.T) {
	a := UsualAeration(true)
	for _, c := range []struct {
		airC, rh, grainC, day float64
		want                  bool
	}{
		{10, 0.6, 20, 3, true}, {10, 0.6, 14.5, 3, false}, {11, 0.6, 14.5, 40, false}, {9, 0.6, 14.5, 40, true},
		{10, 0.75, 20, 3, false}, {17, 0.6, 20, 3, false}, {2, 0.6, 11.5, 90, false},
	} {
		if got := a.Helps(c.airC, c.rh, c.grainC, c.day); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
	if (Aeration{}).Helps(0, 0, 30, 0) {
		t.Error("a fan that is not there runs")
	}
}

func TestSyntheticYear(t *testing.T) {
	year := SyntheticYear(coast, 0)
	lengths := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	h := 0
	for m, days := range lengths {
		sum, vapour := 0.0, 0.0
		for range 24 * days {
			sum += year[h].TempC
			vapour += year[h].RH * air.SaturationPressure(unit.Celsius(year[h].TempC))
			h++
		}
		n := float64(24 * days)
		near(t, "mean of the month", sum/n, coast.AirC[m], 0.5) // straight lines cut peaks
		want := coast.RH[m] * air.SaturationPressure(unit.Celsius(coast.AirC[m]))
		near(t, "vapour of the month, share", vapour/n/want, 1, 0.05)
	}
	if shifted := SyntheticYear(coast, 100); shifted[0] != year[2400] {
		t.Errorf("a year from its hundredth day: %+v, want %+v", shifted[0], year[2400])
	}
}

func TestSetupsThatCannotBe(t *testing.T) {
	for name, change := range map[string]func(*Setup){
		"no radius": func(s *Setup) { s.RadiusM = 0 }, "no depth": func(s *Setup) { s.DepthM = math.NaN() },
		"thin layers": func(s *Setup) { s.DepthM, s.Layers = 0.5, 400 }, "no layers": func(s *Setup) { s.Layers = 0 },
		"no fan": func(s *Setup) { s.Fan = plant.Fan{} }, "two moistures": func(s *Setup) { s.Moisture = []float64{0.1, 0.2} },
		"wet": func(s *Setup) { s.Moisture = []float64{0.5} }, "hot": func(s *Setup) { s.TempC = []float64{90} },
	} {
		s := harvested()
		change(&s)
		if _, err := Start(s); err == nil {
			t.Errorf("%s is let pass", name)
		}
	}
}

// BenchmarkYear is a year of hours of a silo of 20 layers.
func BenchmarkYear(b *testing.B) {
	weather := SyntheticYear(coast, august)
	for _, c := range []struct {
		name     string
		aeration Aeration
	}{{"aerated", UsualAeration(false)}, {"fan always on", Aeration{Allowed: true, ColderByK: -100, MostRH: 1, TargetC: -50}}} {
		b.Run(c.name, func(b *testing.B) {
			s := harvested()
			s.Aeration = c.aeration
			for b.Loop() {
				started(b, s).Through(weather)
			}
		})
	}
}
