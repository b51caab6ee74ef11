package lab

import (
	"math"

	"awn/odds"
)

// differ is the mean of y less that of x and the half width of its interval, 95 of
// 100, the spreads not taken for equal (Welch). NaN of fewer than two each.
func differ(x, y []float64) (step, half float64) {
	if len(x) < 2 || len(y) < 2 {
		return math.NaN(), math.NaN()
	}
	step = plainMean(y) - plainMean(x)
	vx, vy := square(deviation(x))/float64(len(x)), square(deviation(y))/float64(len(y))
	if vx+vy == 0 {
		return step, 0
	}
	freedom := square(vx+vy) / (square(vx)/float64(len(x)-1) + square(vy)/float64(len(y)-1))
	return step, odds.StudentQuantile(0.975, freedom) * math.Sqrt(vx+vy)
}

func square(x float64) float64 { return x * x }
