package crop

import (
	"cmp"
	"math"
	"slices"

	"awn/odds"
)

// Quantile is the figure below which a share of the harvest lies.
type Quantile struct {
	Share     float64
	Value     float64
	Low, High float64 // NaN where the limit lies beyond the smallest or the largest sample
	Below     bool    // Low lies below the smallest
	Above     bool    // High lies above the largest
	SE        float64 // NaN where an end is missing
}

// Distribution is how the harvest is spread over a quality, by tonnes.
type Distribution struct {
	X, Upto []float64 // distinct figures, rising, and the share at or below each
	design  *Design
	y       []float64
	in      Domain
}

// sumSlack is by how much a sum of weights may miss a share and still reach it.
const sumSlack = 1e-12

// Distribution is the distribution of y over a domain.
func (d *Design) Distribution(y []float64, in Domain) Distribution {
	in = known(y, in)
	type point struct{ x, w float64 }
	var all []point
	for i, w := range d.weight {
		if in[i] {
			all = append(all, point{y[i], w})
		}
	}
	slices.SortFunc(all, func(a, b point) int { return cmp.Compare(a.x, b.x) })
	out := Distribution{design: d, y: y, in: in}
	total, sum := d.total(in), 0.0
	for i, p := range all {
		sum += p.w
		if i+1 == len(all) || all[i+1].x > p.x {
			out.X, out.Upto = append(out.X, p.x), append(out.Upto, sum/total)
		}
	}
	return out
}

// At is the least figure with at least a share of the harvest at or below it.
//
//	q = least y with F(y) ≥ p
//
// Definition.
// Valid: a share from 0 to 1; NaN outside.
func (f Distribution) At(share float64) float64 {
	if !(share >= 0 && share <= 1) || len(f.X) == 0 {
		return math.NaN()
	}
	i, _ := slices.BinarySearchFunc(f.Upto, share, func(upto, share float64) int {
		return cmp.Compare(upto, share-sumSlack)
	})
	return f.X[min(i, len(f.X)-1)]
}

// Quantile is the figure below which a share lies, with limits found by carrying
// those of the share through the distribution.
//
//	q = least y with F(y) ≥ p;   limits: F⁻¹(F(q) ± t s(F(q)))
//
// Recalled: Woodruff 1952.
// Valid: NaN without samples; a limit beyond the smallest or largest sample is said to be.
// Check: the survey package of R, 4.1-1, on invented samples.
func (f Distribution) Quantile(share, confidence float64) Quantile {
	nan := math.NaN()
	q := Quantile{Share: share, Value: f.At(share), Low: nan, High: nan, SE: nan}
	if math.IsNaN(q.Value) {
		return q
	}
	under := make([]float64, len(f.y))
	for i, y := range f.y {
		if f.in[i] && y <= q.Value {
			under[i] = 1
		}
	}
	e := f.design.Mean(under, f.in)
	t := odds.StudentQuantile((1+confidence)/2, float64(e.Freedom))
	if math.IsNaN(t) {
		return q
	}
	low, high := e.Value-t*e.SE, e.Value+t*e.SE
	q.Low, q.High = f.At(low), f.At(high)
	q.Below, q.Above = low < 0, high > 1
	q.SE = (q.High - q.Low) / (2 * t)
	return q
}
