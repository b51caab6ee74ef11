package odds

import "math"

// TotalShare is how much of the variance of a figure would go if a group of
// its inputs were known, with its standard error. base is the figure in each
// draw, moved the figure in the same draw with the inputs of the group drawn
// anew.
//
//	T = (1/2n) sum of (base - moved)² / V
//
// Recalled: Jansen 1999; Saltelli 2010.
// Valid: two draws or more of a figure that varies; NaN otherwise.
// Check: the functions of Ishigami 1990 and of Saltelli 1995, shares in closed form.
func TotalShare(base, moved []float64) (share, deviation float64) {
	n := float64(len(base))
	centred := centre(base)
	variance := dot(centred, centred) / (n - 1)
	if !(n >= 2 && variance > 0) || len(moved) != len(base) {
		return math.NaN(), math.NaN()
	}
	sum, squares := 0.0, 0.0
	for i, x := range base {
		d := (x - moved[i]) * (x - moved[i]) / (2 * variance)
		sum += d
		squares += d * d
	}
	share = sum / n
	return share, math.Sqrt(max(0, squares/n-share*share) / (n - 1))
}
