package reckon

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// found are the codes of the findings of an answer.
func found(t *testing.T, line string) []string {
	t.Helper()
	a, err := ask(line)
	if err != nil {
		t.Errorf("%s: %v", line, err)
	}
	var out []string
	for _, f := range a.Findings {
		out = append(out, f.Code)
	}
	return out
}

func hold(t *testing.T, line, key string, want, near float64) {
	t.Helper()
	if got := value(t, line, key); !(math.Abs(got-want) <= near) {
		t.Errorf("%s: %s is %g, want %g within %g", line, key, got, want, near)
	}
}

// band is the band of a number of an answer.
func band(t *testing.T, line, key string) (low, high float64) {
	t.Helper()
	a, err := ask(line)
	if err != nil {
		t.Errorf("%s: %v", line, err)
	}
	for _, r := range a.Results {
		if r.Key == key {
			return r.Low, r.High
		}
	}
	t.Errorf("%s: no %s in the answer", line, key)
	return math.NaN(), math.NaN()
}

// The sources of the tables stand at their heads.
func TestToxinTable(t *testing.T) {
	plans := []string{"sample 454 g portion 25 g analyses 1", "sample 2270 g portion 50 g analyses 1", "sample 4540 g portion 100 g analyses 2"}
	for _, row := range table(t, "../../intake/testdata/don_oc.csv") {
		for i, plan := range plans {
			line := fmt.Sprintf("don true %s mg/kg limit %s mg/kg %s", row[0], row[1], plan)
			hold(t, line, "variation", number(t, row[2+2*i])/100, 0.00051)
			hold(t, line, "accept", number(t, row[3+2*i]), 0.000051)
		}
	}
}

func TestOperatingCurveTable(t *testing.T) {
	rules := []string{"95 of 100", "190 of 200", "380 of 400", "98 of 100", "392 of 400"}
	for _, row := range table(t, "../../odds/testdata/germ_oc.csv") {
		for i, rule := range rules {
			hold(t, fmt.Sprintf("plan %s true %s %%", rule, row[0]), "accept", number(t, row[1+i]), 0.000051)
		}
	}
}

func TestToleranceTable(t *testing.T) {
	for _, row := range table(t, "../../lab/testdata/germ_tolerance.csv") {
		for i, n := range []int{4, 3, 2} {
			hold(t, fmt.Sprintf("replicates mean %s %% replicates %d", row[0], n), "range", number(t, row[1+i])/100, 0.00011)
		}
	}
}

func TestLimitsOfCountsTable(t *testing.T) {
	for _, row := range table(t, "../../odds/testdata/binomial_ci.csv") {
		low, high := band(t, fmt.Sprintf("life GE4 %s of %s", row[1], row[0]), "energy")
		if math.Abs(low-number(t, row[5])/100) > 0.000051 || math.Abs(high-number(t, row[6])/100) > 0.000051 {
			t.Errorf("%v: %g to %g", row, low, high)
		}
	}
}

// NDSU 2019 works it out: half of 30 days used at 17 % leaves 135 of the 270 at
// 13 %. With its shorter figure of 25 days, 0.4 of 270 is 108.
func TestClockAddsUp(t *testing.T) {
	const line = "bin 15 d at 17 % 70 °F then 13 % 70 °F keep 150 d cooled 60 °F"
	hold(t, line, "chart_used", 0.5, 1e-9)
	hold(t, line, "chart_left_d", 135, 1e-6)
	hold(t, line, "chart_short_left_d", 108, 1e-6)
	// By hand from 10^(6.234 - 0.2118 m - 0.0527 t): 33.18 and 233.4 d at 70 °F,
	// 457.9 d at 60 °F, to the last figures written here.
	hold(t, line, "used", 15/33.18, 1e-4)
	hold(t, line, "left_d", 233.4*(1-15/33.18), 0.1)
	hold(t, line, "cooled_left_d", 457.9*(1-15/33.18), 0.3)
	if got := found(t, line); !slices.Equal(got, []string{"silo.clock.too-short"}) {
		t.Errorf("%v", got)
	}
	// The clock does not start again: the order of the spells does not matter to
	// what is used, and drying gives nothing back.
	hold(t, "bin 15 d at 17 % 70 °F then 30 d at 13 % 70 °F", "used", 15/33.18+30/233.4, 2e-4)
	if got := found(t, "bin 40 d at 17 % 70 °F"); !slices.Equal(got, []string{"silo.clock.spent"}) {
		t.Errorf("%v", got)
	}
	if got := found(t, "bin 1 d at 13 % 10 °C"); got != nil {
		t.Errorf("%v", got)
	}
}

// Dead, dormant and sprouted are told apart by the definitions of the tests.
func TestLifeIsToldApart(t *testing.T) {
	const asleep, sprouted = "life GE4 72 GE8 41 GC 99 RVU 165", "life GE4 96 GE8 90 GC 97 RVU 42"
	hold(t, asleep, "dead", 0.01, 1e-12)
	hold(t, asleep, "dormant", 0.27, 1e-12)
	hold(t, asleep, "water_sensitive", 0.31, 1e-12)
	if got := found(t, asleep); !slices.Equal(got, []string{"intake.sprout.none", "intake.dormancy.present", "intake.water.sensitive"}) {
		t.Errorf("%v", got)
	}
	if got := found(t, sprouted); !slices.Equal(got, []string{"intake.sprout.severe"}) {
		t.Errorf("%v", got)
	}
	if got := found(t, "life GC 90"); !slices.Contains(got, "intake.dead.many") {
		t.Errorf("%v", got)
	}
	if got := found(t, "life GE4 96 FN 200 s"); !slices.Contains(got, "intake.sprout.possible") {
		t.Errorf("%v", got)
	}
}

// Riis and Bang-Olsen 1991, recalled: 59.0, 38.9 and 0.1 % at 24, 48 and 72 h are an
// index of 7.15 and a mean of 33.6 h; here in whole corns of a thousand.
func TestVigour(t *testing.T) {
	for _, line := range []string{
		"vigour 590 at 24 h then 979 at 48 h then 980 at 72 h of 1000",
		"vigour fresh 590 at 24 h then 389 at 48 h then 1 at 3 d of 1000",
	} {
		hold(t, line, "energy", 0.98, 1e-12)
		hold(t, line, "index", 7.15, 0.005)
		hold(t, line, "mean_time_h", 33.6, 0.05)
	}
}

// R95 of barley moisture by near infrared is 1.5 points (Angelino 1996): results
// that far apart are met once in twenty times, whichever way round.
func TestTwoLaboratories(t *testing.T) {
	hold(t, "labs barley moisture 13 % wb and 14.5 % wb", "chance", 0.05, 1e-9)
	hold(t, "labs 14.5 % wb and 13 % wb within 1.5 % wb", "chance", 0.05, 1e-9)
	if got := found(t, "labs barley moisture 13 % wb and 14.6 % wb"); !slices.Equal(got, []string{"lab.results.differ"}) {
		t.Errorf("%v", got)
	}
	// A degree of a scale that begins elsewhere than at 0 is still a degree.
	hold(t, "labs 3 °L and 4 °L within 1 °L", "chance", 0.05, 1e-9)
	// Combustion is the finer method: 0.116 points (EBC Committee) to 0.3.
	hold(t, "labs barley nitrogen combustion 1.52 % dm and 1.71 % dm", "within_dm", 0.00116, 1e-12)
	hold(t, "labs barley nitrogen near-infrared 1.60 % dm and 1.71 % dm", "within_dm", 0.003, 1e-12)
	// A reading on its limit meets it in half of all cases, whatever the method.
	hold(t, "measured 5 % wb at-most 5 % wb within 1.3 % wb", "chance", 0.5, 1e-9)
	// One deviation is 1.3/2.7718 = 0.4690 points; 84.13 % lie below one deviation.
	hold(t, "measured 4.531 % wb at-most 5 % wb within 1.3 % wb", "chance", 0.8413, 1e-4)
	hold(t, "measured 100 Lintner at-least 100 Lintner within 10 Lintner", "chance", 0.5, 1e-9)
}

// A count says the same of what germinates and of what does not.
func TestCountAgainstLimit(t *testing.T) {
	over, under := "counted 97 of 100 at-least 98 %", "counted 3 of 100 at-most 2 %"
	hold(t, over, "chance", value(t, under, "chance"), 1e-9)
	hold(t, "counted 50 of 100 at-least 50 %", "chance", 0.5, 1e-12)
}

// Without air nothing passes, and a bed that keeps its heat says so.
func TestGerminatingBed(t *testing.T) {
	still := value(t, "germinating air-on 14 °C top 18 °C", "still_k_h")
	codes := found(t, fmt.Sprintf("germinating air-on 14 °C top 18 °C rise %.6f K/h", still+0.01))
	if !slices.Contains(codes, "germinate.passing.none") {
		t.Errorf("%v", codes)
	}
	// Heat by the kg as it is counts for more by the kg of dry matter.
	a := value(t, "germinating air-on 14 °C top 18 °C heat 2 W/kg dm moisture 45 %", "airflow_m3_s_kg")
	b := value(t, "germinating air-on 14 °C top 18 °C heat 1.1 W/kg asis moisture 45 %", "airflow_m3_s_kg")
	if math.Abs(a-b) > 1e-9*a {
		t.Errorf("%g and %g", a, b)
	}
	hold(t, "germinating air-on 14 °C top 21 °C rise 0.5 K/h", "to_limit_h", 6, 1e-9)
}

// The silo's first scale reads half a tonne short of all others.
func TestScalesNameTheSuspect(t *testing.T) {
	const line = "weigh truck 25.32 t 16.2 % then hopper 25.28 t 16.0 % then dryer 24.47 t 13.4 % then silo 23.9 t 13.5 % then silo 24.5 t"
	if got := found(t, line); !slices.Equal(got, []string{"weigh.mass.suspect"}) {
		t.Errorf("%v", got)
	}
	a, err := ask(line)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range a.Findings[0].Figures {
		if f.Name == "place_n" && f.Value != 4 {
			t.Errorf("part %g is named", f.Value)
		}
	}
	if got := found(t, "weigh truck 25.3 t then silo 25.25 t"); !slices.Equal(got, []string{"weigh.readings.agree"}) {
		t.Errorf("%v", got)
	}
	if got := found(t, "weigh barley 205 t 12.3 % then malt 150 t 4.6 % culms 7.1 t"); !slices.Contains(got, "weigh.suspects.alike") {
		t.Errorf("%v", got)
	}
}

func TestDoubtIsRefused(t *testing.T) {
	for line, code := range map[string]string{
		"life 96":                           "reckon.input.name",
		"life RVU 100":                      "reckon.input.missing",
		"life GE4 101":                      "reckon.count.impossible",
		"vigour 60 at 24 h then 50 at 48 h": "reckon.count.looks",
		"bin 5 d at 30 % 70 °F":             "reckon.answer.range",
		"counted 97 of 100":                 "reckon.input.missing",
		"measured 5 % wb at-most 5 % dm within 1 % wb":   "reckon.units.mixed",
		"measured 5 % wb at-most 5 % wb":                 "reckon.input.missing",
		"measured 5 % wb within 1 % wb":                  "reckon.input.missing",
		"labs moisture 4.0 % wb and 4.3 % wb":            "reckon.input.missing",
		"labs malt moisture 9 % wb and 8 % wb":           "reckon.precision.none",
		"labs malt nitrogen 4 % wb and 4.1 % wb":         "reckon.precision.none",
		"plan 0 of 100":                                  "reckon.plan.impossible",
		"replicates 96 % 2.5":                            "reckon.replicates.whole",
		"don limit 1 mg/kg":                              "reckon.input.missing",
		"don true 1 mg/kg sample 10 g portion 25 g":      "reckon.answer.range",
		"don read 0 mg/kg limit 1 mg/kg":                 "reckon.answer.range",
		"don read 1 mg/kg analyses 1.5":                  "reckon.count.impossible",
		"labs 4 % wb and 4 % wb within 0 % wb":           "number.range",
		"weigh truck 25 t 14 % scale 0 % then silo 25 t": "reckon.weigh.impossible",
		"weigh truck 5 t":                                "reckon.weigh.open",
		"weigh truck 5 t then dryer 5 t 13 %":            "reckon.weigh.open",
	} {
		faults, _ := faultsIn(t, line)
		if len(faults) == 0 || faults[0].Code != code {
			t.Errorf("%s: %v, want %s", line, codes(faults), code)
		}
	}
}

// Whoever types a name or an alias gets one entry.
func TestNamesAreEachOnce(t *testing.T) {
	seen := map[string]string{}
	for _, e := range Entries() {
		for _, name := range append([]string{e.Name}, e.Aliases...) {
			if other, twice := seen[name]; twice {
				t.Errorf("%s is asked by %s and by %s", name, other, e.Name)
			}
			seen[name] = e.Name
		}
	}
}
