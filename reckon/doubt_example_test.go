package reckon_test

import (
	"fmt"
	"strings"

	"awn/reckon"
)

// tell answers a line and prints each number as it is shown first, with its
// band, and the codes of what it means.
func tell(line string) {
	name, rest, _ := strings.Cut(line, " ")
	e, err := reckon.Find(name)
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := e.Ask(rest)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range a.Results {
		text := r.Name + ": " + r.Shown[0]
		if r.Band != "" {
			text += " (" + r.Band + ")"
		}
		fmt.Println(text)
	}
	for _, f := range a.Findings {
		fmt.Println(f.Code)
	}
}

func Example_life() {
	tell("life GE4 72 GE8 41 GC 99 RVU 165")
	// Output:
	// germinative energy: 72.00 % (62.13 to 80.52 %)
	// energy in 8 mL: 41.00 % (31.26 to 51.29 %)
	// capacity: 99.00 % (94.55 to 99.97 %)
	// dead: 1.00 % (0.03 to 5.45 %)
	// dormant: 27.00 % (17.97 to 36.52 %)
	// sensitive to water: 31.00 % (17.36 to 43.05 %)
	// intake.sprout.none
	// intake.dormancy.present
	// intake.water.sensitive
}

func Example_vigour() {
	tell("vigour 60 at 24 h then 92 at 48 h then 97 at 72 h")
	// Output:
	// germinative energy: 97.00 % (92.43 to 99.18 %)
	// germination index: 6.98 (6.52 to 7.51)
	// mean germination time: 34.4 h (32.0 to 36.8)
	// half of them by: 19.4 h (16.2 to 22.6)
	// homogeneity: 0.50 (0.39 to 0.63)
}

func Example_bin() {
	tell("bin 15 d at 17 % 70 °F then 13 % 70 °F keep 150 d")
	// Output:
	// safe time used: 45.21 %
	// days left as it lies: 128 d (51 to 245)
	// a plan may count on: 58 d
	// used, printed chart: 50.00 %
	// left, printed chart: 135 d
	// left, its shorter figure: 108 d
	// a plan would cool it to: 13.3 °C
	// silo.clock.too-short
}

func Example_germinating() {
	tell("germinating air-on 14 °C top 21 °C rise 0.5 K/h asked 500 m3/h/t")
	// Output:
	// air that must be passing: 164 m3/h/t
	// of what the fan is asked for: 32.85 %
	// to the limit as it warms: 6.0 h
	// rise if no air passed: 1.54 K/h
	// to the limit without air: 2.0 h
	// germinate.passing.short
	// germinate.limit.soon
}

func Example_counted() {
	tell("counted 97 of 100 at-least 98 %")
	// Output:
	// chance that it meets the limit: 21.90 %
	// share of the lot: 97.00 % (92.43 to 99.18 %)
	// odds.limit.near
}

func Example_measured() {
	tell("measured 4.6 % wb at-most 5 % wb within 0.8 % wb")
	// Output:
	// chance that it meets the limit: 91.71 %
	// true figure: 4.6 % wb (4.125 to 5.075 % wb)
	// two laboratories may differ by: 0.8 % wb
	// odds.limit.near
}

func Example_labs() {
	tell("labs barley nitrogen combustion 1.52 % dm and 1.71 % dm")
	// Output:
	// they differ by: 0.19 % dm
	// two laboratories may differ by: 0.116 % dm
	// honest ones differ so much in: 0.13 %
	// both together: 1.615 % dm (1.566 to 1.664 % dm)
	// lab.results.differ
}

func Example_plan() {
	tell("plan 95 of 100 true 93 %")
	// Output:
	// chance that it is taken: 29.14 %
	// taken 95 times in 100: 97.36 %
	// taken every other time: 94.35 %
	// taken 10 times in 100: 90.92 %
}

func Example_replicates() {
	tell("replicates 93 % 4 by 100 range 11 %")
	// Output:
	// they may lie apart by: 10.17 %
	// lab.replicates.differ
}

func Example_don() {
	tell("don read 0.9 mg/kg limit 1 mg/kg sample 2.27 kg portion 50 g")
	// Output:
	// the lot may truly hold: 0.9 mg/kg (0.542 to 1.33 mg/kg)
	// intake.toxin.unsure
}

func Example_weigh() {
	tell("weigh truck 25.32 t 16.2 % then hopper 25.28 t 16.0 % then dryer 24.47 t 13.4 % then silo 23.9 t 13.5 % then silo 24.5 t")
	// Output:
	// mass, 1 truck, 2 hopper: 25243 kg (25166 to 25321 kg)
	// moisture, 1 truck, 2 hopper: 16.37 % wb (16.08 to 16.65 % wb)
	// mass, 3 dryer, 4 silo, 5 silo: 24320 kg (24256 to 24384 kg)
	// moisture, 3 dryer, 4 silo: 13.19 % wb (12.90 to 13.48 % wb)
	// honest ones differ so much in: 0.00 %
	// odds that none is wrong: 0.00 %
	// suspect: mass, 4 silo: 100.00 %
	// weigh.mass.suspect
}
