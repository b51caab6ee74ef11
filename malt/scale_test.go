package malt

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"awn/unit"
)

// A Congress wort of 8.65 °P from malt of 4.5 % moisture.
func ExampleCongressExtract() {
	asIs := CongressExtract(8.65, 0.045)
	dry := asIs.Dry(0.045)
	fmt.Printf("%.2f %% as-is, %.2f %% dm, %.1f L°/kg dm, %.2f ppg\n", 100*asIs, 100*dry, dry.LitreDegrees(), dry.Points())
	// Output: 76.18 % as-is, 79.77 % dm, 308.3 L°/kg dm, 36.94 ppg
}

func ExampleGravity_Plato() {
	fmt.Printf("%.2f °P\n", Gravity(1.048).Plato())
	// Output: 11.91 °P
}

func ExampleLintner_WindischKolbach() {
	fmt.Printf("%.0f WK\n", Lintner(100).WindischKolbach())
	// Output: 334 WK
}

// conversions are the worked examples by the letters of their id; in and out in
// the units printed there.
var conversions = map[string]func(a, b float64) float64{
	"EX1": func(p, m float64) float64 { return 100 * float64(CongressExtract(Plato(p), unit.WetBasis(m/100))) },
	"EX2": func(e, m float64) float64 { return 100 * float64(ExtractAsIs(e/100).Dry(unit.WetBasis(m/100))) },
	"EX3": func(f, c float64) float64 {
		return 100 * float64(FineCoarseDifference(ExtractDry(f/100), ExtractDry(c/100)))
	},
	"EX4": func(s, _ float64) float64 { return float64(HotWaterExtract(Gravity(s))) },
	"EX5": func(e, _ float64) float64 { return float64(ExtractDry(e / 100).LitreDegrees()) },
	"EX6": func(l, _ float64) float64 { return 100 * float64(FineOfHotWater(LitreDegrees(l))) },
	"EX7": func(e, _ float64) float64 { return float64(ExtractDry(e / 100).Points()) },
	"PL2": func(s, _ float64) float64 { return float64(Gravity(s).Plato()) },
	"PL6": func(p, _ float64) float64 { return float64(Plato(p).Gravity()) },
	"NI1": func(n, e float64) float64 { return 100 * OfMalt(n, MaltGLitre(8.65, ExtractDry(e/100))) },
	"NI2": func(s, n float64) float64 { return 100 * Kolbach(s, n) },
	"NI3": func(c, e float64) float64 { return 1e5 * OfMalt(c, MaltGLitre(8.65, ExtractDry(e/100))) },
	"DP1": func(l, _ float64) float64 { return float64(Lintner(l).WindischKolbach()) },
	"DP2": func(w, _ float64) float64 { return float64(WindischKolbach(w).Lintner()) },
	"CO1": func(a, _ float64) float64 { return float64(ColourSRMOfAbsorbance(a)) },
	"CO2": func(a, _ float64) float64 { return float64(ColourEBCOfAbsorbance(a)) },
	"CO3": func(c, _ float64) float64 { return float64(ColourSRM(c).EBC()) },
	"CO4": func(l, _ float64) float64 { return float64(Lovibond(l).SRM()) },
	"CO5": func(c, _ float64) float64 { return float64(ColourEBC(c).Lovibond()) },
	"CO6": func(l, _ float64) float64 { return float64(Lovibond(l).EBC()) },
	"MO5": func(x, m float64) float64 { return 100 * float64(ExtractAsIs(x/100).Dry(unit.WetBasis(m/100))) },
}

func TestWorkedConversions(t *testing.T) {
	ids, rows := table(t, "conversions.csv")
	used := map[string]bool{}
	for i, row := range rows {
		name := strings.TrimRight(ids[i], "bcd")
		convert, ok := conversions[name]
		if !ok {
			t.Errorf("%s has no formula", ids[i])
			continue
		}
		used[name] = true
		near(t, ids[i], convert(row["in1"], row["in2"]), row["out"], row["tolerance"])
	}
	if len(used) != len(conversions) {
		t.Errorf("%d formulas, %d with a worked example", len(conversions), len(used))
	}
}

func TestGravityTable(t *testing.T) {
	_, rows := table(t, "gravity.csv")
	usda := 0
	for _, row := range rows {
		p := Plato(row["plato"])
		what := fmt.Sprint(row["plato"], " °P")
		near(t, what, float64(p.Gravity()), row["gravity"], 0.5e-5)
		near(t, what+" by the second fit", float64(p.Gravity()), row["gravity_fit2"], 1e-4)
		near(t, what+" in g/L", p.ExtractGLitre(), row["extract_g_l"], 0.5e-3)
		if want, ok := row["gravity_usda"]; ok {
			near(t, what+" by the USDA", float64(p.Gravity()), want, 0.5e-5)
			usda++
		}
	}
	if usda != 4 {
		t.Errorf("%d rows of the USDA table, want 4", usda)
	}
}

func TestPlatoTable(t *testing.T) {
	_, rows := table(t, "plato.csv")
	for _, row := range rows {
		s := Gravity(row["gravity"])
		what := fmt.Sprintf("gravity %.3f", s)
		// The fit reads -0.003 at 1.000, where water is 0.
		near(t, what, float64(s.Plato()), math.Max(0, row["plato"]), 0.5e-4)
		near(t, what+" by the second fit", float64(s.Plato()), row["plato_fit2"], 0.0061)
	}
}

func TestRoundTrips(t *testing.T) {
	for p := Plato(0.01); p < 20; p += 0.37 {
		near(t, "Plato", float64(p.Gravity().Plato()), float64(p), 1e-9)
	}
	for _, e := range []ExtractDry{0.55, 0.78, 0.84} {
		for _, w := range []unit.WetBasis{0, 0.04, 0.12} {
			near(t, "extract", float64(e.AsIs(w).Dry(w)), float64(e), 1e-14)
			near(t, "Congress wort", float64(CongressExtract(CongressWort(e.AsIs(w), w), w)), float64(e.AsIs(w)), 1e-14)
			near(t, "degrees dry", float64(e.LitreDegrees().Dry()), float64(e), 1e-14)
			near(t, "degrees as-is", float64(e.AsIs(w).LitreDegrees().AsIs()), float64(e.AsIs(w)), 1e-14)
			near(t, "points", float64(e.AsIs(w).Points()), float64(e.Points())*float64(1-w), 1e-12)
		}
	}
	for c := 1.0; c < 1500; c *= 1.7 {
		near(t, "colour", float64(ColourEBC(c).SRM().EBC()), c, 1e-12*c)
		// Two published lines that are not each other's inverse.
		near(t, "glass", float64(Lovibond(c).EBC().Lovibond()), c, 0.11+0.007*c)
		near(t, "power", float64(WindischKolbach(c).Lintner().WindischKolbach()), c, 1e-10)
	}
	m := MaltGLitre(8.65, 0.798)
	near(t, "wort and malt", OfWort(OfMalt(150, m), m), 150, 1e-10)
}

// The two ways from glass to EBC agree within 0.6 % from 10 to 500 °L and are
// 6 % apart at 2 °L, as published.
func TestGlassTwoWays(t *testing.T) {
	for l := Lovibond(10); l <= 500; l += 10 {
		near(t, fmt.Sprint(l, " °L"), float64(l.EBC()/l.SRM().EBC()), 1, 0.0065)
	}
	near(t, "2 °L", float64(Lovibond(2).EBC()/Lovibond(2).SRM().EBC()), 1.06, 0.02)
}

func TestOutsideTheRangeIsNaN(t *testing.T) {
	nan := unit.WetBasis(math.NaN())
	for i, x := range []float64{
		float64(Gravity(0.999).Plato()), float64(Gravity(1.0831).Plato()), float64(Plato(-0.1).Gravity()), float64(Plato(20.1).Gravity()),
		Plato(21).KgLitre(), Plato(math.NaN()).ExtractGLitre(),
		float64(CongressExtract(-1, 0.04)), float64(CongressExtract(8, 1)), float64(CongressExtract(8, nan)), float64(CongressWort(1.1, 0.04)),
		float64(ExtractAsIs(0.7).Dry(1)), float64(ExtractAsIs(0.7).Dry(-0.1)), float64(ExtractDry(0.7).AsIs(nan)),
		float64(HotWaterExtract(0.9)), float64(FineOfHotWater(250)), float64(FineOfHotWater(330)),
		float64(Lovibond(0.1).EBC()), float64(Lovibond(0.1).SRM()), float64(ColourEBC(-1).Lovibond()),
		float64(Lintner(4).WindischKolbach()), float64(WindischKolbach(-1).Lintner()),
		MaltGLitre(8, 0), MaltGLitre(8, 1.1), Kolbach(0.04, 0),
	} {
		if !math.IsNaN(x) {
			t.Errorf("case %d gives %v, want NaN", i, x)
		}
	}
}
