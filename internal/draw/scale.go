package draw

import "math"

// scale carries values of an axis to places of a plot.
type scale struct{ from, to, placeFrom, placeTo float64 }

func (s scale) at(v float64) float64 {
	if s.to == s.from {
		return s.placeFrom
	}
	return s.placeFrom + (v-s.from)/(s.to-s.from)*(s.placeTo-s.placeFrom)
}

// ticks are round values from low to high, about n of them, with the number
// of decimals that tells them apart.
func ticks(low, high float64, n int) (at []float64, decimals int) {
	step, decimals := roundStep((high - low) / float64(max(n, 1)))
	if step == 0 {
		return []float64{low}, 0
	}
	for k := math.Ceil(low/step-1e-9) + 0; k*step <= high+1e-9*step; k++ {
		at = append(at, k*step)
	}
	return at, decimals
}

// roundStep is the least of 1, 2, 5 times a power of ten that is not below
// raw.
func roundStep(raw float64) (step float64, decimals int) {
	if !(raw > 0) || math.IsInf(raw, 0) {
		return 0, 0
	}
	exp := math.Floor(math.Log10(raw))
	unit := math.Pow(10, exp)
	for _, m := range [...]float64{1, 2, 5, 10} {
		if m*unit >= raw*(1-1e-9) {
			step = m * unit
			break
		}
	}
	return step, max(0, -int(math.Floor(math.Log10(step)+1e-9)))
}

// span is the least and greatest of the known values; NaN if none is known.
func span(values ...[]float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, vs := range values {
		for _, v := range vs {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				continue
			}
			low, high = min(low, v), max(high, v)
		}
	}
	if low > high {
		return math.NaN(), math.NaN()
	}
	return low, high
}

// hourSteps are the distances of ticks on a time axis.
var hourSteps = [...]float64{1, 2, 3, 6, 12, 24, 48, 96}

// hours are round hours for a time axis, at most n of them.
func hours(fromH, toH float64, n int) []float64 {
	step := hourSteps[len(hourSteps)-1]
	for _, s := range hourSteps {
		if (toH-fromH)/s <= float64(n) {
			step = s
			break
		}
	}
	var at []float64
	for k := math.Ceil(fromH/step-1e-9) + 0; k*step <= toH+1e-9; k++ {
		at = append(at, k*step)
	}
	return at
}
