package variety

import "math"

// Desirability is how well a figure pleases, 0 to 1: 0 at what cannot be used, 1
// at what cannot be bettered.
type Desirability struct {
	Trait     string
	Direction Direction // Higher, Lower, or Window with its aim at Target
	Low, High float64   // where it stops to please; for Higher and Lower one of them is where it pleases wholly
	Target    float64   // of a Window
	Shape     float64   // 1 is a straight rise, more is slow at first; 1 if 0
	Weight    float64   // in the mean of several; 1 if 0
}

// Of is the desirability of a figure.
//
//	higher: ((y-L)/(H-L))^s,   lower: ((H-y)/(H-L))^s,   window: the first up to the target, the second beyond
//
// Recalled: Derringer 1980, as given in public help pages on desirability.
// Valid: Low below High, a target of a window between; NaN else.
// Check: the ends and the middle, by hand.
func (d Desirability) Of(y float64) float64 {
	if math.IsNaN(y) || !(d.Low < d.High) {
		return math.NaN()
	}
	shape := d.Shape
	if shape == 0 {
		shape = 1
	}
	rise := func(from, to float64) float64 {
		return math.Pow(math.Min(math.Max((y-from)/(to-from), 0), 1), shape)
	}
	switch d.Direction {
	case Higher:
		return rise(d.Low, d.High)
	case Lower:
		return rise(d.High, d.Low)
	case Window:
		if !(d.Low < d.Target && d.Target < d.High) {
			return math.NaN()
		}
		if y <= d.Target {
			return rise(d.Low, d.Target)
		}
		return rise(d.High, d.Target)
	}
	return math.NaN()
}

// Overall is the desirability of several figures together: one that cannot be
// used spoils all.
//
//	D = (product d^w)^(1/sum w)
//
// Recalled: Derringer 1980, the weighted form as given in public help pages.
// Valid: one figure for each wish; NaN else.
// Check: the geometric mean, by hand.
func Overall(wishes []Desirability, figures []float64) float64 {
	if len(wishes) != len(figures) || len(wishes) == 0 {
		return math.NaN()
	}
	sum, weights := 0.0, 0.0
	for i, w := range wishes {
		d, weight := w.Of(figures[i]), w.Weight
		if weight == 0 {
			weight = 1
		}
		if d == 0 {
			return 0
		}
		sum += weight * math.Log(d)
		weights += weight
	}
	return math.Exp(sum / weights)
}
