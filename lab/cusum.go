package lab

import "math"

// The usual design of the two charts that see drift, in standard deviations: they
// answer a shift of one and give a false alarm once in some 500 readings.
const (
	Allowance     = 0.5   // k of the cumulative sum
	Decision      = 5.0   // h
	Weight        = 0.2   // of the newest reading in the weighted mean
	WeightedLimit = 2.962 // times its deviation
)

// Cusum is the cumulative sums of readings above and below the centre. A missing
// reading leaves them as they were.
type Cusum struct{ Up, Down []float64 }

// NewCusum adds up by how much readings lie beyond an allowance on either side:
// S(i) = max(0, S(i-1) + z(i) - k), and with -z below.
func NewCusum(z []float64, allowance float64) Cusum {
	c := Cusum{make([]float64, len(z)), make([]float64, len(z))}
	up, down := 0.0, 0.0
	for i, x := range z {
		if !math.IsNaN(x) {
			up, down = max(0, up+x-allowance), max(0, down-x-allowance)
		}
		c.Up[i], c.Down[i] = up, down
	}
	return c
}

// CusumRunLength is how many readings pass on average until the cumulative sums,
// both together, reach the decision limit when the centre has moved by a shift; all
// in standard deviations. With no shift it is the time between false alarms.
//
//	1/L = 1/L+ + 1/L-;   L± = (exp(-2 D b) + 2 D b - 1)/(2 D²), D = ±shift - k, b = h + 1.166;   b² at D = 0
//
// Recalled: Siegmund 1985.
// Valid: k and h above 0; NaN outside. Within 3 % of exact tables.
// Check: Montgomery 2009, k = 0.5 and h = 5: 469 with no shift, 10.3 at one deviation (recalled).
func CusumRunLength(shift, k, h float64) float64 {
	if !(k > 0) || !(h > 0) {
		return math.NaN()
	}
	b := h + 1.166
	one := func(d float64) float64 {
		if math.Abs(d) < 1e-6 {
			return b * b
		}
		return (math.Exp(-2*d*b) + 2*d*b - 1) / (2 * d * d)
	}
	return 1 / (1/one(shift-k) + 1/one(-shift-k))
}

// Weighted is the exponentially weighted mean after each reading, beginning at the
// centre: w(i) = l x(i) + (1-l) w(i-1). A missing reading leaves it as it was.
func Weighted(x []float64, centre, weight float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		if !math.IsNaN(v) {
			centre = weight*v + (1-weight)*centre
		}
		out[i] = centre
	}
	return out
}

// WeightedDeviation is the standard deviation of the exponentially weighted mean
// after so many readings, as a share of that of one; of endless many it is
// sqrt(l/(2-l)).
//
//	sqrt(l/(2-l) (1 - (1-l)^(2n)))
//
// Recalled: NIST e-Handbook, 6.3.2.4.
// Valid: weight above 0 and up to 1, n from 0; NaN outside.
// Check: 0.4201 for a weight of 0.3 after many; 1 for a weight of 1.
func WeightedDeviation(weight float64, n int) float64 {
	if !(weight > 0 && weight <= 1) || n < 0 {
		return math.NaN()
	}
	return math.Sqrt(weight / (2 - weight) * (1 - math.Pow(1-weight, float64(2*n))))
}
