package unit_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"awn/unit"
)

func ExampleDimension_Parse() {
	q, _ := unit.Moisture.Parse("75 % db")
	fmt.Printf("%.4f kg water per kg moist grain\n", q.Value)
	_, err := unit.Moisture.Parse("43 %")
	fmt.Println(err)
	_, err = unit.Mass.Parse("1,234 kg")
	fmt.Println(err)
	// Output:
	// 0.4286 kg water per kg moist grain
	// “43 %” does not say its basis; write one of % wb, % db.
	// “1,234 kg” can be read in two ways; write a decimal point and no mark between thousands: 1.234, 1234.
}

func ExampleDimension_Format() {
	q, _ := unit.Temperature.Parse("185 °F")
	c, _ := unit.Temperature.Format(q.Value, "°C", 1)
	slot, _ := unit.Length.Format(0.00238125, "/64 in", 0)
	price, _ := unit.GrainPrice.Format(0.21, "EUR/t", 2)
	fmt.Println(c, slot, price)
	// Output: 85.0 °C 6/64 in 210.00 EUR/t
}

// table reads a small table whose head begins with #.
func table(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
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
	return rows[1:]
}

func named(t *testing.T, name string) unit.Dimension {
	t.Helper()
	i := slices.IndexFunc(unit.Dimensions, func(d unit.Dimension) bool { return d.Name == name })
	if i < 0 {
		t.Fatalf("no dimension %q", name)
	}
	return unit.Dimensions[i]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestValuesInsideAgainstGNUUnits(t *testing.T) {
	for _, row := range table(t, "units.csv") {
		q, err := named(t, row[0]).Parse(row[1])
		want := number(t, row[2])
		if err != nil || math.Abs(q.Value-want) > 1e-11*math.Abs(want) {
			t.Errorf("%s is %.12g inside, want %.12g (%v)", row[1], q.Value, want, err)
		}
	}
}

func TestConversionsAgainstTheTrade(t *testing.T) {
	for _, row := range table(t, "trade.csv") {
		d := named(t, row[0])
		q, err := d.Parse(row[1])
		if err != nil {
			t.Errorf("%s: %v", row[1], err)
			continue
		}
		text, err := d.Format(q.Value, row[2], 6)
		got := number(t, strings.Fields(text)[0])
		if want := number(t, row[3]); err != nil || math.Abs(got-want) > number(t, row[4]) {
			t.Errorf("%s is %s, want %g %s (%v)", row[1], text, want, row[2], err)
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		d          unit.Dimension
		text, code string
		nearest    string
	}{
		{unit.Moisture, "", "number.missing", ""},
		{unit.Moisture, "wet", "number.missing", ""},
		{unit.Moisture, "43", "unit.missing", ""},
		{unit.Moisture, "43 %", "unit.basis.missing", ""},
		{unit.Moisture, "43 % wd", "unit.unknown", "% wb"},
		{unit.Moisture, "-1 % wb", "number.range", ""},
		{unit.Moisture, "96 % wb", "number.range", ""},
		{unit.MassFraction, "11.2 %", "unit.basis.missing", ""},
		{unit.Mass, "1,234 kg", "number.ambiguous", ""},
		{unit.Mass, "12,5 kg", "number.ambiguous", ""},
		{unit.Mass, "1.234.567 kg", "number.ambiguous", ""},
		{unit.Mass, "1 234 kg", "number.ambiguous", ""},
		{unit.Mass, "NaN kg", "number.not-finite", ""},
		{unit.Mass, "-Inf kg", "number.not-finite", ""},
		{unit.Mass, "infinity", "number.not-finite", ""},
		{unit.Mass, "0x10 kg", "number.malformed", ""},
		{unit.Mass, "1e3 kg", "number.malformed", ""},
		{unit.Mass, ".5 kg", "number.malformed", ""},
		{unit.Mass, "5. kg", "number.malformed", ""},
		{unit.Mass, "007 kg", "number.malformed", ""},
		{unit.Mass, "+5 kg", "number.malformed", ""},
		{unit.Mass, "12345678901 kg", "number.malformed", ""},
		{unit.Mass, "5 kgs", "unit.unknown", "kg"},
		{unit.Mass, "5 KG", "unit.unknown", "kg"},
		{unit.TemperatureDifference, "4 °F", "unit.basis.missing", ""},
		{unit.TemperatureDifference, "4 °C", "unit.unknown", ""},
		{unit.FuelPrice, "0.04 EUR/kWh", "unit.basis.missing", ""},
		{unit.FuelEmission, "0.2 kg CO2e/kWh", "unit.basis.missing", ""},
		{unit.FuelEmission, "0.2 kg CO2e/kWh LVH", "unit.unknown", "kg CO2e/kWh LHV"},
		{unit.GrainPrice, "210 eur/t", "unit.unknown", ""},
		{unit.GrainPrice, "210 /t", "unit.unknown", ""},
		{unit.Duration, "1 d 24 h", "unit.unknown", ""},
		{unit.Airflow, "300 m3/h/t malt", "unit.unknown", ""},
	} {
		_, err := c.d.Parse(c.text)
		var e *unit.Error
		if !errors.As(err, &e) || e.Code != c.code || e.Nearest != c.nearest && c.nearest != "" {
			t.Errorf("%s %q: got %#v, want %s, nearest %q", c.d.Name, c.text, err, c.code, c.nearest)
		}
		if matches(c.d, c.text) {
			t.Errorf("%s %q is refused, but the pattern takes it", c.d.Name, c.text)
		}
	}
}

func TestOtherWaysOfWriting(t *testing.T) {
	for _, c := range []struct {
		d              unit.Dimension
		text, same     string
		kind, currency string
	}{
		{unit.Moisture, "  43.0%   wb ", "43 % wb", "", ""},
		{unit.Temperature, "−5 degC", "-5 °C", "", ""},
		{unit.Temperature, "140F", "60 °C", "", ""},
		{unit.Duration, "1 d 6 h", "30 h", "", ""},
		{unit.Duration, "6h30min", "6.5 h", "", ""},
		{unit.Length, "6.4/64 in", "0.1 in", "", ""},
		{unit.Airflow, "300 m³/h/t", "300 m3/h/t", unit.KindPerTonne, ""},
		{unit.Airflow, "20000 cfm", "20000 cfm", unit.KindVolume, ""},
		{unit.GrainPrice, "210 EUR/t", "0.21 EUR/kg", "", "EUR"},
		{unit.FuelPrice, "1.2 USD/therm HHV", "1.2 USD/therm HHV", unit.KindHHV, "USD"},
		{unit.KernelWeight, "44 g as-is", "44 g asis", unit.KindAsIs, ""},
	} {
		a, errA := c.d.Parse(c.text)
		b, errB := c.d.Parse(c.same)
		if errA != nil || errB != nil || math.Abs(a.Value-b.Value) > 1e-9*math.Abs(b.Value) || a.Kind != c.kind || a.Currency != c.currency {
			t.Errorf("%q is %+v (%v), %q is %+v (%v)", c.text, a, errA, c.same, b, errB)
		}
		if !matches(c.d, c.text) {
			t.Errorf("%q is read, but the pattern refuses it", c.text)
		}
	}
}

func TestWithinNarrowsEachKindByItself(t *testing.T) {
	narrow, err := unit.Airflow.Within("20 m3/h/t,0.05 m/s", "8000 m3/h/t")
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]bool{
		"19.9 m3/h/t": false, "20 m3/h/t": true, "8000 m3/h/t": true, "8000.1 m3/h/t": false,
		"0.2 cfm/bu": false, "1 cfm/bu": true, "0.04 m/s": false, "0.05 m/s": true, "1 cfm": true,
	} {
		if _, err := narrow.Parse(text); (err == nil) != want || matches(narrow, text) != want {
			t.Errorf("%s: read %v, pattern %v, want %v", text, err == nil, matches(narrow, text), want)
		}
	}
	fahrenheit, _ := unit.Temperature.Within("-40 °C", "60 °C")
	_, err = fahrenheit.Parse("141 °F")
	var e *unit.Error
	if !errors.As(err, &e) || !slices.Equal(e.Allowed, []string{"-40 to 140 °F"}) {
		t.Errorf("limits are not told in the unit written: %v", err)
	}
	if _, err := unit.Airflow.Within("20 m3/h/q", ""); err == nil {
		t.Error("a limit in an unknown unit is taken")
	}
}

func TestEveryCodeOfRefusalHasASentence(t *testing.T) {
	source, err := os.ReadFile("parse.go")
	if err != nil {
		t.Fatal(err)
	}
	used := regexp.MustCompile(`Code: "([^"]+)"`).FindAllStringSubmatch(string(source), -1)
	for _, m := range used {
		if unit.Sentences[m[1]] == "" {
			t.Errorf("%s has no sentence", m[1])
		}
	}
	if len(used) < len(unit.Sentences) {
		t.Errorf("%d uses of %d codes", len(used), len(unit.Sentences))
	}
}

func TestNamesAreUnique(t *testing.T) {
	for _, d := range unit.Dimensions {
		seen := map[string]bool{}
		for _, u := range d.Units {
			for _, name := range append([]string{u.Symbol}, u.Aliases...) {
				if seen[name] {
					t.Errorf("%s: %s twice", d.Name, name)
				}
				seen[name] = true
			}
		}
	}
}

func TestNearest(t *testing.T) {
	words := []string{"moisture", "protein", "test_weight"}
	for got, want := range map[string]string{"moistrue": "moisture", "Protein": "protein", "tset_wieght": "test_weight", "colour": "", "": ""} {
		if n := unit.Nearest(got, words); n != want {
			t.Errorf("nearest to %q is %q, want %q", got, n, want)
		}
	}
}

func matches(d unit.Dimension, text string) bool {
	return regexp.MustCompile(d.Pattern()).MatchString(text)
}
