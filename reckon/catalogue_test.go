package reckon_test

import (
	"testing"

	"awn/reckon"
)

func TestCatalogueNamesEachFormulaOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range reckon.Catalogue() {
		if seen[f.Key()] {
			t.Errorf("%s stands in the catalogue twice", f.Key())
		}
		seen[f.Key()] = true
	}
	if !seen["air.SaturationPressure"] {
		t.Errorf("%d formulas, and saturation pressure is not among them", len(seen))
	}
}
