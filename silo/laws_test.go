package silo

import (
	"math"
	"testing"

	"awn/air"
	"awn/odds"
	"awn/unit"
)

func TestSafeDays(t *testing.T) {
	worst := 1.0
	for _, row := range rows(t, "safe_days.csv") {
		want := num(t, row["days"])
		got := FraserMuir{}.SafeDays(unit.WetBasis(num(t, row["moisture_wb"])), unit.Celsius(num(t, row["temp_c"])))
		ratio := max(got/want, want/got)
		worst = max(worst, ratio)
		if !(ratio <= 1.5) {
			t.Errorf("%s, %s at %s °C: %.1f d, printed %g", row["source"], row["moisture_wb"], row["temp_c"], got, want)
		}
	}
	t.Logf("farthest from a printed figure: a factor of %.2f", worst)
	near(t, "14.5 % at 20 °C", FraserMuir{}.SafeDays(0.145, 20), 128, 0.5)
	near(t, "14 % at 15 °C", FraserMuir{}.SafeDays(0.14, 15), 300.8, 0.05)
	near(t, "temperature for it", float64(TempFor(0.6*FraserMuir{}.SafeDays(0.15, 12), 0.4, 1, 0.15)), 12, 1e-9)
	near(t, "moisture for 200 d", float64(MoistureFor(0.7*FraserMuir{}.SafeDays(0.15, 12), 12)), 0.15, 1e-12)
	for _, x := range []float64{FraserMuir{}.SafeDays(0.11, 15), FraserMuir{}.SafeDays(0.25, 15), FraserMuir{}.SafeDays(0.15, -1), float64(MoistureFor(1e9, 15)), float64(TempFor(100, 0.7, PlanShare, 0.15)), float64(TempFor(1e9, 0, 1, 0.15))} {
		if !math.IsNaN(x) {
			t.Errorf("an answer of %g outside the range", x)
		}
	}
}

// 17 % at 70 °F for 15 days, then dried to 13 %; the buyer calls on day 150.
// NDSU 2019 works this example: half is used, 135 days are left; with the
// shorter 25 days 108. The clock of cereals gives 128 (computed by hand); at
// 60 °F about 250.
func TestDryingDoesNotStartTheClockAgain(t *testing.T) {
	wet := []Spell{{Days: 15, Moisture: 0.17, TempC: f70}}
	for _, c := range []struct {
		name string
		law  Law
		used float64
		left float64
		tol  float64
	}{
		{"as printed", NDSU2019, 0.5, 135, 1e-9},
		{"its shorter figure", NDSU2019Short, 0.6, 108, 1e-9},
		{"cereals", FraserMuir{}, 0.452, 128, 0.5},
	} {
		used := Used(c.law, wet)
		near(t, c.name+": used", used, c.used, 0.0005)
		left := Left(c.law, used, 1, 0.13, f70)
		near(t, c.name+": left", left, c.left, c.tol)
		if left >= 150 {
			t.Errorf("%s: day 150 is not too late", c.name)
		}
		near(t, c.name+": the drying changes nothing", Used(c.law, append(wet, Spell{0, 0.13, f70})), used, 1e-15)
	}
	near(t, "at 60 °F", Left(FraserMuir{}, Used(FraserMuir{}, wet), 1, 0.13, f60), 250, 1)
	for f, want := range map[float64]float64{f60: 430, f70: 175, f80: 70} {
		near(t, "chart, 14 %", NDSU2019.SafeDays(0.14, unit.Celsius(f)), want, 1e-6)
	}
	if !math.IsNaN(NDSU2019.SafeDays(0.12, f70)) || !math.IsNaN(NDSU2019.SafeDays(0.14, 30)) {
		t.Error("the chart answers beyond its edge")
	}
	if Left(FraserMuir{}, 1.2, 1, 0.13, f70) != 0 {
		t.Error("less than nothing left")
	}
}

func TestAgeing(t *testing.T) {
	for _, row := range rows(t, "probit_days.csv") {
		w, c := unit.WetBasis(num(t, row["moisture_wb"])), unit.Celsius(num(t, row["temp_c"]))
		near(t, "original", EllisRoberts.ProbitDays(w, c), num(t, row["original_d"]), 0.06)
		near(t, "compiled", EllisRobertsCompiled.ProbitDays(w, c), num(t, row["compiled_d"]), 0.06)
	}
	near(t, "99 %", Probits(0.99), 2.326, 0.0005)
	// 99 to 95 % at 17 % and 21.1 °C: 33.7 and 31.4 days by hand; the clock says 33.2.
	fall := Probits(0.99) - Probits(0.95)
	near(t, "original", fall*EllisRoberts.ProbitDays(0.17, 21.1), 33.7, 0.05)
	near(t, "compiled", fall*EllisRobertsCompiled.ProbitDays(0.17, 21.1), 31.4, 0.05)
	near(t, "clock", FraserMuir{}.SafeDays(0.17, 21.1), 33.2, 0.05)
	// From 2.6 probits after 180 days, by hand.
	for _, c := range []struct{ w, t, original, compiled float64 }{{0.13, 15, 0.9880, 0.9838}, {0.145, 20, 0.9142, 0.8728}} {
		spells := []Spell{{180, c.w, c.t}}
		near(t, "original", odds.NormalChance(2.6-EllisRoberts.Lost(spells)), c.original, 0.00005)
		near(t, "compiled", odds.NormalChance(2.6-EllisRobertsCompiled.Lost(spells)), c.compiled, 0.00005)
	}
	if !math.IsNaN(EllisRoberts.ProbitDays(0.14, 1)) || !math.IsNaN(EllisRoberts.ProbitDays(0.30, 20)) {
		t.Error("an answer outside the fitted range")
	}
}

func TestForecast(t *testing.T) {
	count := odds.Proportion{Hits: 396, Of: 400}
	v := Forecast(EllisRoberts, count, []Spell{{100, 0.14, 15}})
	near(t, "middle", v.Mid, odds.NormalChance(2.3263-100/338.2), 0.0002)
	if !(v.Low < v.Mid && v.Mid < v.High && v.High < 1) {
		t.Errorf("%+v", v)
	}
	low, _ := count.ClopperPearson(0.90)
	if v := Forecast(EllisRoberts, count, nil); math.Abs(v.Low-low) > 1e-9 {
		t.Errorf("before any time has passed the band is the count's: %+v, %g", v, low)
	}
	if v := Forecast(EllisRoberts, odds.Proportion{Hits: 100, Of: 100}, []Spell{{100, 0.14, 15}}); !(v.Mid < 0.995 && v.Low > 0.9) {
		t.Errorf("100 of 100 pass for certainty: %+v", v)
	}
	if Forecast(EllisRoberts, odds.Proportion{}, nil).Known() {
		t.Error("a forecast of nothing")
	}
}

func TestBreath(t *testing.T) {
	for _, c := range []struct{ w, t, want float64 }{{0.14, 15, 0.794}, {0.16, 20, 3.81}, {0.18, 25, 18.25}} {
		near(t, "respiration", Respiration(unit.WetBasis(c.w), unit.Celsius(c.t), 0), c.want, 0.005)
	}
	// 2816 kJ for 264 g of carbon dioxide: 2.25 W/t. Starch burns a thousandth hotter.
	near(t, "heat", BreathHeat(18.25), 18.25*1000*2816/264/86400, 0.005)
	near(t, "dry matter", DryLoss(18.25), 18.25e-6/1.63, 1e-8)
	// The warming summed hour by hour.
	temp, hours := 25.0, 0
	for ; temp < 35; hours++ {
		temp += BreathHeat(Respiration(0.18, unit.Celsius(temp), 0)) * 3.6 / grainJKgK(0.18)
	}
	near(t, "days to warm", WarmingDays(0.18, 25, 35), float64(hours)/24, 0.06)
	for _, x := range []float64{Respiration(0.3, 20, 0), Respiration(0.15, 20, 100), WarmingDays(0.18, 30, 20), WarmingDays(0.05, 20, 30)} {
		if !math.IsNaN(x) {
			t.Errorf("an answer of %g outside the range", x)
		}
	}
}

// 25 to 15 °C with 10 m³/(h t), 12 kg/(h t): 25.54 kJ/kg and 57.1 h, by hand;
// the grain's own heat alone would take 142 h of dry air.
func TestCooling(t *testing.T) {
	near(t, "hours", CoolingHours(1750, 25, 15, 0.65, 12, air.StandardPa), 57.1, 0.05)
	near(t, "heat capacity", grainJKgK(0.145), 1750, 50) // 1.75 kJ/(kg K) in common use, no source
	near(t, "core", CoreDays(4, 1.34e-7*620*1750, 620, 1750), 240, 1.5)
	tau := 240.0
	late := CoreTemp(25, 5, 300, tau)
	near(t, "late", float64(late), 5+20*1.602*math.Exp(-300/tau), 0.05)
	// Crank 1975, table of the cylinder, recalled: at the axis 0.1 R²/α leaves 0.848 of the difference.
	near(t, "axis", float64(CoreTemp(1, 0, 0.1*5.783*tau, tau)), 0.848, 0.001)
	near(t, "at once", float64(CoreTemp(25, 5, 0, tau)), 25, 1e-12)
	near(t, "early", float64(CoreTemp(25, 5, 0.151*tau, tau)), 25, 0.1)
	near(t, "water", DryingWater(0.17, 0.135), 40.46, 0.01)
	if !math.IsNaN(CoolingHours(1750, 15, 25, 0.65, 12, air.StandardPa)) || !math.IsNaN(DryingWater(0.12, 0.14)) || !math.IsNaN(CoreDays(0, 1, 1, 1)) {
		t.Error("an answer outside the range")
	}
}

func TestDormancyGoes(t *testing.T) {
	at := func(days float64) odds.Value { return Dormant(0.28, days, odds.Default(Parameters[dormancyWeeks])) }
	near(t, "at the start", at(0).Mid, 0.28, 1e-12)
	near(t, "after five weeks", at(35).Mid, 0, 1e-12)
	if v := at(21); v.Low != 0 || !(v.High > v.Mid && v.Mid > 0) {
		t.Errorf("after three weeks: %+v", v)
	}
	if at(57).High != 0 || Dormant(1.2, 3, odds.Exact(5, odds.Measured)).Known() || Dormant(0.2, math.NaN(), odds.Exact(5, odds.Measured)).Known() {
		t.Error("dormancy without end, or out of nothing")
	}
	near(t, "warm days", WarmDays([]Spell{{10, 0.14, 20}, {30, 0.14, 10}, {5, 0.14, 15}}, ReleaseC), 15, 1e-12)
}
