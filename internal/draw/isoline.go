package draw

import "math"

// grid holds values at the crossings of columns (places across) and rows
// (places down), row by row.
type grid struct {
	x, y []float64
	v    []float64
}

func (g *grid) at(col, row int) float64 { return g.v[row*len(g.x)+col] }

// closed returns the grid with a rim of the given value laid on its edge, so
// that every isoline above that value closes along the edge.
func (g *grid) closed(rim float64) *grid {
	nx, ny := len(g.x)+2, len(g.y)+2
	pad := func(a []float64) []float64 {
		return append(append([]float64{a[0]}, a...), a[len(a)-1])
	}
	out := &grid{x: pad(g.x), y: pad(g.y), v: make([]float64, nx*ny)}
	for row := range ny {
		for col := range nx {
			v := rim
			if row > 0 && row < ny-1 && col > 0 && col < nx-1 {
				v = g.at(col-1, row-1)
			}
			out.v[row*nx+col] = v
		}
	}
	return out
}

// Sides of a grid cell.
const (
	top = iota
	right
	bottom
	left
)

// sides says, for each of the sixteen ways in which the four corners of a
// cell can lie above the level (bit 0 top left, then clockwise), which sides
// an isoline joins. The two saddles are settled by the middle of the cell.
var sides = [16][][2]int{
	0b0001: {{left, top}}, 0b0010: {{top, right}}, 0b0011: {{left, right}},
	0b0100: {{right, bottom}}, 0b0110: {{top, bottom}}, 0b0111: {{left, bottom}},
	0b1000: {{bottom, left}}, 0b1001: {{bottom, top}}, 0b1011: {{bottom, right}},
	0b1100: {{right, left}}, 0b1101: {{right, top}}, 0b1110: {{top, left}},
}

// isolines returns the lines on which the grid takes the value level. A ring
// repeats its first point at its end.
func (g *grid) isolines(level float64) [][]point {
	n := net{next: map[int][]int{}, at: map[int]point{}}
	for row := range len(g.y) - 1 {
		for col := range len(g.x) - 1 {
			for _, s := range g.cross(col, row, level) {
				a, b := g.side(col, row, s[0]), g.side(col, row, s[1])
				n.at[a], n.at[b] = g.meet(a, level), g.meet(b, level)
				n.join(a, b)
			}
		}
	}
	return n.lines()
}

// cross says which sides of a cell the isoline joins.
func (g *grid) cross(col, row int, level float64) [][2]int {
	corner := [4]float64{g.at(col, row), g.at(col+1, row), g.at(col+1, row+1), g.at(col, row+1)}
	kind, sum := 0, 0.0
	for i, v := range corner {
		if math.IsNaN(v) {
			return nil
		}
		if v >= level {
			kind |= 1 << i
		}
		sum += v
	}
	switch {
	case kind == 0b0101 && sum/4 >= level, kind == 0b1010 && sum/4 < level:
		return [][2]int{{left, bottom}, {top, right}}
	case kind == 0b0101, kind == 0b1010:
		return [][2]int{{left, top}, {bottom, right}}
	}
	return sides[kind]
}

// side numbers a side of a cell so that neighbours agree: an even number for
// a horizontal side, an odd one for an upright side.
func (g *grid) side(col, row, s int) int {
	switch s {
	case bottom:
		row++
	case right:
		col++
	}
	number := 2 * (row*len(g.x) + col)
	if s == left || s == right {
		number++
	}
	return number
}

// meet is where the isoline crosses a side.
func (g *grid) meet(side int, level float64) point {
	node := side / 2
	col, row := node%len(g.x), node/len(g.x)
	a := g.v[node]
	if side%2 == 0 {
		return point{between(g.x[col], g.x[col+1], a, g.v[node+1], level), g.y[row]}
	}
	return point{g.x[col], between(g.y[row], g.y[row+1], a, g.v[node+len(g.x)], level)}
}

// between is where the value passes level on its straight way from a at p to
// b at q.
func between(p, q, a, b, level float64) float64 {
	t := (level - a) / (b - a)
	if math.IsNaN(t) || math.IsInf(a, 0) || math.IsInf(b, 0) {
		t = 0.5
	}
	return p + min(1, max(0, t))*(q-p)
}

// net joins the pieces of isolines that meet on a side.
type net struct {
	next  map[int][]int
	at    map[int]point
	order []int // sides as they were first met, so that lines come out in one order
}

func (n *net) join(a, b int) {
	for _, s := range [2]int{a, b} {
		if len(n.next[s]) == 0 {
			n.order = append(n.order, s)
		}
	}
	n.next[a] = append(n.next[a], b)
	n.next[b] = append(n.next[b], a)
}

// lines walks the net: first from loose ends, then round the rings.
func (n *net) lines() [][]point {
	var out [][]point
	for _, ends := range [2]int{1, 2} {
		for _, s := range n.order {
			if len(n.next[s]) == ends {
				out = append(out, n.walk(s))
			}
		}
	}
	return out
}

// walk follows the pieces from a side until there are none left, and takes
// them out of the net.
func (n *net) walk(from int) []point {
	line := []point{n.at[from]}
	for len(n.next[from]) > 0 {
		to := n.next[from][0]
		n.cut(from, to)
		n.cut(to, from)
		line = append(line, n.at[to])
		from = to
	}
	return line
}

func (n *net) cut(a, b int) {
	for i, s := range n.next[a] {
		if s == b {
			n.next[a] = append(n.next[a][:i:i], n.next[a][i+1:]...)
			return
		}
	}
}
