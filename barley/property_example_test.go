package barley_test

import (
	"fmt"

	"awn/barley"
	"awn/odds"
	"awn/unit"
)

// Malt at the end of curing is at rest with its air at a few per cent.
func ExampleGAB_Moisture() {
	var c barley.Constants
	if err := odds.Fill(&c, barley.Parameters, nil); err != nil {
		fmt.Println(err)
		return
	}
	malt := barley.MaltIsotherm(c)
	fmt.Printf("60 °C, 10 %% RH: %.4f kg/kg dm\n", malt.Moisture(60, 0.10))
	fmt.Printf("60 °C, 0.10 kg/kg dm: %.1f %% RH\n", 100*malt.Humidity(60, 0.10))
	// Output:
	// 60 °C, 10 % RH: 0.0336 kg/kg dm
	// 60 °C, 0.10 kg/kg dm: 58.8 % RH
}

// How damp may the air of a store be over barley of 14.5 %? The published
// isotherms do not agree.
func ExampleSpread_Humidity() {
	low, high := barley.BarleySpread().Humidity(15, unit.WetBasis(0.145).DryBasis())
	fmt.Printf("%.0f to %.0f %% RH\n", 100*low, 100*high)
	// Output: 64 to 78 % RH
}

// Green malt of 45 % and kilned malt of 5 %, both at 60 °C.
func ExampleGrainEnthalpy() {
	green, dry := unit.WetBasis(0.45).DryBasis(), unit.WetBasis(0.05).DryBasis()
	fmt.Printf("green %.1f kJ/kg dm, dry %.1f kJ/kg dm\n",
		barley.GrainEnthalpy(60, green)/1e3, barley.GrainEnthalpy(60, dry)/1e3)
	fmt.Printf("back: %.2f °C\n", barley.TempFromEnthalpy(barley.GrainEnthalpy(60, green), green))
	// Output:
	// green 181.5 kJ/kg dm, dry 38.9 kJ/kg dm
	// back: 60.00 °C
}

func ExampleSorptionHeat() {
	fmt.Printf("%.0f kJ/kg at 60 °C and 0.10 kg/kg dm\n", barley.SorptionHeat(60, 0.10)/1e3)
	// Output: 355 kJ/kg at 60 °C and 0.10 kg/kg dm
}

func ExampleKernelRadius() {
	fmt.Printf("%.2f mm\n", 1e3*barley.KernelRadius(45))
	// Output: 1.72 mm
}
