package barley_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"awn/barley"
	"awn/odds"
	"awn/unit"
)

func lot(sieve [barley.SieveClasses]float64) *barley.Lot {
	l := barley.Lot{
		Moisture: odds.Exact(0.12, odds.Measured), KernelMassMg: odds.Exact(44, odds.Measured),
		Capacity: odds.Exact(0.98, odds.Measured), Dormant: odds.Exact(0.03, odds.Measured), Sieve: sieve,
	}
	return &l
}

// Fractions of 60, 30, 8 and 2 per cent by mass at 50, 40, 30 and 20 mg are
// 52, 32, 11 and 4 per cent by number: worked by hand.
func ExampleClasses() {
	classes, err := barley.Classes(lot([barley.SieveClasses]float64{0.60, 0.30, 0.08, 0.02}), barley.UsualQuantiles)
	if err != nil {
		fmt.Println(err)
		return
	}
	var number [barley.SieveClasses]float64
	mean, living := 0.0, 0.0
	for _, c := range classes {
		number[c.Sieve] += c.Number
		mean += c.Number * c.KernelDryMg
		if !c.Idle {
			living += c.Number
		}
	}
	fmt.Printf("%d classes, by number %.3f\n", len(classes), number)
	fmt.Printf("mean kernel %.2f mg dry, growing %.2f\n", mean, living)
	// Output:
	// 24 classes, by number [0.518 0.324 0.115 0.043]
	// mean kernel 38.72 mg dry, growing 0.95
}

func TestClassesRefuse(t *testing.T) {
	if _, err := barley.Classes(lot([barley.SieveClasses]float64{}), 5); err == nil {
		t.Error("empty sieves make classes")
	}
	if _, err := barley.Classes(lot([barley.SieveClasses]float64{1, -0.1}), 5); err == nil {
		t.Error("a negative sieve fraction makes classes")
	}
	if _, err := barley.Classes(lot([barley.SieveClasses]float64{1}), 0); err == nil {
		t.Error("no quantiles make classes")
	}
	unknown := lot([barley.SieveClasses]float64{1})
	unknown.Capacity = barley.Unknown()
	if _, err := barley.Classes(unknown, 5); err == nil {
		t.Error("an unknown capacity makes classes")
	}
}

func TestADeadLotIsAllIdle(t *testing.T) {
	dead := lot([barley.SieveClasses]float64{1})
	dead.Capacity = odds.Exact(0, odds.Measured)
	classes, err := barley.Classes(dead, 5)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range classes {
		if c.Number != 0 && !c.Idle {
			t.Errorf("dead lot has growing class %+v", c)
		}
	}
}

func TestCastWeighsWhatIsCast(t *testing.T) {
	columns := []barley.Column{{Share: 0.25, Depth: 0.9, Packing: 1}, {Share: 0.5, Depth: 1, Packing: 1}, {Share: 0.25, Depth: 1.1, Packing: 1.2}}
	g, err := barley.Cast(lot([barley.SieveClasses]float64{0.6, 0.3, 0.1, 0}), 5, columns, 10000, 9)
	if err != nil {
		t.Fatal(err)
	}
	if d := g.TotalDryKg() - 8800; math.Abs(d) > 1e-9 {
		t.Errorf("dry matter off by %g kg", d)
	}
	if d := g.TotalWaterKg() - 1200; math.Abs(d) > 1e-9 {
		t.Errorf("water off by %g kg", d)
	}
	sieved := make([]float64, barley.SieveClasses)
	for cell := range g.Cells() {
		for i, m := range g.Of(g.DryKg, cell) {
			sieved[g.Classes[i].Sieve] += m / 8800
		}
	}
	for i, want := range []float64{0.6, 0.3, 0.1, 0} {
		if math.Abs(sieved[i]-want) > 1e-12 {
			t.Errorf("sieve fraction %d by mass %g, want %g", i, sieved[i], want)
		}
	}
}

func heatJ(g *barley.Grain) float64 {
	sum := 0.0
	for cell := range g.Cells() {
		sum += g.CellDryKg(cell) * barley.GrainEnthalpy(unit.Celsius(g.TempC[cell]), unit.DryBasis(g.CellMoistureDB(cell)))
	}
	return sum
}

// weighted is the sum of a quantity over dry matter.
func weighted(g *barley.Grain, of []float64) float64 {
	sum := 0.0
	for i, m := range g.DryKg {
		sum += m * of[i]
	}
	return sum
}

func TestRemapConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unitRange := rapid.Float64Range(0.01, 1)
		columns := make([]barley.Column, rapid.IntRange(1, 3).Draw(t, "columns"))
		for i := range columns {
			columns[i] = barley.Column{Share: 1 / float64(len(columns)), Depth: unitRange.Draw(t, "depth"), Packing: 1}
		}
		classes := make([]barley.Class, rapid.IntRange(1, 4).Draw(t, "classes"))
		src := barley.NewGrain(classes, columns, rapid.IntRange(1, 7).Draw(t, "from"))
		for cell := range src.Cells() {
			src.TempC[cell] = rapid.Float64Range(-15, 90).Draw(t, "temp")
			src.WaterKg[cell] = rapid.Float64Range(0, 5).Draw(t, "water")
			src.Heat[cell] = barley.Green()
			src.Heat[cell].ColourEBC = 3
		}
		for i := range src.DryKg {
			src.DryKg[i] = unitRange.Draw(t, "dry")
			src.AgeD[i] = 5 * unitRange.Draw(t, "age")
			src.ThermalTimeCH[i] = 900 * unitRange.Draw(t, "hours")
		}
		mix := rapid.Bool().Draw(t, "mix")
		dst := barley.NewGrain(make([]barley.Class, len(classes)), columns, rapid.IntRange(1, 7).Draw(t, "to"))
		if err := barley.Remap(dst, src, mix); err != nil {
			t.Fatal(err)
		}
		same := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-11*(math.Abs(want)+1) {
				t.Errorf("%s went from %g to %g", what, want, got)
			}
		}
		same("dry matter", dst.TotalDryKg(), src.TotalDryKg())
		same("water", dst.TotalWaterKg(), src.TotalWaterKg())
		same("heat", heatJ(dst), heatJ(src))
		same("age", weighted(dst, dst.AgeD), weighted(src, src.AgeD))
		same("thermal time", weighted(dst, dst.ThermalTimeCH), weighted(src, src.ThermalTimeCH))
		same("colour", dst.Heat[0].ColourEBC, 3)
	})
}

func TestRemapUnmixedKeepsTopAndBottom(t *testing.T) {
	column := []barley.Column{{Share: 1, Depth: 1, Packing: 1}}
	src := barley.NewGrain(make([]barley.Class, 1), column, 2)
	src.DryKg[0], src.DryKg[1] = 1, 1
	src.AgeD[0], src.AgeD[1] = 3, 4
	dst := barley.NewGrain(make([]barley.Class, 1), column, 6)
	if err := barley.Remap(dst, src, false); err != nil {
		t.Fatal(err)
	}
	for layer, want := range []float64{3, 3, 3, 4, 4, 4} {
		if math.Abs(dst.AgeD[layer]-want) > 1e-12 {
			t.Errorf("layer %d has age %g, want %g", layer, dst.AgeD[layer], want)
		}
	}
	if err := barley.Remap(dst, barley.NewGrain(make([]barley.Class, 2), column, 1), false); err == nil {
		t.Error("two classes fit into one")
	}
}
