package variety

import (
	"fmt"
	"math"
	"testing"

	"awn/mixed"
)

// The curve against the quantile itself.
func TestCurve(t *testing.T) {
	for _, stretch := range [][2]float64{{5, 15}, {20, 60}, {60, 9000}, {94, 98}, {99, 99}, {70, math.Inf(1)}} {
		a := &Analysis{Entries: make([]Entry, 2)}
		of := func(freedom float64) float64 { return mixed.DunnettQuantile(0.95, 17, freedom, 0.5) }
		c := a.quantiles(func(i int) float64 { return stretch[i] }, of)
		if c.wide {
			t.Errorf("%v needs no more than a curve", stretch)
		}
		for _, share := range []float64{0, 0.1, 0.4, 0.8, 1} {
			freedom := 1 / ((1-share)/stretch[0] + share/stretch[1])
			closeTo(t, fmt.Sprint(stretch, " at ", freedom), c.at(freedom), of(freedom), 3e-5)
		}
	}
}
