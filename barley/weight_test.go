package barley

import (
	"math"
	"testing"
)

// Worked examples of the trade's own arithmetic. WeightAt and ShrinkPerPoint:
// the formula of public extension sheets, 25 000 kg of grain from 16.0 to
// 13.5 % and 1.1561 % a point; corn from 25 to 15.5 % loses 11.24 %.
// SteepedMoisture: arithmetic on a sample of 100 g at 12.4 %.
func TestWeights(t *testing.T) {
	for _, c := range []struct {
		what            string
		got, want, near float64 // half of the last digit printed
	}{
		{"25 t from 16 to 13.5 %", WeightAt(25000, 0.16, 0.135), 24277.5, 0.05},
		{"shrink of corn from 25 to 15.5 %", 1 - WeightAt(1, 0.25, 0.155), 0.1124, 0.00005},
		{"shrink per point at 13.5 %", ShrinkPerPoint(0.135), 0.011561, 5e-7},
		{"blotted to 156.9 g", float64(SteepedMoisture(0.1, 0.124, 0.1569, 0)), 0.442, 0.0005},
		{"with 0.8 % leached", float64(SteepedMoisture(0.1, 0.124, 0.1569, 0.008)), 0.446, 0.0005},
		{"not blotted, 162.0 g", float64(SteepedMoisture(0.1, 0.124, 0.1620, 0)), 0.459, 0.0005},
	} {
		if math.Abs(c.got-c.want) > c.near {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
}

func TestWeightsOutsideTheirRange(t *testing.T) {
	for what, got := range map[string]float64{
		"all water":               WeightAt(1, 1, 0.1),
		"to all water":            WeightAt(1, 0.1, 1),
		"negative weight":         WeightAt(-1, 0.1, 0.1),
		"shrink to all water":     ShrinkPerPoint(1),
		"lighter than dry matter": float64(SteepedMoisture(0.1, 0.1, 0.05, 0)),
		"all leached":             float64(SteepedMoisture(0.1, 0.1, 0.2, 1)),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s: %g, want NaN", what, got)
		}
	}
}
