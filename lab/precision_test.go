package lab

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"awn/odds"
)

func TestRangeTolerance(t *testing.T) {
	f, err := os.Open("testdata/germ_tolerance.csv")
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
	cell := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	const printed = 0.01
	for _, row := range rows[1:] {
		mean := cell(row[0]) / 100
		four := 100 * RangeTolerance(mean, 4, 100)
		near(t, row[0]+" % in 4", four, cell(row[1]), printed)
		near(t, row[0]+" % in 3", 100*RangeTolerance(mean, 3, 100), cell(row[2]), printed)
		near(t, row[0]+" % in 2", 100*RangeTolerance(mean, 2, 100), cell(row[3]), printed)
		if row[4] != "" {
			// The rules print whole per cent and keep 5 as their least at 99 %.
			near(t, row[0]+" % in the rules", four, cell(row[4]), 1.05)
		}
	}
}

func TestKolbachReproducibility(t *testing.T) {
	soluble, ok := FindPrecision("soluble_nitrogen", "malt", "combustion, Congress wort")
	total, ok2 := FindPrecision("nitrogen", "malt", "combustion")
	if !ok || !ok2 {
		t.Fatal("the table lacks the nitrogen methods")
	}
	sn, tn := 0.00643, 0.0166
	got := RatioReproducibility(sn, soluble.Reproducibility(sn), tn, total.Reproducibility(tn))
	near(t, "Kolbach index between laboratories", 100*got, 8.6, 0.05)
}

func TestPrecisionRange(t *testing.T) {
	dp, ok := FindPrecision("diastatic_power", "malt", "")
	if !ok {
		t.Fatal("no precision of diastatic power")
	}
	near(t, "at the low end", dp.Reproducibility(200), 51, 0)
	near(t, "at the high end", dp.Reproducibility(600), 110, 1e-12)
	near(t, "half way", dp.Reproducibility(400), 80.5, 1e-12)
	if !math.IsNaN(dp.Reproducibility(199)) || !math.IsNaN(dp.Repeatability(300)) || dp.Result(150).Banded() {
		t.Error("no figure outside the range, nor where none was published")
	}
	if _, ok := FindPrecision("friability", "malt", ""); ok {
		t.Error("no precision of friability is known")
	}
	for _, p := range Precisions {
		if !(p.From < p.To) || !(p.R95.AtFrom > 0 && p.R95.AtTo > 0) || p.Source == "" {
			t.Errorf("%+v", p)
		}
		// Two laboratories never agree better than one with itself.
		if p.Repeat95.AtFrom > p.R95.AtFrom || p.Repeat95.AtTo > p.R95.AtTo {
			t.Errorf("%s by %s: r95 above R95", p.Analyte, p.Method)
		}
	}
}

// ISO 5725 gives the limit as 2.8 standard deviations; recalled.
func TestDeviationOfLimit(t *testing.T) {
	near(t, "limit of one deviation", 1/Deviation(1), 2.8, 0.05)
	v := Precisions[0].Result(0.14)
	near(t, "band is centred", v.Low+v.High, 0.28, 1e-12)
	if v.Standing != odds.Measured {
		t.Errorf("standing %s", v.Standing)
	}
}

func TestNitrogen(t *testing.T) {
	near(t, "protein of 1.664 %", 100*Protein(0.01664), 10.40, 1e-9)
	near(t, "round trip", Nitrogen(Protein(0.0173)), 0.0173, 1e-15)
}

func TestMethodsAreUnique(t *testing.T) {
	seen := map[[2]string]bool{}
	for _, m := range Methods {
		key := [2]string{m.Body, m.Number}
		if seen[key] {
			t.Errorf("%s %s stands twice", m.Body, m.Number)
		}
		seen[key] = true
		if got, ok := FindMethod(m.Body, m.Number); !ok || got != m {
			t.Errorf("%v is not found", key)
		}
		if m.Subject == "" || (m.Basis != "" && m.Basis != "asis" && m.Basis != "dm") || (m.Mark != odds.Sourced && m.Mark != odds.Recalled) {
			t.Errorf("%+v", m)
		}
	}
	if _, ok := FindMethod("EBC", "99.9"); ok {
		t.Error("found a method that is not")
	}
}
