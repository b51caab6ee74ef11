package kiln

import (
	"math"

	"awn/barley"
)

// quickener brings the state in which a piece is dropped sooner to where it
// repeats itself. Piece by piece the decks near that state slowly when they are
// loaded to their limit; a step that takes out what the last two moves have in
// common gets there in a few (Anderson's method of depth two; recalled:
// Anderson 1965). A state is the moisture and temperature of all layers.
type quickener struct {
	moves, ends [][]float64 // of the last runs: how far each moved the state, and to where
}

const (
	depth     = 2
	perKelvin = 0.01 // of moisture, dry basis, that a kelvin weighs
	mostDB    = 1.2  // between which a quickened state is kept, kg per kg
	leastDB   = 0.02
)

// stateOf is a piece as one list of numbers of like size.
func stateOf(g *barley.Grain) []float64 {
	var out []float64
	for cell := range g.Cells() {
		out = append(out, g.CellMoistureDB(cell), perKelvin*g.TempC[cell])
	}
	return out
}

// settled says whether a piece is dropped as the one before: mean moisture and
// every layer within repeats.
func (q *quickener) settled(before, after *barley.Grain) bool {
	var sum, dry float64
	for cell := range after.Cells() {
		a, b := wetBasis(before.CellMoistureDB(cell)), wetBasis(after.CellMoistureDB(cell))
		if !(math.Abs(a-b) < repeats) {
			return false
		}
		sum += after.CellDryKg(cell) * (b - a)
		dry += after.CellDryKg(cell)
	}
	return math.Abs(sum/dry) < repeats
}

func wetBasis(x float64) float64 { return x / (1 + x) }

// step moves the next state on to where the last moves point.
func (q *quickener) step(before, next *barley.Grain) {
	from, to := stateOf(before), stateOf(next)
	move := make([]float64, len(to))
	for i := range to {
		move[i] = to[i] - from[i]
	}
	q.moves, q.ends = append(q.moves, move), append(q.ends, to)
	if len(q.moves) > depth+1 {
		q.moves, q.ends = q.moves[1:], q.ends[1:]
	}
	set(next, q.mixed())
}

// mixed is the mix of the last ends whose moves cancel best.
func (q *quickener) mixed() []float64 {
	n := len(q.moves) - 1
	move, end := q.moves[n], q.ends[n]
	out := append([]float64(nil), end...)
	// Least squares for the weights of the differences to earlier moves.
	var a [depth][depth]float64
	var b [depth]float64
	for i := range n {
		di := minus(move, q.moves[i])
		b[i] = dot(di, move)
		for j := range n {
			a[i][j] = dot(di, minus(move, q.moves[j]))
		}
	}
	weights := solve(a, b, n)
	for i := range n {
		for k := range out {
			out[k] -= weights[i] * (end[k] - q.ends[i][k])
		}
	}
	return out
}

// solve is the answer of up to two equations; none where they say the same.
func solve(a [depth][depth]float64, b [depth]float64, n int) (x [depth]float64) {
	const same = 1e-9
	det := a[0][0]*a[1][1] - a[0][1]*a[1][0]
	switch {
	case n == 2 && det > same*a[0][0]*a[1][1]:
		x[0], x[1] = (b[0]*a[1][1]-a[0][1]*b[1])/det, (a[0][0]*b[1]-a[1][0]*b[0])/det
	case n >= 1 && a[n-1][n-1] > 0:
		x[n-1] = b[n-1] / a[n-1][n-1]
	}
	return x
}

// set puts a state into the grain, within what grain can be.
func set(g *barley.Grain, state []float64) {
	for cell := range g.Cells() {
		g.WaterKg[cell] = min(max(state[2*cell], leastDB), mostDB) * g.CellDryKg(cell)
		g.TempC[cell] = min(max(state[2*cell+1]/perKelvin, 0), 100)
	}
}

func minus(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] - b[i]
	}
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
