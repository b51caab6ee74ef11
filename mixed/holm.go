package mixed

import (
	"math"
	"slices"
)

// Holm adjusts p-values for their number, so that the chance of any false
// finding among them stays at what each says. NaN stay out of the count.
//
//	p(i) = max over j <= i of min(1, (m-j+1) p(j)), p rising
func Holm(p []float64) []float64 {
	out := slices.Clone(p)
	var order []int
	for i, x := range p {
		if !math.IsNaN(x) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		if p[i] < p[j] {
			return -1
		}
		return 1
	})
	worst := 0.0
	for rank, i := range order {
		worst = max(worst, min(1, float64(len(order)-rank)*p[i]))
		out[i] = worst
	}
	return out
}
