package lab

import (
	"math"

	"awn/odds"
)

// Pair is one sample read by two benches, each figure the mean of so many results.
type Pair struct {
	Sample string
	A, B   float64
	NA, NB int
}

// Agreement is how two benches stand to each other.
type Agreement struct {
	Pairs       int
	Difference  float64 // mean of B less A
	SE          float64
	Low, High   float64 // of the difference, 95 of 100
	Deviation   float64 // of single differences
	Allowed     float64 // of the difference that stays however many are read; NaN if the method has no precision
	Beyond      float64 // chance that the true difference is larger than allowed
	Outside     int     // pairs that differ by more than the method allows a single one
	Line        Line    // of B upon A
	Widest      int     // the pair that differs most
	Differ      float64 // chance that they differ at all: how sure its sign is
	R95, Repeat float64 // as published, at the mean
}

// leastPairs is how many samples two benches must share to be compared.
const leastPairs = 3

// Agree compares two benches on the samples that they share; r95 and repeat95 are
// the published limits of the difference of two results, NaN where there are none.
// Of fewer than three pairs it reports false.
func Agree(pairs []Pair, ratio, r95, repeat95 float64) (Agreement, bool) {
	n := len(pairs)
	if n < leastPairs {
		return Agreement{}, false
	}
	g := Agreement{Pairs: n, R95: r95, Repeat: repeat95, Beyond: math.NaN()}
	d, a, b := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range pairs {
		d[i], a[i], b[i] = p.B-p.A, p.A, p.B
		if math.Abs(d[i]) > CriticalDifference(r95, repeat95, p.NA, p.NB) {
			g.Outside++
		}
		if math.Abs(d[i]) > math.Abs(d[g.Widest]) {
			g.Widest = i
		}
	}
	g.Difference = plainMean(d)
	g.Deviation = deviation(d)
	g.SE = g.Deviation / math.Sqrt(float64(n))
	freedom := float64(n - 1)
	half := odds.StudentQuantile(0.975, freedom) * g.SE
	g.Low, g.High = g.Difference-half, g.Difference+half
	g.Allowed = LastingDifference(r95, repeat95)
	if g.SE > 0 {
		g.Differ = odds.StudentChance(math.Abs(g.Difference)/g.SE, freedom)
		if !math.IsNaN(g.Allowed) {
			g.Beyond = odds.StudentChance((-g.Allowed-g.Difference)/g.SE, freedom) + 1 - odds.StudentChance((g.Allowed-g.Difference)/g.SE, freedom)
		}
	}
	g.Line = Deming(a, b, ratio)
	return g, true
}

// deviation is the usual standard deviation of a sample; NaN of one.
func deviation(x []float64) float64 {
	centre, sum := plainMean(x), 0.0
	for _, v := range x {
		sum += (v - centre) * (v - centre)
	}
	return math.Sqrt(sum / float64(len(x)-1))
}

// CriticalDifference is how far the means of na and nb results of two laboratories
// may differ, 19 times out of 20.
//
//	sqrt(R² - r² (1 - 1/(2 na) - 1/(2 nb)))
//
// Recalled: ISO 5725-6.
// Valid: one result or more each; NaN outside. Where r is not known it is R, which is what single results may do.
// Check: single results give R itself.
func CriticalDifference(r95, repeat95 float64, na, nb int) float64 {
	if na < 1 || nb < 1 {
		return math.NaN()
	}
	if math.IsNaN(repeat95) {
		return r95
	}
	return math.Sqrt(r95*r95 - repeat95*repeat95*(1-1/(2*float64(na))-1/(2*float64(nb))))
}

// LastingDifference is how far two laboratories may differ, 19 times out of 20,
// however often they repeat: what is owed to the laboratory and not to the result.
//
//	sqrt(R² - r²)
//
// Recalled: ISO 5725-6, the critical difference of endless results.
// Valid: R not below r; NaN outside. Where r is not known it is R.
// Check: the critical difference of 10 000 results each.
func LastingDifference(r95, repeat95 float64) float64 {
	if math.IsNaN(repeat95) {
		return r95
	}
	return math.Sqrt(r95*r95 - repeat95*repeat95)
}

// Line is a straight line through readings of two benches that both err.
type Line struct {
	Slope, Offset     float64
	SlopeSE, OffsetSE float64
	SlopeLow          float64 // 95 of 100
	SlopeHigh         float64
}

// Deming fits y = offset + slope x where both are in error; ratio is the variance
// of the errors of y over that of x. Standard errors are by leaving out one reading
// at a time. All is NaN of fewer than four readings, or where they have no trend.
//
//	b = (Syy - l Sxx + sqrt((Syy - l Sxx)² + 4 l Sxy²)) / (2 Sxy),   a = mean y - b mean x
//
// Recalled: Linnet 1993.
// Check: NCSS 303, worked example.
func Deming(x, y []float64, ratio float64) Line {
	nothing := math.NaN()
	l := Line{nothing, nothing, nothing, nothing, nothing, nothing}
	n := len(x)
	if n != len(y) || n < 4 || !(ratio > 0) {
		return l
	}
	l.Offset, l.Slope = deming(x, y, ratio, -1)
	slopes, offsets := make([]float64, n), make([]float64, n)
	for i := range x {
		a, b := deming(x, y, ratio, i)
		slopes[i], offsets[i] = float64(n)*l.Slope-float64(n-1)*b, float64(n)*l.Offset-float64(n-1)*a
	}
	root := math.Sqrt(float64(n))
	l.SlopeSE, l.OffsetSE = deviation(slopes)/root, deviation(offsets)/root
	half := odds.StudentQuantile(0.975, float64(n-2)) * l.SlopeSE
	l.SlopeLow, l.SlopeHigh = l.Slope-half, l.Slope+half
	return l
}

// deming is the line without reading but.
func deming(x, y []float64, ratio float64, but int) (offset, slope float64) {
	n, meanX, meanY := 0.0, 0.0, 0.0
	for i := range x {
		if i != but {
			n, meanX, meanY = n+1, meanX+x[i], meanY+y[i]
		}
	}
	meanX, meanY = meanX/n, meanY/n
	xx, yy, xy := 0.0, 0.0, 0.0
	for i := range x {
		if i != but {
			xx, yy, xy = xx+(x[i]-meanX)*(x[i]-meanX), yy+(y[i]-meanY)*(y[i]-meanY), xy+(x[i]-meanX)*(y[i]-meanY)
		}
	}
	if xy == 0 {
		return math.NaN(), math.NaN()
	}
	slope = (yy - ratio*xx + math.Sqrt((yy-ratio*xx)*(yy-ratio*xx)+4*ratio*xy*xy)) / (2 * xy)
	return meanY - slope*meanX, slope
}
