package draw

import "math"

// mostPoints is how many points a line keeps at most: more cannot be seen on
// any page it is drawn for.
const mostPoints = 400

// seen is the distance, in units of a plot, below which a bend is not seen.
const seen = 0.3

type point struct{ x, y float64 }

// runs splits a series where it is not known and thins each run to what can
// be seen.
func runs(x, y []float64, sx, sy scale) [][]point {
	var out [][]point
	var run []point
	end := func() {
		if len(run) > 1 {
			out = append(out, thin(run))
		}
		run = nil
	}
	for i := range x {
		if math.IsNaN(y[i]) || math.IsInf(y[i], 0) {
			end()
			continue
		}
		run = append(run, point{sx.at(x[i]), sy.at(y[i])})
	}
	end()
	return out
}

// thin keeps the ends and the extremes of a line and drops what cannot be
// seen.
func thin(pts []point) []point {
	return straighten(extremes(pts, mostPoints))
}

// extremes divides the points into equal groups by index and keeps the lowest
// and highest of each, in their order.
func extremes(pts []point, most int) []point {
	if len(pts) <= most {
		return pts
	}
	groups := (most - 2) / 2
	out := []point{pts[0]}
	inner := pts[1 : len(pts)-1]
	for g := range groups {
		part := inner[g*len(inner)/groups : (g+1)*len(inner)/groups]
		if len(part) == 0 {
			continue
		}
		lo, hi := 0, 0
		for i, p := range part {
			if p.y < part[lo].y {
				lo = i
			}
			if p.y > part[hi].y {
				hi = i
			}
		}
		out = append(out, part[min(lo, hi)])
		if lo != hi {
			out = append(out, part[max(lo, hi)])
		}
	}
	return append(out, pts[len(pts)-1])
}

// straighten drops points that lie within sight of the chord between the
// points kept, as Douglas and Peucker do.
func straighten(pts []point) []point {
	if len(pts) < 3 {
		return pts
	}
	keep := make([]bool, len(pts))
	keep[0], keep[len(pts)-1] = true, true
	type stretch struct{ a, b int }
	todo := []stretch{{0, len(pts) - 1}}
	for len(todo) > 0 {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		far, at := seen, -1
		for i := s.a + 1; i < s.b; i++ {
			if d := offChord(pts[i], pts[s.a], pts[s.b]); d > far {
				far, at = d, i
			}
		}
		if at > 0 {
			keep[at] = true
			todo = append(todo, stretch{s.a, at}, stretch{at, s.b})
		}
	}
	out := pts[:0:0]
	for i, k := range keep {
		if k {
			out = append(out, pts[i])
		}
	}
	return out
}

// offChord is the distance of p from the stretch a to b.
func offChord(p, a, b point) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	if l := dx*dx + dy*dy; l > 0 {
		t := min(1, max(0, ((p.x-a.x)*dx+(p.y-a.y)*dy)/l))
		a = point{a.x + t*dx, a.y + t*dy}
	}
	return math.Hypot(p.x-a.x, p.y-a.y)
}
