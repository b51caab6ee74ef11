package kiln

import (
	"math"
	"testing"
)

// feed shows a watch air-off at points of hour, temperature and humidity.
func feed(b *watch, heating bool, points ...[3]float64) {
	for i := 1; i < len(points); i++ {
		a, z := points[i-1], points[i]
		for k := 0; k < 60; k++ {
			f := float64(k) / 60
			b.see(a[0]+f*(z[0]-a[0]), a[1]+f*(z[1]-a[1]), a[2]+f*(z[2]-a[2]), heating, 0.42)
		}
	}
}

// The plateau lies at 25 °C. Air-off falls below 85 % at 6.5 h and is 3 K above
// the plateau at 6.6 h.
func TestBreakIsWhenBothCrossingsAreMade(t *testing.T) {
	b := newWatch()
	feed(&b, true, [3]float64{0, 25, 1}, [3]float64{6, 25, 1}, [3]float64{7, 30, 0.7}, [3]float64{8, 40, 0.4})
	near(t, "dry", b.found.DryH, 6.5, 1e-3)
	near(t, "warm", b.found.WarmH, 6.6, 0.02) // the plateau is a bin of 0.1 °C
	near(t, "break", b.found.AtH, b.found.WarmH, 0)
	near(t, "plateau", b.found.Plateau, 25, 0.1)
	near(t, "worst layer", b.found.WorstWB, 0.42, 0)
}

func TestNoBreak(t *testing.T) {
	plateau, dry := [3]float64{6, 25, 1}, [3]float64{7, 30, 0.7}
	for name, run := range map[string]func(b *watch){
		"cooling air": func(b *watch) {
			feed(b, true, [3]float64{0, 25, 1}, plateau)
			feed(b, false, plateau, dry, [3]float64{8, 40, 0.4})
		},
		"no plateau": func(b *watch) {
			feed(b, true, [3]float64{0, 25, 0.9}, [3]float64{6, 25, 0.9}, dry, [3]float64{8, 40, 0.4})
		},
		"a plateau of twenty minutes": func(b *watch) {
			feed(b, true, [3]float64{0, 25, 0.9}, [3]float64{1, 25, 0.949}, [3]float64{1.05, 25, 1}, [3]float64{1.35, 25, 1}, [3]float64{2, 40, 0.4})
		},
		"dry air that has not warmed": func(b *watch) { feed(b, true, [3]float64{0, 25, 1}, plateau, [3]float64{9, 27, 0.5}) },
		"ten minutes, then wet again": func(b *watch) {
			feed(b, true, [3]float64{0, 25, 1}, plateau, [3]float64{6.1, 29, 0.8}, [3]float64{6.25, 29, 0.8}, [3]float64{6.3, 27, 0.9}, [3]float64{9, 27, 0.9})
		},
	} {
		b := newWatch()
		run(&b)
		if !math.IsNaN(b.found.AtH) {
			t.Errorf("%s: break at %.2f h", name, b.found.AtH)
		}
	}
}
