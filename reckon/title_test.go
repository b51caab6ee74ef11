package reckon

import (
	"strings"
	"testing"
)

// Names of the code become words, and a summary begins where its name ends.
func TestFormulaInWords(t *testing.T) {
	for name, want := range map[string]string{
		"SaturationPressure": "Saturation Pressure", "GAB.Humidity": "GAB Humidity", "Constants.SMMLoss": "SMM Loss",
		"CellMoistureDB": "Cell Moisture DB", "T50H": "T50H", "ColourEBC.SRM": "Colour EBC SRM",
	} {
		if got := (Formula{Name: name}).Title(); got != want {
			t.Errorf("%s is titled %q, want %q", name, got, want)
		}
	}
	for _, f := range Catalogue() {
		if says := f.Says(); says == "" || strings.Contains(f.Title(), "  ") {
			t.Errorf("%s says %q under %q", f.Key(), says, f.Title())
		}
	}
	f := Formula{Name: "GAB.Humidity", Summary: "Humidity is that of air. It is old."}
	if got, want := f.Says(), "That of air. It is old."; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
}
