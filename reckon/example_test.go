package reckon

import "fmt"

// first prints the first number of the answer to each line, and what the
// answer says beside its numbers, in codes.
func first(lines ...string) {
	for _, line := range lines {
		a, err := ask(line)
		if err != nil {
			fmt.Println(line, "->", err)
			continue
		}
		r := a.Results[0]
		fmt.Printf("%s\n  %s %s", line, r.Name, r.Shown[0])
		if r.Band != "" {
			fmt.Printf(" (%s)", r.Band)
		}
		fmt.Println()
		for _, f := range a.Findings {
			fmt.Printf("  %s\n", f.Code)
		}
	}
}

// examples are those of the entries of a table, as their help shows them.
func examples(table []Entry) (lines []string) {
	for _, e := range table {
		lines = append(lines, e.Examples...)
	}
	return lines
}

// Measures: one quantity in all its units.
func ExampleEntry_Ask_measures() {
	first(examples(measures)...)
	// Output:
	// temperature 62 °F
	//   temperature 16.6667 °C
	// mass 1000 bu
	//   mass 21772.4 kg
	// mass 25 t in bu
	//   mass 1148.24 bu
	// slot 6/64 in
	//   length 2.38125 mm
	// slot 2.5 mm in /64 in
	//   length 6.29921/64 in
	// convert 300 kWh
	//   energy 300 kWh
	// convert 2 inH2O in Pa
	//   pressure 498.178 Pa
	// convert 450 L/t
	//   water dose 450 L/t
	// convert 40 acre
	//   ground 16.1874 ha
	// convert 100 bu measure in hL
	//   volume of grain 35.2391 hL
}

// A load at the gate: what is paid for, and what a certificate says.
func ExampleEntry_Ask_gate() {
	first(examples(gates)...)
	// Output:
	// ticket 60000 lb dockage 1.74 % moisture 15.8 % basis 13.5 % rule 1.4 %/pt
	//   payable 57197 lb
	//   intake.mass.shrink-gap
	// ticket 25 t moisture 16 % basis 13.5 % handling 0.5 %
	//   payable 24.1525 t
	// ticket 25 t dockage 0.8 % exact moisture 17 % basis 14 %
	//   payable 23.9349 t
	// dockage 1.74 %
	//   recorded 1.50 %
	// dockage 1.74 % of 60000 lb
	//   recorded 1.50 %
	// factor 2.45 %
	//   to tenths 2.5 %
	// plump 58 %
	//   plump, in whole per cents 58 % (56 to 60 %)
	// sieves 61 % over 7/64 in 92 % over 6/64 in for 2.5 mm least 90 %
	//   expected, thickness normal 85.73 %
	//   intake.sieve.other-slots-fails
	// sieves 70 % over 2.8 mm 95 % over 2.2 mm for 6/64 in
	//   expected, thickness normal 90.43 %
	//   intake.sieve.guessed
}

// Barley: moisture, weight and contents on their bases.
func ExampleEntry_Ask_barley() {
	first(examples(grain)...)
	// Output:
	// moisture 13.5 % wb
	//   moisture, wet basis 13.50 % wb
	// moisture 78 % db
	//   moisture, wet basis 43.82 % wb
	// water 25 t from 16 % to 13.5 %
	//   mass then 24277.5 kg
	// water 1000 bu from 12 % to 44 % in bu
	//   mass then 1571.43 bu
	// steeped 100 g at 12.4 % to 156.9 g
	//   steeped moisture 44.17 % wb
	// steeped 100 g at 12.4 % to 156.9 g leach 0.8 %
	//   steeped moisture 44.61 % wb
	// steeped 100 g at 12.4 % to 162 g unblotted
	//   steeped moisture 45.93 % wb (43.93 to 44.93 % wb)
	//   steep.sample.not-blotted
	// test-weight 48 lb/bu
	//   test weight 61.78 kg/hL
	// test-weight 48 lb/bu imperial
	//   test weight 59.87 kg/hL
	// test-weight 65 kg/hL
	//   test weight 65.00 kg/hL
	// test-weight 310 g/0.5 L
	//   test weight 64.45 kg/hL
	// protein 11.2 % dm
	//   protein 11.20 % dm
	// protein n=1.664 % dm
	//   protein 10.40 % dm
	// basis 10.12 % asis 12 %
	//   on dry matter 11.500 % dm
	// basis 11.5 % dm 12 % on 13.5 %
	//   on dry matter 11.500 % dm
	// count 97 of 100
	//   share of the lot 97.00 % (91.48 to 99.38 %)
	// count 485 of 500 confidence 90 %
	//   share of the lot 97.00 % (95.42 to 98.14 %)
	// emc barley 15 °C 65 %
	//   moisture at rest 14.61 % wb (12.38 to 14.61 % wb)
	// emc malt 20 °C 4.5 % wb
	//   humidity at rest 10.60 % (8.45 to 13.81 %)
}

// Air, and air through a bed.
func ExampleEntry_Ask_air() {
	first(examples(airs)...)
	// Output:
	// air 30 °C 50 %rh at 300 m
	//   dry bulb 30.00 °C
	// air 30 °C 50 %
	//   dry bulb 30.00 °C
	// air 86 °F wb 72 °F at 1000 ft
	//   dry bulb 30.00 °C
	// air dp=12 °C rh=80 %
	//   dry bulb 15.43 °C
	// airflow 300 m3/h/t
	//   for each tonne as cast 300 m3/h/t
	// airflow 300 m3/h/t for 20 t on 40 m2
	//   for each tonne as cast 300 m3/h/t
	// airflow 0.25 m/s on 40 m2 for 20 t
	//   for each tonne as cast 1800 m3/h/t
	// resistance 0.3 m/s 0.9 m
	//   pressure lost 1082.4 Pa
	// resistance 50 ft/min 3 ft factor 1.5
	//   pressure lost 1287.5 Pa
}

// Malt: extract, colour, power and the Kolbach index.
func ExampleEntry_Ask_malt() {
	first(examples(malts)...)
	// Output:
	// extract 80.5 % dm 4.5 %
	//   extract as-is 76.88 % asis
	// extract 76.2 % asis moisture 4.5 %
	//   extract as-is 76.20 % asis
	// extract 308 L°/kg dm 4.5 %
	//   extract as-is 76.10 % asis
	// extract 79.77 % dm 4.5 % coarse 78.4 % dm
	//   extract as-is 76.18 % asis
	// congress 8.65 °P 4.5 %
	//   extract as-is 76.18 % asis
	// congress 8.65 °P 4.5 % coarse 8.5 °P
	//   extract as-is 76.18 % asis
	// colour 3.5 EBC
	//   colour, EBC 3.50 EBC
	// colour 2 SRM
	//   colour, EBC 3.94 EBC
	// colour 40 °L
	//   colour, EBC 104.80 EBC
	// colour a430 0.2
	//   colour, EBC 5.00 EBC
	// diastatic 100 Lintner
	//   Windisch-Kolbach 334.0 WK
	// diastatic 250 WK
	//   Windisch-Kolbach 250.0 WK
	// kolbach 0.643 % dm of 1.664 % dm
	//   Kolbach index, S/T 38.64 %
	// kolbach soluble=4.3 % dm total=10.8 % dm
	//   Kolbach index, S/T 39.81 %
}

// What a laboratory wort says of its malt, and what a blend comes to.
func ExampleEntry_Ask_wort() {
	first(examples(worts)...)
	// Output:
	// fan 150 mg/L 8.65 °P 79.768 % dm
	//   in the malt 134.0 mg/100g dm
	// fan 134 mg/100g dm 8.65 °P moisture 4.5 %
	//   in the wort 150.0 mg/L
	// soluble 720 mg/L 8.65 °P 79.768 % dm
	//   soluble nitrogen 0.6430 % dm
	// soluble 720 mg/L 8.65 °P moisture 4.5 % total 1.664 % dm
	//   soluble nitrogen 0.6430 % dm
	// hwe 1.0298 moisture 4.5 %
	//   hot water extract as-is 301.9 L°/kg asis
	// hwe 308 L°/kg dm
	//   hot water extract on dry matter 308.0 L°/kg dm
	// blend 50 % tn 1.60 % sn 0.72 % friability 90 % wug 0.5 % then 50 % tn 1.84 % sn 0.66 % friability 81 % wug 4 % friability-min 85 % wug-max 2 % wug-guard 1.8 % st-min 38 % st-max 44 %
	//   Kolbach index, S/T 40.1 %
	//   malt.kolbach.mean-of-ratios
	//   malt.friability.meets
	//   malt.wug.above
	//   malt.kolbach.meets
	//   malt.kolbach.meets
	//   malt.blend.lots
	//   malt.blend.room
	// blend 12 t extract 81.2 % moisture 4.2 % then 8 t extract 79 % moisture 5.1 % extract-min 80 %
	//   fine extract 80.32 % dm
	//   malt.extract_fine.meets
	//   malt.blend.lots
	//   malt.blend.room
}

// Wort, beer and spirit.
func ExampleEntry_Ask_beer() {
	first(examples(beers)...)
	// Output:
	// wort 12 °P
	//   strength 12.000 °P
	// wort 1.048
	//   strength 11.912 °P
	// grist 100 hL 12 °P 76.18 % asis yield 95 %
	//   malt 1735.2 kg
	// grist 500 gal sg 1.048 76.18 % asis yield 90 %
	//   malt 344.007 kg
	// alcohol from 12 °P to 2.5 °P
	//   alcohol by volume 5.13 %
	// alcohol og=1.048 fg=1.010
	//   alcohol by volume 5.05 %
	// original 4.0146 % and 4.2176 °P
	//   original extract 12.000 °P
	// fermented 2.0665 kg
	//   ethanol 1 kg
	// fermented 1000 lb
	//   ethanol 483.91 lb
	// spirit 78.5 % asis
	//   pure alcohol 413.9 L/t asis
	// spirit 78.5 % asis fermentability 86 %
	//   pure alcohol 409.1 L/t asis
}
