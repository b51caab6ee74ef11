package unit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"awn/unit"
)

// FuzzParse holds for any text and dimension: no panic, the pattern takes what
// the reader takes, and a quantity read, printed and read again is the same.
func FuzzParse(f *testing.F) {
	var patterns []*regexp.Regexp
	for _, d := range unit.Dimensions {
		patterns = append(patterns, regexp.MustCompile(d.Pattern()))
	}
	for i, text := range []string{"43 % wb", "-40 °F", "7/64 in", "1 d 6 h", "6 h 30 min", "210 EUR/t", "1,234 kg", "NaN", "0x1p-2 t", "999999999.999999 L", "-0.0 °C", "  5  %  ", "0.2 kg CO2e/kWh LHV"} {
		f.Add(text, uint8(i))
	}
	for i, d := range unit.Dimensions {
		if d.Name == "ratio" { // only a space may trail
			f.Add("0\t", uint8(i))
		}
	}
	f.Fuzz(func(t *testing.T, text string, which uint8) {
		i := int(which) % len(unit.Dimensions)
		d := unit.Dimensions[i]
		q, err := d.Parse(text)
		if matched := patterns[i].MatchString(text); matched != (err == nil) {
			t.Fatalf("%s %q: read gives %v, pattern %v", d.Name, text, err, matched)
		}
		if err == nil {
			roundTrip(t, d, q)
		}
	})
}

// roundTrip prints with the six decimals that can be read; half of the last is
// what the value may move by, and the rounding of the fifteen digits.
func roundTrip(t *testing.T, d unit.Dimension, q unit.Quantity) {
	t.Helper()
	text, err := d.Format(q.Value, q.Symbol, 6)
	if err != nil {
		t.Fatal(err)
	}
	again, err := d.Parse(text)
	if err != nil {
		t.Fatalf("%q was read but %q, its print, is refused: %v", q.Symbol, text, err)
	}
	if once, _ := d.Format(again.Value, again.Symbol, 6); once != text || again.Kind != q.Kind || again.Currency != q.Currency {
		t.Fatalf("%s prints as %s, then as %s", q.Symbol, text, once)
	}
}

func TestPatternKeepsTheLimitsOfTheReader(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	read := 0
	for range 300 {
		a, b := draw(r), draw(r)
		least, most := fmt.Sprintf("%s °C", a), fmt.Sprintf("%s °C", b)
		d, err := unit.Temperature.Within(least, most)
		if err != nil {
			t.Fatal(err)
		}
		if x, y := parse(t, a), parse(t, b); x > y {
			d, _ = unit.Temperature.Within(most, least)
			a, b = b, a
		}
		pattern := regexp.MustCompile(d.Pattern())
		for _, text := range []string{a, b, draw(r), draw(r), draw(r), draw(r), near(a, "1"), near(b, "1"), "-" + a, a + "0", "0", "-0", "-0.0"} {
			for _, symbol := range []string{"°C", "°F", "K"} {
				text := text + " " + symbol
				_, err := d.Parse(text)
				if pattern.MatchString(text) != (err == nil) {
					t.Fatalf("%s to %s: %q read gives %v, the pattern not", a, b, text, err)
				}
				if err == nil {
					read++
				}
			}
		}
	}
	if read < 500 {
		t.Errorf("only %d texts lay within", read)
	}
}

func TestPatternOfDurationsOfTwoUnits(t *testing.T) {
	for _, limits := range [][2]string{{"", ""}, {"30 min", "36 h"}, {"90 min", "14 d"}, {"26.5 h", "27.5 h"}, {"10 s", "20 s"}} {
		d, err := unit.Duration.Within(limits[0], limits[1])
		if err != nil {
			t.Fatal(err)
		}
		pattern := regexp.MustCompile(d.Pattern())
		for large := range 40 {
			for small := range 62 {
				for _, form := range []string{"%d d %d h", "%d h %d min"} {
					text := fmt.Sprintf(form, large, small)
					if _, err := d.Parse(text); pattern.MatchString(text) != (err == nil) {
						t.Fatalf("%v: %q read gives %v, the pattern not", limits, text, err)
					}
				}
			}
		}
	}
}

// draw gives a number between -100 and 1500 with up to six decimals, often round.
func draw(r *rand.Rand) string {
	x := r.Float64()*1600 - 100
	switch r.IntN(4) {
	case 0:
		x = math.Round(x/10) * 10
	case 1:
		x /= 100
	}
	s := fmt.Sprintf("%.*f", r.IntN(7), x)
	return s
}

// near adds a digit behind the last one, where there is room.
func near(text, digit string) string {
	if _, decimals, point := strings.Cut(text, "."); point && len(decimals) < 6 {
		return text + digit
	}
	return text
}

func parse(t *testing.T, text string) float64 {
	t.Helper()
	q, err := unit.Temperature.Parse(text + " °C")
	if err != nil {
		t.Fatal(err)
	}
	return q.Value
}
