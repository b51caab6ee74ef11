package kernel

import "math"

// The rise of respiration with growth age holds no uncertain parameter once
// age is counted in onsets, so it is tabled.
const (
	awakePower   = 1.5
	awakePerUnit = 128
	awakeEnd     = 8 // 1 - awake is 1.5e-10 there
)

var awakeTable = func() (t [awakeEnd*awakePerUnit + 2]float64) {
	for i := range t {
		t[i] = -math.Expm1(-math.Pow(float64(i)/awakePerUnit, awakePower))
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
