package paper

import (
	"math"
	"testing"

	"awn/malt"
)

// The value beside each text follows from what the unit means.
func TestFiguresAreReadOnTheirBasis(t *testing.T) {
	for _, c := range []struct {
		text, key string
		value     float64
	}{
		{"don 1.6 mg/kg", "don_mg_kg_asis", 1.6},
		{"don 1600 ug/kg", "don_mg_kg_asis", 1.6},
		{"moisture 13.2 % wb", "moisture_wb", 0.132},
		{"extract_fine 81.1 % dm", "extract_fine_dm", 0.811},
		{"extract_fine 78 % as-is", "extract_fine_asis", 0.78},
		{"colour 3.1 EBC", "colour_ebc", 3.1},
		{"kolbach 44.2 %", "kolbach", 0.442},
		{"chit 93 %", "chit", 0.93},
		{"temperature 61 °F", "temperature_c", 16.1111},
		{"friability 95 %", "friability", 0.95},
		{"smm 4.6 mg/kg dm", "smm_mg_kg_dm", 4.6},
	} {
		key, value, err := ReadFigure(c.text)
		if err != nil || key != c.key || math.Abs(value-c.value) > 1e-4*c.value { // the last digit given above
			t.Errorf("%s: %s %v, %v; want %s %v", c.text, key, value, err, c.key, c.value)
		}
	}
	for _, text := range []string{"", "don", "don 1.6", "extract_fine 81 %", "colour 3 EBV", "frability 90 %"} {
		if key, _, err := ReadFigure(text); err == nil {
			t.Errorf("%q is read as %s", text, key)
		}
	}
	for _, p := range malt.Parameters() {
		if _, _, err := ReadFigure(string(p)); err == nil {
			t.Errorf("%s without a value is read", p)
		}
	}
}
