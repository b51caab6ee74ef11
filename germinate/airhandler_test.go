package germinate

import (
	"fmt"
	"math"
	"testing"

	"awn/air"
	"awn/plant"

	"pgregory.net/rapid"
)

func moist(tempC, rh float64) air.State {
	s, err := air.From(101325, air.Is(air.DryBulb, tempC), air.Is(air.RelHumidity, rh))
	if err != nil {
		panic(err)
	}
	return s
}

// A hot day, 30 °C and 50 %, on a bed that gives back air of 16 °C: a tonne of
// barley at 500 m³/h and 1000 Pa, a perfect humidifier with the fan behind it,
// asked for 13 °C.
func hotDay() conditioner {
	const m3Kg = 0.82
	return conditioner{
		AirHandler: plant.AirHandler{Humidifier: 1, FanPlace: plant.FanAfterConditioning},
		airKgS:     1.22 * 500 / 3600,
		fanJKg:     FanHeat(1000, 0.63, m3Kg),
		waterC:     20, outside: moist(30, 0.5), back: moist(16, 1),
	}
}

// Without a chiller no humidifier gets below the wet bulb, and the fan behind it
// warms what it made.
func ExampleFanHeat() {
	a := hotDay()
	made := a.make(wish{tempC: 13, rh: 1, leastFresh: 1})
	warmer := FanHeat(1000, 0.63, 0.82) / air.HeatCapacity(made.on.W)
	fmt.Printf("all fresh: %.1f °C, %.1f K of it from the fan\n", float64(made.on.TempC), warmer)
	// Output:
	// all fresh: 23.3 °C, 1.3 K of it from the fan
}

// Worked by hand from tables of moist air: the wet bulb of 30 °C and 50 % is
// 22.0 °C; 85 % return air brings it to 17.0; cooling the mixture to saturated
// air of 13 °C takes 1.9 kW, all fresh air 4.7 kW. Tolerances: the last digit;
// the powers are plain differences of enthalpy, less 0.04 kW that the condensate
// carries off.
func TestAirOnOfAHotDay(t *testing.T) {
	a := hotDay()
	a.fanJKg = 0
	near(t, "all fresh, °C", float64(a.make(wish{13, 1, 1}).on.TempC), 22.0, 0.05)
	near(t, "85 % return, °C", float64(a.make(wish{13, 1, 0.15}).on.TempC), 17.0, 0.1)

	a.CoolingKW = 10
	for _, c := range []struct{ fresh, kW float64 }{{0.15, 1.9}, {1, 4.7}} {
		made := a.make(wish{13, 1, c.fresh})
		near(t, "air-on with a coil, °C", float64(made.on.TempC), 13, 1e-6)
		near(t, "cooling, kW", made.coolW/1000, c.kW, 0.09)
	}
}

// A fan behind the humidifier turns saturated air of 13 °C into air of 91 to
// 92 %, worked by hand.
func TestFanBehindDriesTheAir(t *testing.T) {
	made := moist(13, 1).Heated(FanHeat(1000, 0.63, 0.82))
	near(t, "humidity", humidity(made), 0.915, 0.006)
}

func TestHeaterAndHumidifierInFrost(t *testing.T) {
	a := hotDay()
	a.outside, a.HeatingKW = moist(-15, 0.8), 50
	made := a.make(wish{13, 0.95, 1})
	near(t, "with heat, °C", float64(made.on.TempC), 13+float64(FanHeat(1000, 0.63, 0.82))/1012-1.25, 0.1)
	if made.heatW <= 0 {
		t.Error("no heat in frost")
	}
	a.HeatingKW = 0
	if cold := a.make(wish{13, 0.95, 1}); cold.on.TempC > -12 {
		t.Errorf("all fresh without a heater: %v °C", cold.on.TempC)
	}
	if mixed := a.make(wish{13, 0.95, 0.05}); math.Abs(float64(mixed.on.TempC)-13) > 0.1 {
		t.Errorf("return air alone holds %v °C, want 13", mixed.on.TempC)
	}
}

// Whatever is asked of it, an air handler neither makes air beyond saturation
// nor heat from nothing, and never does worse in temperature by having more.
func TestAirHandlerKeepsItsBooks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := conditioner{
			AirHandler: plant.AirHandler{
				FanPlace:   plant.FanPlace(rapid.IntRange(0, 2).Draw(t, "place")),
				LeastFresh: rapid.Float64Range(0, 1).Draw(t, "least"),
				Humidifier: rapid.Float64Range(0, 1).Draw(t, "humidifier"),
				CoolingKW:  rapid.Float64Range(0, 30).Draw(t, "cooling"),
				HeatingKW:  rapid.Float64Range(0, 30).Draw(t, "heating"),
			},
			airKgS: rapid.Float64Range(0.01, 1).Draw(t, "air"), fanJKg: rapid.Float64Range(0, 3000).Draw(t, "fan"),
			waterC:  rapid.Float64Range(1, 25).Draw(t, "water"),
			outside: moist(rapid.Float64Range(-15, 40).Draw(t, "outside"), rapid.Float64Range(0.1, 1).Draw(t, "rh")),
			back:    moist(rapid.Float64Range(5, 30).Draw(t, "back"), rapid.Float64Range(0.7, 1).Draw(t, "back rh")),
		}
		want := wish{rapid.Float64Range(8, 25).Draw(t, "want"), rapid.Float64Range(0.6, 1).Draw(t, "want rh"), rapid.Float64Range(0, 1).Draw(t, "fresh")}
		made := a.make(want)
		if rh := humidity(made.on); !(rh >= 0 && rh < 1+1e-6) && made.on.TempC > 0.1 {
			t.Fatalf("humidity %g at %v °C", rh, made.on.TempC)
		}
		if made.fresh < max(a.LeastFresh, want.leastFresh)-1e-12 || made.fresh > 1 {
			t.Fatalf("fresh share %g", made.fresh)
		}
		if made.heatW < 0 || made.heatW > a.HeatingKW*1000+1e-6 || made.coolW < 0 || made.coolW > a.CoolingKW*1000+1e-6 {
			t.Fatalf("heat %g W, cooling %g W", made.heatW, made.coolW)
		}
		if made.heatW > 0 && made.coolW > 1 {
			t.Fatalf("heats (%g W) and cools (%g W) the same air", made.heatW, made.coolW)
		}
	})
}
