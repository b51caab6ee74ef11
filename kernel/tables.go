package kernel

import "math"

// Shapes that hold no uncertain parameter once their argument is scaled are
// tabled: the clock is asked a million times for one piece.
const (
	awakePower   = 1.5
	awakePerUnit = 128
	awakeEnd     = 8 // 1 - awake is 1.5e-10 there

	gatePerUnit = 64
	gateEnd     = 20 // 1 - gate is 2e-9 there

	risePerUnit = 256
	riseEnd     = 2
)

// chord is the straight line from one tabled point to the next.
type chord struct{ from, rise float64 }

// chords are those of a function over whole numbers from 0.
func chords(n int, f func(i float64) float64) []chord {
	t := make([]chord, n)
	for i := range t {
		from := f(float64(i))
		t[i] = chord{from, f(float64(i+1)) - from}
	}
	return t
}

// on reads a table at x, which lies within it.
func on(t []chord, x float64) float64 {
	c := &t[int(x)]
	return c.from + (x-float64(int(x)))*c.rise
}

var (
	awakeTable = chords(awakeEnd*awakePerUnit, func(i float64) float64 {
		return -math.Expm1(-math.Pow(i/awakePerUnit, awakePower))
	})
	gateTable = chords(2*gateEnd*gatePerUnit, func(i float64) float64 {
		return 1 / (1 + math.Exp(gateEnd-i/gatePerUnit))
	})
	riseTable = chords(2*riseEnd*risePerUnit, func(i float64) float64 {
		return math.Exp(i/risePerUnit - riseEnd)
	})
)

// awake is 1 - e^(-u^1.5), straight between tabled points: within 1e-4.
func awake(u float64) float64 {
	x := u * awakePerUnit
	if !(x < awakeEnd*awakePerUnit) {
		return 1
	}
	return on(awakeTable, x)
}

// gate is 1/(1 + e^-z) with z = (x - middle)/width, straight between tabled
// points: within 3e-6.
func gate(x, middle, width float64) float64 {
	z := ((x-middle)/width + gateEnd) * gatePerUnit
	switch {
	case z <= 0:
		return 0
	case !(z < 2*gateEnd*gatePerUnit):
		return 1
	}
	return on(gateTable, z)
}

// rise is e^z, tabled for small z: within 2e-6 of itself.
func rise(z float64) float64 {
	x := (z + riseEnd) * risePerUnit
	if !(x >= 0 && x < 2*riseEnd*risePerUnit) {
		return math.Exp(z)
	}
	return on(riseTable, x)
}
