package reckon

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// table reads a CSV of testdata without its comments and heading.
func table(t *testing.T, file string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", file, len(rows), err)
	}
	return rows[1:]
}

// ask answers a line that begins with the name of an entry.
func ask(line string) (Answer, error) {
	name, rest, _ := strings.Cut(line, " ")
	e, err := Find(name)
	if err != nil {
		return Answer{}, err
	}
	return e.Ask(rest)
}

// value is a number of an answer.
func value(t *testing.T, line, key string) float64 {
	t.Helper()
	a, err := ask(line)
	if err != nil {
		t.Errorf("%s: %v", line, err)
		return math.NaN()
	}
	for _, r := range a.Results {
		if r.Key == key {
			return r.Value
		}
	}
	t.Errorf("%s: no %s in the answer", line, key)
	return math.NaN()
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestWorkedExamples(t *testing.T) {
	for _, row := range table(t, "worked.csv") {
		id, line, key, want, near := row[0], row[1], row[2], number(t, row[3]), number(t, row[4])
		if got := value(t, line, key); !(math.Abs(got-want) <= near) {
			t.Errorf("%s: %s: %s is %g, want %g within %g", id, line, key, got, want, near)
		}
	}
}

func TestAirFromAnyTwo(t *testing.T) {
	for _, row := range table(t, "air.csv") {
		x := make([]float64, len(row))
		for i := range row {
			x[i] = number(t, row[i])
		}
		at := fmt.Sprintf(" pressure %s Pa", row[2])
		pairs := []string{
			fmt.Sprintf("air %s °C %g %%", row[0], round(100*x[1], 6)),
			fmt.Sprintf("air t=%s °C wb=%s °C", row[0], row[3]),
			fmt.Sprintf("air %s °C w=%g g/kg", row[0], round(1000*x[4], 6)),
			fmt.Sprintf("air dew %s°C rh %g%%", row[7], round(100*x[1], 6)),
			fmt.Sprintf("air t %s °C h=%g kJ/kg", row[0], round(x[5]/1000, 6)),
		}
		for _, line := range pairs {
			line += at
			for _, c := range []struct {
				key        string
				want, near float64
			}{
				// The library finds wet bulbs to 0.002 K, which is 6e-6 of the ratio and
				// 16 J/kg; a dew point printed to 0.0001 K fixes t to 0.003 K.
				{"dry_bulb_c", x[0], 0.003},
				{"wet_bulb_c", x[3], 0.003},
				{"humidity_ratio_kg_kg", x[4], 6e-6},
				{"enthalpy_j_kg", x[5], 20},
				{"volume_m3_kg", x[6], 1e-5},
				{"dew_point_c", x[7], 0.003},
			} {
				if got := value(t, line, c.key); !(math.Abs(got-c.want) <= c.near) {
					t.Errorf("%s: %s is %g, want %g", line, c.key, got, c.want)
				}
			}
		}
	}
}

// The published isotherms of barley must hold the practice of the trade:
// 14.5 % wet basis at rest at 65 % and 15 °C (common practice, no source).
func TestEquilibriumGoesBothWays(t *testing.T) {
	if w := value(t, "emc barley 15 °C 65 %", "moisture_wb"); math.Abs(w-0.145) > 0.005 {
		t.Errorf("barley at 65 %%: %g", w)
	}
	for _, grain := range []string{"barley", "malt"} {
		w := value(t, "emc "+grain+" 20 °C 60 %", "moisture_wb")
		back := value(t, fmt.Sprintf("emc %s 20 °C %g %% wb", grain, round(100*w, 6)), "relative_humidity")
		if math.Abs(back-0.6) > 1e-6 { // the moisture was written with six decimals
			t.Errorf("%s: 60 %% comes back as %g", grain, back)
		}
	}
}

// Every example is answered, every default read, every scale shown and every
// formula that is named found in the catalogue.
func TestEntriesAreWhole(t *testing.T) {
	catalogue := map[string]bool{}
	for _, f := range Catalogue() {
		catalogue[f.Key()] = true
	}
	for _, e := range Entries() {
		if len(e.Examples) == 0 {
			t.Errorf("%s has no example", e.Name)
		}
		for _, in := range e.Inputs {
			if in.Default != "" && in.byDefault().Input == nil {
				t.Errorf("%s: the default of %s cannot be read", e.Name, in.Key)
			}
		}
		for _, x := range e.Examples {
			a, err := ask(x)
			if err != nil {
				t.Errorf("%s: %v", x, err)
				continue
			}
			for _, r := range a.Results {
				if r.Formula != "" && !catalogue[r.Formula] {
					t.Errorf("%s: %s is not in the catalogue", x, r.Formula)
				}
				if r.Shown[0] == "n/a" || math.IsNaN(r.Value) {
					t.Errorf("%s: %s is shown as %q", x, r.Key, r.Shown)
				}
				for _, u := range r.on.units {
					symbol, _, _ := strings.Cut(strings.ReplaceAll(u, "~", ":"), ":")
					if _, ok := r.on.has(symbol); !ok {
						t.Errorf("%s: %s has no unit %s", x, r.Key, symbol)
					}
				}
			}
		}
	}
}
