package bed

import "math"

// Split shares air between spots that stand on one plenum pressure. It sets
// dst to the velocity in each spot, so that their mean over the floor is
// meanMS, and returns the pressure, Pa. Air goes where the bed is thin.
//
//	Σ share · Velocity(ΔP) = mean, solved for ΔP
//
// Assumed: one pressure below and one above the whole bed.
// Valid: mean of 0 or more and no spot beyond 3 m/s; NaN outside.
// Check: all air is shared at one pressure, in the tests; spots of 0.9 and
// 1.1 m take 1.070 and 0.940 of the air of one of 1.0 m.
func Split(dst []float64, spots []Spot, meanMS float64) (dropPa float64) {
	if !(meanMS > 0) {
		return still(dst, meanMS)
	}
	const enough, most = 1e-9, 50
	dropPa = firstDrop(spots, meanMS)
	mean, slope := 0.0, 0.0
	for range most {
		mean, slope = 0, 0
		for i, s := range spots {
			v, n := s.flow(dropPa)
			dst[i] = v
			mean += s.Share * v
			slope += s.Share * v * n
		}
		if math.Abs(mean-meanMS) < enough*meanMS {
			break
		}
		dropPa *= math.Exp(math.Log(meanMS/mean) * mean / slope)
	}
	for i := range dst {
		dst[i] *= meanMS / mean // what is left of the air is shared out too
		if !(dst[i] <= MostMS) {
			return still(dst, math.NaN())
		}
	}
	return dropPa
}

// firstDrop is the mean pressure if every spot had the same velocity.
func firstDrop(spots []Spot, meanMS float64) float64 {
	sum := 0.0
	for _, s := range spots {
		sum += s.Share * s.Drop(min(meanMS, MostMS))
	}
	return sum
}

// still sets all to one value: 0 for no flow, NaN for none that is known.
func still(dst []float64, value float64) float64 {
	if value != 0 {
		value = math.NaN()
	}
	for i := range dst {
		dst[i] = value
	}
	return value
}
