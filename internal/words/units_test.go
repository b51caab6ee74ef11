package words

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"awn/finding"
)

func ExampleFigure() {
	for _, s := range []string{
		Figure("moisture_wb", 0.4423, Units{}),
		Figure("air_on_c", 60, American),
		Figure("test_weight_kg_hl", 66, American),
		Figure("colour_ebc", 3.5, Units{Mark: MarkComma}),
	} {
		fmt.Println(strings.ReplaceAll(s, "\u00a0", " ")) // number and unit never part at the end of a line
	}
	// Output:
	// 44.2 % wb
	// 140.0 °F
	// 51.3 lb/bu
	// 3,5 EBC
}

// The American figures are worked by hand from the definitions: 1 °F is 5/9 K
// and 0 °C is 32 °F; a pound is 0.45359237 kg; a Winchester bushel is
// 2 150.42 cubic inches of 25.4 mm; a gallon is 231 of them.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		name  string
		x     float64
		units Units
		want  string
	}{
		{"spread_k", 2, American, "3.6 °F"},
		{"spread_k", 2, Units{}, "2.0 K"},
		{"dry_kg", 45359.237, American, "100 000 lb"},
		{"dry_kg", 12500, Units{}, "12 500 kg"},
		{"dry_kg", 1250, Units{}, "1250 kg"},
		{"water_m3", 3.785411784, American, "1000 gal"},
		{"fan_pa", 249.08891, American, "1.0 in H₂O"},
		{"chit", 0.955, Units{}, "96 %"},
		{"loss", -0.0001, Units{}, "0.0 %"},
		{"temp_c", -12.34, Units{Mark: MarkComma}, "−12,3 °C"},
		{"temp_c", math.NaN(), Units{}, "–"},
		{"heat_j", 3.6e9, Units{}, "1000 kWh"},
		{"colour_ebc", 25, American, "12.7 SRM"},
		{"flow_m3_h_t", 100, Units{}, "100 m³/h/t"},
	} {
		got := strings.NewReplacer("\u00a0", " ", thin, " ").Replace(Figure(c.name, c.x, c.units))
		if got != c.want {
			t.Errorf("%s of %g: %q, want %q", c.name, c.x, got, c.want)
		}
	}
}

// TestEverySymbolIsKnown writes one of each unit for both readers: a symbol
// that its dimension does not know comes out unknown.
func TestEverySymbolIsKnown(t *testing.T) {
	for _, m := range measures {
		for _, u := range []Units{{}, American} {
			if got := Figure("x_"+m.suffix, 1, u); strings.Contains(got, unknown) {
				t.Errorf("%s: %s", m.suffix, got)
			}
		}
	}
}

// TestLongerSuffixesFirst fails where a unit would be hidden by one that it
// ends in.
func TestLongerSuffixesFirst(t *testing.T) {
	for _, m := range measures {
		if got := measureOf("x_" + m.suffix).suffix; got != m.suffix {
			t.Errorf("%s is read as %s", m.suffix, got)
		}
	}
}

func TestBracketsAreLeftOut(t *testing.T) {
	f := finding.New("x", finding.Note, "kiln", finding.Figure{Name: "worst_wb", Value: 0.08})
	text := "the wettest layer holds {worst_wb}[ at {at}][ in layer {layer}]."
	if got, want := fill(text, f, Units{}), "the wettest layer holds 8.0\u00a0%\u00a0wb."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	f.AtH, f.Layer = 12, 4
	if got, want := fill(text, f, Units{}), "the wettest layer holds 8.0\u00a0%\u00a0wb at 12.0\u00a0h in layer 5."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
