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

	nearPerUnit = 256
	nearEnd     = 1
)

var awakeTable = func() (t [awakeEnd*awakePerUnit + 2]float64) {
	for i := range t {
		t[i] = -math.Expm1(-math.Pow(float64(i)/awakePerUnit, awakePower))
	}
	return t
}()

var gateTable = func() (t [2*gateEnd*gatePerUnit + 2]float64) {
	for i := range t {
		t[i] = 1 / (1 + math.Exp(gateEnd-float64(i)/gatePerUnit))
	}
	return t
}()

var nearTable = func() (t [2*nearEnd*nearPerUnit + 2]float64) {
	for i := range t {
		t[i] = math.Exp(float64(i)/nearPerUnit - nearEnd)
	}
	return t
}()

// awake is 1 - e^(-u^1.5), straight between tabled points: within 1e-4.
func awake(u float64) float64 {
	x := u * awakePerUnit
	if !(x < awakeEnd*awakePerUnit) {
		return 1
	}
	i := int(x)
	return awakeTable[i] + (x-float64(i))*(awakeTable[i+1]-awakeTable[i])
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
	i := int(z)
	return gateTable[i] + (z-float64(i))*(gateTable[i+1]-gateTable[i])
}

// near is e^z, tabled for small z: within 2e-6 of itself.
func near(z float64) float64 {
	x := (z + nearEnd) * nearPerUnit
	if !(x >= 0 && x < 2*nearEnd*nearPerUnit) {
		return math.Exp(z)
	}
	i := int(x)
	return nearTable[i] + (x-float64(i))*(nearTable[i+1]-nearTable[i])
}
