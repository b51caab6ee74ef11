package air_test

import (
	"errors"
	"fmt"

	"awn/air"
)

// Air of a mild day: dry bulb and relative humidity give the rest.
func ExampleFrom() {
	s, err := air.From(101325, air.Is(air.DryBulb, 25), air.Is(air.RelHumidity, 0.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	p := s.Properties()
	fmt.Printf("W %.2f g/kg, wet bulb %.2f °C, dew point %.2f °C, h %.2f kJ/kg, v %.4f m³/kg\n",
		1e3*float64(s.W), p.WetBulbC, p.DewPointC, p.EnthalpyJKg/1e3, p.VolumeM3Kg)
	// Output: W 9.88 g/kg, wet bulb 17.89 °C, dew point 13.86 °C, h 50.32 kJ/kg, v 0.8580 m³/kg
}

// Two thermometers, neither of them dry.
func ExampleFrom_withoutDryBulb() {
	s, err := air.From(air.StandardPressure(1000), air.Is(air.WetBulbTemp, 15), air.Is(air.DewPointTemp, 10))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("dry bulb %.2f °C, RH %.1f %%\n", s.TempC, 100*float64(s.Properties().RelHumidity))
	// Output: dry bulb 23.24 °C, RH 43.1 %
}

func ExampleError() {
	_, err := air.From(101325, air.Is(air.DewPointTemp, 10), air.Is(air.HumRatio, 0.0076))
	var fault *air.Error
	if errors.As(err, &fault) {
		fmt.Println(fault.Code)
	}
	// Output: air.pair.same
}

// Warm wet air meets cold air, and fogs.
func ExampleState_Settled() {
	warm := air.State{TempC: 30, W: air.SaturationRatio(30, 101325), PressurePa: 101325}
	cold := air.State{TempC: 2, W: air.SaturationRatio(2, 101325), PressurePa: 101325}
	clear, fog := air.Mix(warm, 1, cold, 1).Settled()
	fmt.Printf("%.2f °C, %.2f g/kg of fog\n", clear.TempC, 1e3*fog)
	// Output: 19.64 °C, 1.42 g/kg of fog
}

// A spray of 90 % cools and wets the air of a germination box.
func ExampleState_Humidified() {
	s := air.State{TempC: 20, W: 0.006, PressurePa: 101325}
	out := s.Humidified(0.9, 12)
	fmt.Printf("%.2f °C, %.1f %% RH, %.2f g/kg taken up\n", out.TempC,
		100*float64(air.RelativeHumidity(out.TempC, out.W, 101325)), 1e3*float64(out.W-s.W))
	// Output: 13.30 °C, 92.1 % RH, 2.75 g/kg taken up
}

func ExampleWetBulb() {
	fmt.Printf("%.2f °C\n", air.WetBulb(60, 0.0074328, 101325))
	// Output: 26.17 °C
}
