package weigh

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"awn/odds"
)

// Settled is what the readings come to together.
type Settled struct {
	Quantities []odds.Value
	Readings   []Judged
	ChiSquare  float64
	Freedom    int     // readings and balances beyond those that are needed
	Chance     float64 // that honest readings differ by as much; NaN where nothing checks anything

	alike *mat.SymDense // correlation of what is left over, by reading
}

// Judged is a reading beside what all the others say of its quantity.
type Judged struct {
	Reading
	Checked bool    // the others say something of it
	Away    float64 // how far it is from where they would have it, in standard deviations; NaN if not checked
	Would   float64 // what it would be by the others alone
	WouldBy float64 // standard deviation of that
	Share   float64 // of the variance of an honest reading that the others check; 0 if none
}

// leastChecked is the share of a reading's variance below which rounding and
// not another reading checks it.
const leastChecked = 1e-7

// judge holds each reading against the settled quantities.
func (n *Network) judge(x []float64) (*Settled, error) {
	e := n.equations(x)
	cov, err := e.covariance()
	if err != nil {
		return nil, err
	}
	s := &Settled{Freedom: len(n.Readings) + len(n.Balances) - len(n.Quantities), Chance: math.NaN()}
	for i, q := range n.Quantities {
		deviation := q.Scale * math.Sqrt(max(0, cov.At(i, i)))
		s.Quantities = append(s.Quantities, odds.WithDeviation(x[i], deviation, odds.Measured))
	}
	for _, r := range n.Readings {
		j := judged(r, x[r.Of], n.Quantities[r.Of].Scale*n.Quantities[r.Of].Scale*cov.At(r.Of, r.Of))
		s.Readings = append(s.Readings, j)
		away := (r.Value - x[r.Of]) / r.Deviation
		s.ChiSquare += away * away
	}
	if s.Freedom > 0 {
		s.Chance = ChanceOf(s.ChiSquare, s.Freedom)
	}
	s.alike = n.alike(s, cov)
	return s, nil
}

// judged is a reading whose quantity settled at x with a variance.
func judged(r Reading, x, variance float64) Judged {
	own := r.Deviation * r.Deviation
	j := Judged{Reading: r, Share: max(0, 1-variance/own), Away: math.NaN(), Would: math.NaN(), WouldBy: math.NaN()}
	if j.Share < leastChecked {
		j.Share = 0
		return j
	}
	j.Checked = true
	j.Away, j.Would = Away(r.Value, x, r.Deviation, variance), Others(r.Value, x, r.Deviation, variance)
	j.WouldBy = math.Sqrt(variance / j.Share)
	return j
}

// Away is how far a reading is from where it settles with all others, in
// standard deviations of that distance.
//
//	z = (y - x)/√(s² - v)      (y read with deviation s, x settled with variance v)
//
// Recalled: Mah 1982.
// Valid: a variance below that of the reading; NaN where nothing checks it.
// Check: the closed form by general linear algebra; what is left of the sum of squares without the reading.
func Away(read, settled, deviation, variance float64) float64 {
	left := deviation*deviation - variance
	if !(left > 0) {
		return math.NaN()
	}
	return (read - settled) / math.Sqrt(left)
}

// Others is what all other readings and the balances say of what was read.
//
//	x' = y - (y - x) s²/(s² - v)      (y read with deviation s, x settled by least squares with variance v)
//
// Recalled: Narasimhan 2000.
// Valid: a variance below that of the reading; NaN where nothing checks it.
// Check: settling without the reading; Narasimhan 2000, table 1-1.
func Others(read, settled, deviation, variance float64) float64 {
	own := deviation * deviation
	if !(own > variance) {
		return math.NaN()
	}
	return read - (read-settled)*own/(own-variance)
}

// alike is how the differences that are left over go together: two readings
// at 1 or -1 cannot be told apart by any of the others.
func (n *Network) alike(s *Settled, cov *mat.Dense) *mat.SymDense {
	if len(n.Readings) == 0 {
		return nil
	}
	out := mat.NewSymDense(len(n.Readings), nil)
	for i, a := range s.Readings {
		for k := range i + 1 {
			b := s.Readings[k]
			if !a.Checked || !b.Checked {
				continue
			}
			left := -cov.At(a.Of, b.Of) * n.Quantities[a.Of].Scale * n.Quantities[b.Of].Scale
			if i == k {
				left += a.Deviation * a.Deviation
			}
			out.SetSym(i, k, left/(a.Deviation*b.Deviation*math.Sqrt(a.Share*b.Share)))
		}
	}
	return out
}

// ChanceOf is the chance that honest readings give a sum of squares as large
// as this one or larger.
//
//	P = 1 - F(χ²; f)      (F the chi-square distribution)
//
// Definition.
// Valid: a sum of 0 and more, at least one degree of freedom; NaN outside.
// Check: the printed table of chi-square, recalled: 3.841 with 1 degree and 11.070 with 5 leave 0.05.
func ChanceOf(chiSquare float64, freedom int) float64 {
	if !(chiSquare >= 0) || freedom < 1 {
		return math.NaN()
	}
	return distuv.ChiSquared{K: float64(freedom)}.Survival(chiSquare)
}
