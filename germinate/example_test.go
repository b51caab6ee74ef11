package germinate_test

import (
	"fmt"

	"awn/barley"
	"awn/bed"
	"awn/germinate"
	"awn/kernel"
	"awn/odds"
	"awn/plant"
	"awn/programme"
)

// A tonne of barley, just steeped, on a box with air made for it.
func ExampleStart() {
	var c germinate.Constants
	var k kernel.Constants
	var b bed.Constants
	var grainConstants barley.Constants
	for _, err := range []error{
		odds.Fill(&c, germinate.Parameters, nil), odds.Fill(&k, kernel.Parameters, nil),
		odds.Fill(&b, bed.Parameters, nil), odds.Fill(&grainConstants, barley.Parameters, nil),
	} {
		if err != nil {
			fmt.Println(err)
			return
		}
	}
	grain := barley.NewGrain([]barley.Class{{Number: 1, KernelDryMg: 40}}, []barley.Column{{Share: 1, Depth: 1, Packing: 1}}, 1)
	grain.DryKg[0], grain.WaterKg[0], grain.TempC[0], grain.ThermalTimeCH[0] = 870, 712, 16, 500

	run, err := germinate.Start(germinate.Setup{
		Constants: &c, Kernel: &k, Bed: &b, Isotherm: barley.BarleyIsotherm(grainConstants),
		Vessel: plant.Germinator{AreaM2: 1.74, MixesTurn: 1, Air: plant.AirHandler{
			Fan: plant.Fan{ShutOffPa: 1500, FreeM3S: 1, Efficiency: 0.65}, Humidifier: 0.95, CoolingKW: 5, COP: 3, HeatingKW: 10,
		}},
		CastT: 1, ChitCH: 380, PressurePa: 101325, Outside: germinate.Outside{MeanC: 9, RH: 0.8}, WaterC: 11, Layers: 20,
	}, grain)
	if err != nil {
		fmt.Println(err)
		return
	}
	step := programme.GerminateStep{
		AirOnC: 14, AirOnRH: 0.98, Flow: programme.Airflow{Value: 500, Per: programme.PerTonne}, TurnEvH: 12, SprayToWB: 0.45,
		Until: programme.Until{LatestH: 96},
	}
	if err := run.Begin(step); err != nil {
		fmt.Println(err)
		return
	}
	var v programme.Values
	for day := 1.0; day <= 4; day++ {
		if err := run.To(24 * day); err != nil {
			fmt.Println(err)
			return
		}
		run.Read(&v)
		fmt.Printf("day %.0f: %.1f °C, %.1f %%, acrospire %.2f, respired %.1f %%\n", day,
			v[programme.TempMean], 100*v[programme.Moisture], v[programme.Acrospire], 100*run.RespiredKg()/870)
	}
	// Output:
	// day 1: 14.8 °C, 45.0 %, acrospire 0.12, respired 0.3 %
	// day 2: 15.6 °C, 45.0 %, acrospire 0.27, respired 1.1 %
	// day 3: 16.0 °C, 45.0 %, acrospire 0.43, respired 2.2 %
	// day 4: 16.1 °C, 45.0 %, acrospire 0.59, respired 3.5 %
}
