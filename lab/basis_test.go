package lab

import (
	"fmt"
	"math"
	"testing"

	"awn/unit"
)

// Protein of 10.12 % in grain of 12 % moisture (definition, by hand), and what a sheet
// “at 13.5 %” prints of it.
func ExampleOnDryMatter() {
	dry := OnDryMatter(0.1012, 0.12)
	fmt.Printf("%.2f %% dm, %.2f %% at 13.5 %%\n", 100*dry, 100*AsItStands(dry, 0.135))
	// Output: 11.50 % dm, 9.95 % at 13.5 %
}

func TestBasesOfNoGrain(t *testing.T) {
	for _, w := range []unit.WetBasis{-0.01, 1, unit.WetBasis(math.NaN())} {
		if x, y := OnDryMatter(0.1, w), AsItStands(0.1, w); !math.IsNaN(x) || !math.IsNaN(y) {
			t.Errorf("at %g: %g and %g", w, x, y)
		}
	}
}
