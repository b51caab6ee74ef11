package draw

import (
	"math"
	"testing"
)

// gridOf samples a function on n by m crossings of the unit square.
func gridOf(n, m int, f func(x, y float64) float64) *grid {
	g := &grid{}
	for i := range n {
		g.x = append(g.x, float64(i)/float64(n-1))
	}
	for j := range m {
		g.y = append(g.y, float64(j)/float64(m-1))
		for i := range n {
			g.v = append(g.v, f(g.x[i], g.y[j]))
		}
	}
	return g
}

// The isoline of a plane is a straight line, met exactly by interpolation
// along straight sides.
func TestIsolineOfAPlane(t *testing.T) {
	lines := gridOf(13, 9, func(x, y float64) float64 { return 2*x + y }).isolines(1.1)
	if len(lines) != 1 {
		t.Fatalf("%d lines, want one", len(lines))
	}
	for _, p := range lines[0] {
		if math.Abs(2*p.x+p.y-1.1) > 1e-12 {
			t.Errorf("%v does not lie on the plane's line", p)
		}
	}
	if from, to := lines[0][0], lines[0][len(lines[0])-1]; math.Abs(from.y-to.y) != 1 {
		t.Errorf("the line runs from %v to %v, not from edge to edge", from, to)
	}
}

// The isoline of a cone is a circle: one ring, of radius 0.3 within what
// straight sides of 1/60 can miss of it (a sagitta of h²/8r is 1.2e-4), and of
// its area.
func TestIsolineOfACone(t *testing.T) {
	lines := gridOf(61, 61, func(x, y float64) float64 { return math.Hypot(x-0.5, y-0.5) }).isolines(0.3)
	if len(lines) != 1 {
		t.Fatalf("%d lines, want one", len(lines))
	}
	ring := lines[0]
	if ring[0] != ring[len(ring)-1] {
		t.Error("the ring does not close")
	}
	area := 0.0
	for i, p := range ring[:len(ring)-1] {
		if r := math.Hypot(p.x-0.5, p.y-0.5); math.Abs(r-0.3) > 2e-4 {
			t.Errorf("radius %g, want 0.3", r)
		}
		area += p.x*ring[i+1].y - p.y*ring[i+1].x
	}
	if got, want := math.Abs(area)/2, math.Pi*0.09; math.Abs(got/want-1) > 2e-3 {
		t.Errorf("area %g, want %g", got, want)
	}
}

// A saddle has two lines at its own level's either side, and they never cross.
func TestIsolinesOfASaddle(t *testing.T) {
	for _, level := range []float64{-0.01, 0.01} {
		lines := gridOf(10, 10, func(x, y float64) float64 { return (x - 0.5) * (y - 0.5) }).isolines(level)
		if len(lines) != 2 {
			t.Errorf("level %g: %d lines, want two", level, len(lines))
		}
	}
}

// Closed against a rim, every isoline is a ring.
func TestClosedGridHasRingsOnly(t *testing.T) {
	g := gridOf(12, 7, func(x, y float64) float64 { return math.Sin(9*x) + y }).closed(math.Inf(-1))
	for _, level := range []float64{-0.2, 0.3, 0.9, 1.4} {
		for _, l := range g.isolines(level) {
			if l[0] != l[len(l)-1] {
				t.Errorf("level %g: a line from %v to %v is open", level, l[0], l[len(l)-1])
			}
		}
	}
}

func TestUnknownCellsHaveNoIsoline(t *testing.T) {
	g := gridOf(3, 3, func(x, _ float64) float64 { return x })
	g.v[4] = math.NaN()
	if lines := g.isolines(0.25); len(lines) != 0 {
		t.Errorf("%d lines through cells with an unknown corner", len(lines))
	}
}
