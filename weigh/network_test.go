package weigh

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.8g, want %.8g within %g", what, got, want, tolerance)
	}
}

// flows is a network of streams, each read once, that meet at nodes: +1 in,
// -1 out.
func flows(read, deviation []float64, nodes [][]float64) *Network {
	n := &Network{}
	for i, y := range read {
		n.Quantities = append(n.Quantities, Quantity{"stream", y, max(math.Abs(y), 1)})
		n.Readings = append(n.Readings, Reading{"meter", i, y, deviation[i]})
	}
	for _, node := range nodes {
		n.Balances = append(n.Balances, func(x []float64) float64 {
			sum := 0.0
			for i, sign := range node {
				sum += sign * x[i]
			}
			return sum
		})
	}
	return n
}

// Recalled: Narasimhan and Jordache 2000, table 1-1: a heat exchanger with a
// bypass, six flows read with equal variance, and their reconciled values to
// two decimals.
func TestPublishedFlows(t *testing.T) {
	read := []float64{101.91, 64.45, 34.65, 64.20, 36.44, 98.88}
	n := flows(read, []float64{1, 1, 1, 1, 1, 1}, [][]float64{
		{1, -1, -1, 0, 0, 0}, {0, 1, 0, -1, 0, 0}, {0, 0, 1, 0, -1, 0}, {0, 0, 0, 1, 1, -1},
	})
	s, err := n.Settle()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{100.22, 64.50, 35.72, 64.50, 35.72, 100.22} {
		near(t, "flow", s.Quantities[i].Mid, want, 0.005) // half of the last digit printed
	}
	if s.Freedom != 4 {
		t.Errorf("%d degrees of freedom, four nodes", s.Freedom)
	}
}

// The same by the closed form with general linear algebra (gonum):
// x = y - V Aᵀ (A V Aᵀ)⁻¹ A y, covariance V - V Aᵀ (A V Aᵀ)⁻¹ A V, and the sum of
// squares yᵀAᵀ(A V Aᵀ)⁻¹ A y.
func TestAgainstClosedForm(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for range 50 {
		const streams, nodes = 7, 3
		read, deviation := make([]float64, streams), make([]float64, streams)
		a := mat.NewDense(nodes, streams, nil)
		rows := make([][]float64, nodes)
		for i := range streams {
			read[i], deviation[i] = 100+20*random.NormFloat64(), 0.5+3*random.Float64()
		}
		for k := range nodes {
			rows[k] = make([]float64, streams)
			for i := range streams {
				rows[k][i] = random.NormFloat64()
				a.Set(k, i, rows[k][i])
			}
		}
		v := mat.NewDense(streams, streams, nil)
		for i, d := range deviation {
			v.Set(i, i, d*d)
		}
		var va, ava, inverse, gain, off, x, cov, took mat.Dense
		y := mat.NewDense(streams, 1, read)
		va.Mul(v, a.T())
		ava.Mul(a, &va)
		if err := inverse.Inverse(&ava); err != nil {
			t.Fatal(err)
		}
		gain.Mul(&va, &inverse)
		off.Mul(a, y)
		took.Mul(&gain, &off)
		x.Sub(y, &took)
		var gav mat.Dense
		gav.Mul(&gain, va.T())
		cov.Sub(v, &gav)
		var half, chi mat.Dense
		half.Mul(&inverse, &off)
		chi.Mul(off.T(), &half)

		s, err := flows(read, deviation, rows).Settle()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "sum of squares", s.ChiSquare, chi.At(0, 0), 1e-6*chi.At(0, 0))
		for i := range streams {
			near(t, "stream", s.Quantities[i].Mid, x.At(i, 0), 1e-6) // slopes are taken by differences
			near(t, "its band", s.Quantities[i].High-s.Quantities[i].Mid, 1.6448536*math.Sqrt(cov.At(i, i)), 1e-6)
			left := deviation[i]*deviation[i] - cov.At(i, i)
			near(t, "away", s.Readings[i].Away, took.At(i, 0)/math.Sqrt(left), 1e-5)
		}
	}
}

// What the others say of a reading is what comes out when it is left out, and
// the sum of squares falls by the square of its distance.
func TestWouldIsWithout(t *testing.T) {
	read := []float64{100, 61, 42, 60.5}
	nodes := [][]float64{{1, -1, -1, 0}, {0, 1, 0, -1}}
	n := flows(read, []float64{1, 0.8, 0.5, 1.2}, nodes)
	all, err := n.Settle()
	if err != nil {
		t.Fatal(err)
	}
	for i := range read {
		less := *n
		less.Readings = append(append([]Reading(nil), n.Readings[:i]...), n.Readings[i+1:]...)
		s, err := less.Settle()
		if err != nil {
			t.Fatal(err)
		}
		r := all.Readings[i]
		near(t, "would be", r.Would, s.Quantities[i].Mid, 1e-6)
		near(t, "by", 1.6448536*r.WouldBy, s.Quantities[i].High-s.Quantities[i].Mid, 1e-6)
		near(t, "rest", all.ChiSquare-r.Away*r.Away, s.ChiSquare, 1e-6)
	}
}

// A quantity that nobody read follows from the balances and is checked by none.
func TestUnread(t *testing.T) {
	n := flows([]float64{100, 61, 0}, []float64{1, 1, 1}, [][]float64{{1, -1, -1}})
	n.Readings = n.Readings[:2]
	s, err := n.Settle()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "the third", s.Quantities[2].Mid, 39, 1e-9)
	if s.Freedom != 0 || !math.IsNaN(s.Chance) || s.Readings[0].Checked {
		t.Errorf("%d degrees of freedom, chance %g, checked %v", s.Freedom, s.Chance, s.Readings[0].Checked)
	}
	if v := s.Verdict(Defaults()); v.Wrong || len(v.Suspects) != 0 {
		t.Errorf("nothing checks anything, and yet %+v", v)
	}
}

func TestPoorNetworks(t *testing.T) {
	n := flows([]float64{100, 61, 39}, []float64{1, 1, 1}, [][]float64{{1, -1, -1}})
	n.Readings = n.Readings[:1]
	if _, err := n.Settle(); !errors.Is(err, ErrOpen) {
		t.Errorf("two streams unread: %v", err)
	}
	n = flows([]float64{100, 61, 39}, []float64{1, 1, 1}, [][]float64{{1, -1, -1}, {2, -2, -2}})
	if _, err := n.Settle(); !errors.Is(err, ErrOpen) {
		t.Errorf("a node twice: %v", err)
	}
	n = flows([]float64{100, 61, 39}, []float64{1, 0, 1}, [][]float64{{1, -1, -1}})
	if _, err := n.Settle(); err == nil {
		t.Error("a meter without deviation is taken")
	}
	never := &Network{Quantities: []Quantity{{"x", 1, 1}}, Readings: []Reading{{"r", 0, 1, 1}},
		Balances: []Balance{func(x []float64) float64 { return x[0]*x[0] + 1 }}}
	if _, err := never.Settle(); err == nil {
		t.Error("a balance that nothing meets is met")
	}
}

// The printed table of chi-square, recalled.
func TestChanceOf(t *testing.T) {
	near(t, "1 degree", ChanceOf(3.841, 1), 0.05, 5e-5)
	near(t, "5 degrees", ChanceOf(11.070, 5), 0.05, 5e-5)
	near(t, "10 degrees", ChanceOf(23.209, 10), 0.01, 5e-5)
	for _, x := range []float64{ChanceOf(-1, 2), ChanceOf(1, 0), ChanceOf(math.NaN(), 1)} {
		if !math.IsNaN(x) {
			t.Errorf("%g outside the range", x)
		}
	}
}

// The ratio of the two densities that it stands for.
func TestEvidence(t *testing.T) {
	density := func(z, variance float64) float64 {
		return math.Exp(-z*z/(2*variance)) / math.Sqrt(2*math.Pi*variance)
	}
	for _, z := range []float64{0, 1, -2, 4.5} {
		for _, spread := range []float64{0, 1, 25} {
			near(t, "evidence", Evidence(z, spread), density(z, 1+spread)/density(z, 1), 1e-9*Evidence(z, spread))
		}
	}
}
