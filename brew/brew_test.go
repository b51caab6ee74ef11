package brew

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"awn/malt"
	"awn/odds"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*1.001) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}

// Wort of 12 °P fermented to an apparent 2.5 °P.
func ExampleRealExtract() {
	left := RealExtract(12, 2.5)
	alcohol := AlcoholByMass(12, left)
	fmt.Printf("%.3f °P left, %.3f %% by mass, %.2f %% by volume\n",
		left, 100*alcohol, 100*AlcoholByVolume(alcohol, malt.Plato(2.5).Gravity()))
	// Output: 4.218 °P left, 4.015 % by mass, 5.13 % by volume
}

// 78.5 % extract as-is, of which 87 % ferments.
func ExampleSpiritLTonne() {
	fmt.Printf("%.1f L/t\n", SpiritLTonne(FermentableExtract(0.785, 0.87)))
	// Output: 413.9 L/t
}

var worked = map[string]func(a, b float64) float64{
	"EX8": func(v, p float64) float64 { return WortExtractKg(malt.Plato(p), v) },
	"EX9": func(x, e float64) float64 { return MaltKg(x, malt.ExtractAsIs(e), 0.95) },
	"AL1": func(o, a float64) float64 { return float64(RealExtract(malt.Plato(o), malt.Plato(a))) },
	"AL2": func(o, r float64) float64 { return 100 * AlcoholByMass(malt.Plato(o), malt.Plato(r)) },
	"AL3": func(a, s float64) float64 { return AlcoholByVolume(a, malt.Gravity(s)) },
	"AL4": func(o, a float64) float64 { return 100 * ApparentAttenuation(malt.Plato(o), malt.Plato(a)) },
	"AL5": func(o, r float64) float64 { return 100 * RealAttenuation(malt.Plato(o), malt.Plato(r)) },
	"AL6": func(a, r float64) float64 { return float64(OriginalExtract(a/100, malt.Plato(r))) },
	"SY1": func(e, f float64) float64 { return 100 * float64(FermentableExtract(malt.ExtractAsIs(e/100), f/100)) },
	"SY2": func(f, _ float64) float64 { return SpiritLTonne(malt.ExtractAsIs(f / 100)) },
}

func TestWorkedExamples(t *testing.T) {
	f, err := os.Open("testdata/worked.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		var x [4]float64
		for i := range x {
			if x[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		formula, ok := worked[row[0]]
		if !ok {
			t.Errorf("%s has no formula", row[0])
			continue
		}
		near(t, row[0], formula(x[0], x[1]), x[2], x[3])
	}
	if len(rows)-1 != len(worked) {
		t.Errorf("%d examples for %d formulas", len(rows)-1, len(worked))
	}
}

// Balling: 1 g of ethanol, 0.9565 g of carbon dioxide and 0.11 g of yeast make
// up the 2.0665 g of extract. The carbon dioxide is also what the molar masses
// of the two gases give: 44.01 over 46.07.
func TestBallingClosesItsMass(t *testing.T) {
	near(t, "sum", 1+gasPerAlcohol+yeastPerAlcohol, extractPerAlcohol, 1e-12)
	// Balling weighed it; stoichiometry gives 0.9553.
	near(t, "carbon dioxide per ethanol", gasPerAlcohol, 44.01/46.07, 0.002)
}

// What the account says of the three that extract becomes, in kilograms.
func TestFermentedExtractKeepsItsMass(t *testing.T) {
	near(t, "ethanol", EthanolKg(2.0665), 1, 1e-12)
	near(t, "carbon dioxide", CarbonDioxideKg(2.0665), 0.9565, 1e-12)
	near(t, "all three", EthanolKg(500)+CarbonDioxideKg(500)+YeastKg(500), 500, 1e-9)
}

// Alcohol, real extract and original extract are one balance: going round it
// returns the wort.
func TestOriginalExtractComesBack(t *testing.T) {
	for oe := malt.Plato(4); oe <= 20; oe += 2 {
		for attenuation := 0.0; attenuation < 0.9; attenuation += 0.15 {
			re := RealExtract(oe, ApparentExtract(oe, attenuation))
			// The rounded coefficient 0.010665 is 1.0665/100; the balance is exact.
			near(t, fmt.Sprint(oe, " °P"), float64(OriginalExtract(AlcoholByMass(oe, re), re)), float64(oe), 1e-9)
		}
	}
}

func TestWortBackToMalt(t *testing.T) {
	hl := WortHLTonne(0.7618, 12, 0.95)
	near(t, "malt for its own wort", MaltKg(WortExtractKg(12, hl), 0.7618, 0.95), 1000, 1e-9)
	// 1000 · 0.7618 · 0.95 / 12.558 by hand.
	near(t, "wort of a tonne", hl, 57.63, 0.005)
}

func constants(t *testing.T, values map[string]float64) Constants {
	t.Helper()
	var c Constants
	if err := odds.Fill(&c, Parameters, values); err != nil {
		t.Fatal(err)
	}
	return c
}

func analysis(powerWK float64) malt.Analysis {
	return malt.Analysis{
		malt.Moisture:       {Value: odds.WithDeviation(0.045, 0.001, odds.Measured), Basis: malt.WetBasis},
		malt.ExtractFine:    {Value: odds.WithDeviation(0.822, 0.003, odds.Measured), Basis: malt.Dry},
		malt.DiastaticPower: {Value: odds.Alone(powerWK, odds.Measured), Basis: malt.ScaleWK},
	}
}

func TestProspect(t *testing.T) {
	p := Of(analysis(300), 12, constants(t, nil))
	near(t, "as-is", p.ExtractAsIs.Mid, 0.822*0.955, 1e-12)
	near(t, "spirit", p.SpiritLTonne.Mid, 413.9, 0.1) // 78.5 % as-is, the worked example
	// Pale malt: about 410 L/t is what the market speaks of.
	if !(p.SpiritLTonne.Low < 410 && 410 < p.SpiritLTonne.High) {
		t.Errorf("spirit %+v does not hold 410", p.SpiritLTonne)
	}
	for name, v := range map[string]odds.Value{
		"as-is": p.ExtractAsIs, "dry": p.ExtractDry, "wort": p.WortHLTonne, "attenuation": p.AttenuationLimit,
		"final": p.FinalPlato, "alcohol": p.AlcoholByVolume, "spirit": p.SpiritLTonne,
	} {
		if !(v.Low < v.Mid && v.Mid < v.High) {
			t.Errorf("%s: %+v", name, v)
		}
	}
	if p.AttenuationLimit.Standing != odds.Weak || p.AlcoholByVolume.Standing != odds.Weak {
		t.Error("the limit is a judgement, and so is what stands on it")
	}
	near(t, "alcohol", p.AlcoholByVolume.Mid, AlcoholByVolume(AlcoholByMass(12, RealExtract(12, malt.Plato(p.FinalPlato.Mid))), malt.Plato(p.FinalPlato.Mid).Gravity()), 1e-12)
}

func TestProspectWithoutEnzymesOrExtract(t *testing.T) {
	p := Of(analysis(100), 12, constants(t, nil))
	if p.AttenuationLimit.Known() || p.SpiritLTonne.Known() || p.FinalPlato.Known() || p.AlcoholByVolume.Known() {
		t.Error("a malt short of enzymes has no attenuation from a table of pale malts")
	}
	if !p.WortHLTonne.Known() {
		t.Error("its extract still makes wort")
	}
	a := analysis(100)
	a[malt.AttenuationLimit] = malt.Result{Value: odds.Alone(0.72, odds.Measured)}
	near(t, "what the laboratory found comes first", Of(a, 12, constants(t, nil)).AttenuationLimit.Mid, 0.72, 0)
	delete(a, malt.ExtractFine)
	if p := Of(a, 12, constants(t, nil)); p.ExtractAsIs.Known() || p.WortHLTonne.Known() || p.SpiritLTonne.Known() {
		t.Error("no figures without an extract")
	}
}

func TestOwnValueMovesTheBand(t *testing.T) {
	p := Of(analysis(300), 12, constants(t, map[string]float64{"brew.attenuation.limit": 0.85}))
	near(t, "middle", p.AttenuationLimit.Mid, 0.85, 0)
	near(t, "low", p.AttenuationLimit.Low, 0.825, 1e-12)
}

func TestParametersAreInOrder(t *testing.T) {
	for _, p := range Parameters {
		if !(p.Low < p.Default && p.Default < p.High) || p.Source == "" || p.Mark == "" || p.Unit == "" {
			t.Errorf("%+v", p)
		}
	}
}

func TestOutsideTheRangeIsNaN(t *testing.T) {
	for i, x := range []float64{
		float64(RealExtract(21, 2)), float64(RealExtract(10, 11)), AlcoholByMass(-1, -2), AlcoholByMass(10, 11),
		float64(OriginalExtract(-0.01, 4)), ApparentAttenuation(0, 0), RealAttenuation(0, 0), RealAttenuation(10, 11),
		WortExtractKg(21, 1), MaltKg(1, 0, 0.9), MaltKg(1, 0.7, 0), WortHLTonne(0.7, 0, 0.9), WortHLTonne(0.7, 25, 0.9),
	} {
		if !math.IsNaN(x) {
			t.Errorf("case %d gives %v, want NaN", i, x)
		}
	}
}
