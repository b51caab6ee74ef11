package intake

import "math"

// unrounded is the number of decimals of a figure that is taken as it is.
const unrounded = -1

// roundSlack lets a figure that was written as ...5 round up although binary
// numbers may hold it a hair below.
const roundSlack = 1e-9

// HalfUp rounds a figure to so many decimals, a half upwards, as grade
// certificates do.
//
//	floor(10^n x + 1/2)/10^n
//
// Source: 7 CFR 810.104.
// Check: 1.95 gives 2.0 and 1.94 gives 1.9 to one decimal.
func HalfUp(x float64, decimals int) float64 {
	if decimals <= unrounded {
		return x
	}
	scale := math.Pow(10, float64(decimals))
	return math.Floor(x*scale+0.5+roundSlack) / scale
}

// HalfPercentDown is dockage as it is recorded: in whole and half per cent,
// what is over being dropped. Both are shares.
//
//	floor(200 x)/200
//
// Source: 7 CFR 810.104.
// Check: 1.74 % is recorded as 1.5 %.
func HalfPercentDown(share float64) float64 { return math.Floor(200*share+roundSlack) / 200 }

// The bands of plump barley, in per cent: where they begin, and their width.
const plumpFirst, plumpWidth = 50, 5

// PlumpBand is the band in which plump barley is certified: below 50, 50 to
// 55, 56 to 60, 61 to 65 ... per cent, the reading in whole per cent. All are
// shares.
//
//	top = 5 ceil(p/5), least = top - 4      (p above 55 %)
//
// Source: 7 CFR 810.104.
// Valid: 0 to 1; NaN outside.
// Check: the bands as printed.
func PlumpBand(share float64) (least, most float64) {
	p := HalfUp(100*share, 0)
	switch {
	case !(p >= 0 && p <= 100):
		return math.NaN(), math.NaN()
	case p < plumpFirst:
		return 0, (plumpFirst - 1) / 100.
	case p <= plumpFirst+plumpWidth:
		return plumpFirst / 100., (plumpFirst + plumpWidth) / 100.
	}
	top := math.Ceil(p/plumpWidth) * plumpWidth
	return (top - plumpWidth + 1) / 100, top / 100
}
