package silo

import (
	"math"
	"math/rand/v2"
	"testing"

	"awn/odds"
)

var trendSets = map[string][]Look{
	"steady":  looks([]float64{0, 42, 84, 126, 168}, []int{197, 196, 198, 195, 197}, 200),
	"falling": looks([]float64{0, 30, 61, 92, 120, 150}, []int{394, 392, 389, 384, 380, 371}, 400),
	"noisy":   looks([]float64{0, 14, 28, 42, 56, 70, 84}, []int{98, 95, 99, 91, 97, 92, 98}, 100),
	"rising":  looks([]float64{0, 7, 14, 21, 28}, []int{60, 71, 83, 90, 95}, 100),
	"two":     looks([]float64{0, 60}, []int{388, 372}, 400),
}

func looks(days []float64, hits []int, of int) []Look {
	out := make([]Look, len(days))
	for i := range days {
		out[i] = Look{days[i], odds.Proportion{Hits: hits[i], Of: of}}
	}
	return out
}

func relative(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) && math.IsNaN(want) {
		return
	}
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)+1e-9) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// Against R's glm and root finding: 1e-6 relative, both solved to 1e-10 and
// printed with nine digits.
func TestTrendAgainstR(t *testing.T) {
	for _, row := range rows(t, "probit_trend.csv") {
		name := row["set"]
		f, ok := Fit(trendSets[name])
		if !ok {
			t.Fatal(name)
		}
		for column, got := range map[string]float64{
			"day0": f.At0, "per_day": f.PerDay, "se0": math.Sqrt(f.v00), "se_per_day": math.Sqrt(f.v11), "cov": f.v01,
			"mid95": f.Reaches(0.95).Mid, "mid90": f.Reaches(0.90).Mid, "low90": f.Reaches(0.90).Low, "high90": f.Reaches(0.90).High,
		} {
			relative(t, name+" "+column, got, num(t, row[column]), 1e-6)
		}
		if len(trendSets[name]) > 2 {
			relative(t, name+" scatter", f.Scatter*float64(f.Looks-2), num(t, row["chi2"]), 1e-6)
		}
	}
}

func TestFallingIsToldFromNoise(t *testing.T) {
	for name, want := range map[string]Going{"steady": Steady, "falling": Falling, "noisy": NotShown, "rising": Rising, "two": Falling} {
		f, _ := Fit(trendSets[name])
		if got := f.Going(); got != want {
			t.Errorf("%s: %v, want %v (chance of falling %.3f)", name, got, want, f.FallingChance())
		}
	}
	many := looks([]float64{0, 60, 120, 180}, []int{3920, 3922, 3919, 3921}, 4000)
	if f, _ := Fit(many); f.Going() != Steady {
		t.Errorf("four counts of 4000 alike: %v", f.Going())
	}
}

// Lots that truly fall or stand still, drawn over and over: a lot that stands
// still is called falling in about one case of twenty, and the limits of the
// day of 90 % hold it in about nine of ten. 2000 draws place either within
// 0.015 (two standard errors of a share of 0.05 to 0.1).
func TestTrendOverDrawnLots(t *testing.T) {
	const draws = 2000
	r := rand.New(rand.NewPCG(3, 1))
	draw := func(perDay float64) []Look {
		out := make([]Look, 6)
		for i := range out {
			out[i].Day, out[i].Count.Of = float64(30*i), 400
			p := odds.NormalChance(2.2 + perDay*out[i].Day)
			for range 400 {
				if r.Float64() < p {
					out[i].Count.Hits++
				}
			}
		}
		return out
	}
	alarms, held := 0, 0
	for range draws {
		if f, ok := Fit(draw(0)); ok && f.Going() == Falling {
			alarms++
		}
		f, ok := Fit(draw(-0.006))
		truth := (2.2 - Probits(0.90)) / 0.006
		if d := f.Reaches(0.90); ok && d.Low <= truth && (truth <= d.High || math.IsNaN(d.High)) {
			held++
		}
	}
	if share := float64(alarms) / draws; share > 0.065 {
		t.Errorf("a lot that stands still is called falling in %.3f of cases", share)
	}
	if share := float64(held) / draws; share < 0.885 {
		t.Errorf("the limits hold the day of 90 %% in %.3f of cases", share)
	}
}

func TestTrendsThatCannotBe(t *testing.T) {
	for name, l := range map[string][]Look{
		"none": nil, "one day": looks([]float64{3, 3}, []int{90, 91}, 100), "one look": looks([]float64{3}, []int{90}, 100),
		"too many": looks([]float64{0, 3}, []int{90, 101}, 100), "no day": looks([]float64{0, math.NaN()}, []int{90, 91}, 100),
	} {
		if _, ok := Fit(l); ok {
			t.Errorf("%s: a line all the same", name)
		}
	}
	// Nothing ever failed: no fall is shown, and nothing is infinite.
	f, ok := Fit(looks([]float64{0, 30, 60}, []int{100, 100, 100}, 100))
	if !ok || f.Going() == Falling || math.Abs(f.PerDay) > 1e-6 || !math.IsNaN(f.Reaches(0.9).High) {
		t.Errorf("%+v %v", f, ok)
	}
	if v := f.On(30); !(v.Low > 0.95 && v.High <= 1) {
		t.Errorf("%+v", v)
	}
	// Failed only on the last day.
	if f, ok := Fit(looks([]float64{0, 30, 60}, []int{100, 100, 80}, 100)); !ok || f.Going() != Falling || math.IsNaN(f.Reaches(0.9).Mid) {
		t.Errorf("%+v %v", f, ok)
	}
	if d := f.Reaches(1); !math.IsNaN(d.Mid) {
		t.Error("a day on which all live")
	}
}
