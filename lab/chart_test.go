package lab

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"awn/odds"
)

// column reads the numbers of a table, remarks and head left out.
func column(t *testing.T, name string) [][]float64 {
	t.Helper()
	f, err := os.Open(name)
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
	var out [][]float64
	for _, row := range rows[1:] {
		var x []float64
		for _, cell := range row {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			x = append(x, v)
		}
		out = append(out, x)
	}
	return out
}

func TestRangeConstants(t *testing.T) {
	for _, row := range column(t, "testdata/range.csv") {
		near(t, "d2", RangeMean(int(row[0])), row[1], 1e-6)
		near(t, "d3", RangeDeviation(int(row[0])), row[2], 1e-6)
	}
	near(t, "a range of two by the closed form", odds.SpanChance(1.5, 2), 2*odds.NormalChance(1.5/math.Sqrt2)-1, 1e-9)
	// The printed D4, recalled; three decimals.
	near(t, "D4 of 2", RangeLimit(1, 2), 3.267, 6e-4)
	near(t, "D4 of 5", RangeLimit(1, 5), 2.114, 6e-4)
	if !math.IsNaN(RangeMean(1)) || !math.IsNaN(RangeDeviation(26)) {
		t.Error("a range of one reading, or of 26, has a figure")
	}
}

// The flow rates of NIST e-Handbook, 6.3.2.2, with its printed limits. Recalled.
func TestIndividualsChart(t *testing.T) {
	x := []float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}
	moving := MovingRange(x)
	near(t, "mean moving range", moving, 1.8778, 1e-4) // printed to four decimals
	centre, sigma := plainMean(x), FromRange(moving, 2)
	// Printed with 1.128 for d2: four in ten thousand of 5.
	near(t, "upper limit", centre+Action*sigma, 55.8041, 2e-3)
	near(t, "lower limit", centre-Action*sigma, 45.8159, 2e-3)
	holed := slices.Insert(slices.Clone(x), 4, math.NaN())
	near(t, "a missing reading is passed over", MovingRange(holed), moving, 0)
}

// Champ and Woodall 1987, exact results for control charts with runs rules, table
// of average run lengths with no shift. Recalled; two decimals are printed.
func TestFalseAlarms(t *testing.T) {
	for _, c := range []struct {
		rules []Rule
		want  float64
	}{
		{[]Rule{BeyondAction}, 370.40}, {[]Rule{BeyondAction, TwoOfThree}, 225.44}, {[]Rule{BeyondAction, FourOfFive}, 166.05},
		{[]Rule{BeyondAction, EightInRow}, 152.73}, {Rules(), 91.75},
		{[]Rule{EightInRow}, 255}, // 2^8 - 1: the wait for eight alike of a fair coin, with the first toss free
	} {
		near(t, string(c.rules[len(c.rules)-1]), FalseAlarms(c.rules...), c.want, 0.006)
	}
	if !math.IsNaN(FalseAlarms()) {
		t.Error("no rule at all has a rate")
	}
}

func TestBroken(t *testing.T) {
	z := []float64{0.1, 2.3, math.NaN(), -0.2, 2.4, 3.2, -0.1, -0.2, -0.3, -0.4, -0.5, -0.1, -0.2, -0.3}
	got := Broken(z)
	if want := []Rule{TwoOfThree}; !slices.Equal(got[4], want) {
		t.Errorf("two of three with a hole between: %v", got[4])
	}
	if want := []Rule{BeyondAction, TwoOfThree}; !slices.Equal(got[5], want) {
		t.Errorf("beyond action: %v", got[5])
	}
	if want := []Rule{EightInRow}; !slices.Equal(got[13], want) || len(got[12]) != 0 {
		t.Errorf("eight in a row: %v, before it %v", got[13], got[12])
	}
}

// The tabular cumulative sum of NIST e-Handbook, 6.3.2.3: target 325, k 0.3175.
// Recalled; printed to two decimals.
func TestCusum(t *testing.T) {
	x := []float64{324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350}
	up := []float64{0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04}
	down := map[int]float64{1: 0.01, 2: 0, 3: 0.33, 6: 0.56, 7: 0.72, 8: 0.17, 9: 0.25, 10: 0.31}
	z := make([]float64, len(x))
	for i := range x {
		z[i] = x[i] - 325
	}
	c := NewCusum(z, 0.3175)
	for i := range x {
		near(t, "above", c.Up[i], up[i], 0.0051)
		if want, ok := down[i]; ok {
			near(t, "below", c.Down[i], want, 0.0051)
		}
	}
	// The first 9 rows of the chemical process concentration table of Montgomery
	// and Runger 2003, table 16-8 (target 99, K 1), read.
	z = []float64{102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0}
	for i := range z {
		z[i] -= 99
	}
	c = NewCusum(z, 1)
	for i, want := range []float64{2, 0, 0, 0, 2, 0.5, 0, 0, 0} {
		near(t, "concentration above", c.Up[i], want, 1e-9)
	}
	for i, want := range []float64{0, 3.2, 2.9, 2.5, 0, 0, 0, 0.3, 0} {
		near(t, "concentration below", c.Down[i], want, 1e-9)
	}
}

func TestCusumRunLength(t *testing.T) {
	// Montgomery 2009, section 9.1: 469.1 with no shift by this formula (465 exact),
	// 10.3 at one deviation. Recalled.
	near(t, "no shift", CusumRunLength(0, Allowance, Decision), 469.1, 0.1)
	near(t, "one deviation", CusumRunLength(1, Allowance, Decision), 10.34, 0.02)
	near(t, "either side", CusumRunLength(-1, Allowance, Decision), CusumRunLength(1, Allowance, Decision), 1e-12)
}

// The weighted means of NIST e-Handbook, 6.3.2.4: centre 50, weight 0.3, s 2.0539.
// Recalled; two decimals are printed.
func TestWeighted(t *testing.T) {
	x := []float64{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}
	want := []float64{50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99}
	for i, w := range Weighted(x, 50, 0.3) {
		near(t, "weighted mean", w, want[i], 0.0051)
	}
	near(t, "upper limit", 50+3*2.0539*WeightedDeviation(0.3, 1000), 52.5884, 1e-3)
	near(t, "the first of weight 1", WeightedDeviation(1, 1), 1, 0)
}
