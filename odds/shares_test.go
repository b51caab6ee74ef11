package odds

import (
	"math"
	"math/rand/v2"
	"testing"
)

// ishigami is the function of Ishigami and Homma 1990 with 7 and 0.1, recalled,
// of shares of the cube; its shares in closed form are in Saltelli 2008,
// recalled.
func ishigami(u []float64) float64 {
	x := func(i int) float64 { return math.Pi * (2*u[i] - 1) }
	s2 := math.Sin(x(1))
	return math.Sin(x(0)) + 7*s2*s2 + 0.1*math.Pow(x(2), 4)*math.Sin(x(0))
}

// ishigamiShares are first-order and total shares by the closed form
// V = a²/8 + b π⁴/5 + b² π⁸/18 + 1/2, V1 = (1 + b π⁴/5)²/2, V2 = a²/8,
// V13 = 8 b² π⁸/225.
func ishigamiShares() (first, total [3]float64) {
	const a, b = 7.0, 0.1
	pi4 := math.Pow(math.Pi, 4)
	v := a*a/8 + b*pi4/5 + b*b*pi4*pi4/18 + 0.5
	v1, v2, v13 := (1+b*pi4/5)*(1+b*pi4/5)/2, a*a/8, 8*b*b*pi4*pi4/225
	return [3]float64{v1 / v, v2 / v, 0}, [3]float64{(v1 + v13) / v, v2 / v, v13 / v}
}

// gWeights are those of the g-function as Saltelli and Sobol' 1995 use it,
// recalled: g = product of (|4x - 2| + a)/(1 + a).
var gWeights = []float64{0, 1, 4.5, 9, 99, 99, 99, 99}

func gFunction(u []float64) float64 {
	y := 1.0
	for i, a := range gWeights {
		y *= (math.Abs(4*u[i]-2) + a) / (1 + a)
	}
	return y
}

// gShares are the shares by the closed form V_i = 1/(3 (1 + a)²),
// V = product of (1 + V_i) - 1, T_i = V_i times the product of the other
// (1 + V_j), over V.
func gShares() (first, total []float64) {
	all := 1.0
	for _, a := range gWeights {
		all *= 1 + 1/(3*(1+a)*(1+a))
	}
	for _, a := range gWeights {
		v := 1 / (3 * (1 + a) * (1 + a))
		first = append(first, v/(all-1))
		total = append(total, v*all/(1+v)/(all-1))
	}
	return first, total
}

// evaluated is a function at n points, with the points by dimension.
func evaluated(f func([]float64) float64, dims, n int, seed uint64) (y []float64, inputs [][]float64) {
	p, _ := NewPoints(dims, seed)
	inputs = make([][]float64, dims)
	u := make([]float64, dims)
	for i := range n {
		p.At(i, u)
		for d, x := range u {
			inputs[d] = append(inputs[d], x)
		}
		y = append(y, f(u))
	}
	return y, inputs
}

func shareOf(e Explained, input int) Share {
	for _, s := range e.Shares {
		if s.Input == input {
			return s
		}
	}
	return Share{}
}

// The regression finds the first-order shares, and says that it does not
// explain what inputs do together. Tolerance: three standard errors, and 0.015
// for what polynomials of degree 10 leave out of a sine and of a kink.
func TestFirstOrderSharesInClosedForm(t *testing.T) {
	first, _ := ishigamiShares()
	y, x := evaluated(ishigami, 3, 2048, 1)
	e := Explain(y, x, 10)
	for j, want := range first {
		s := shareOf(e, j)
		near(t, "Ishigami", s.Share, want, 3*s.Deviation+0.015)
	}
	near(t, "Ishigami, explained", e.R2, first[0]+first[1], 0.03)
	if e.Good() {
		t.Error("a quarter of the variance is unexplained, and the shares may be shown")
	}

	g, _ := gShares()
	y, x = evaluated(gFunction, len(gWeights), 2048, 1)
	e = Explain(y, x, 10)
	for j, want := range g {
		s := shareOf(e, j)
		near(t, "g", s.Share, want, 3*s.Deviation+0.015)
	}
	if !e.Good() {
		t.Errorf("the g-function is nearly additive, and R2 is %.3f", e.R2)
	}
}

// moved evaluates the function with one input drawn anew.
func moved(f func([]float64) float64, dims, n, input int) []float64 {
	a, _ := NewPoints(dims, 1)
	b, _ := NewPoints(dims, 2)
	order := rand.New(rand.NewPCG(3, 4)).Perm(n)
	u, v := make([]float64, dims), make([]float64, dims)
	out := make([]float64, n)
	for i := range n {
		a.At(i, u)
		b.At(order[i], v)
		u[input] = v[input]
		out[i] = f(u)
	}
	return out
}

// Tolerance: three standard errors.
func TestTotalSharesInClosedForm(t *testing.T) {
	const n = 4096
	_, total := ishigamiShares()
	base, _ := evaluated(ishigami, 3, n, 1)
	for j, want := range total {
		got, deviation := TotalShare(base, moved(ishigami, 3, n, j))
		near(t, "Ishigami", got, want, 3*deviation)
		if deviation > 0.03 {
			t.Errorf("standard error %.3f", deviation)
		}
	}
	_, g := gShares()
	base, _ = evaluated(gFunction, len(gWeights), n, 1)
	for j, want := range g {
		got, deviation := TotalShare(base, moved(gFunction, len(gWeights), n, j))
		near(t, "g", got, want, 3*deviation+1e-12)
	}
}

// Of 100 inputs of which three count, in 200 draws, the three are found and the
// noise is called noise.
func TestFewDrawsOfManyInputs(t *testing.T) {
	y, x := evaluated(func(u []float64) float64 {
		return 3*u[90] + 2*u[4] + NormalQuantile(u[17])*0.3 + 0.001*u[60]
	}, 100, 200, 5)
	e := Explain(y, x, 3)
	if !e.Good() {
		t.Errorf("R2 %.3f", e.R2)
	}
	variance := 9.0/12 + 4.0/12 + 0.09
	for j, want := range map[int]float64{90: 9.0 / 12 / variance, 4: 4.0 / 12 / variance, 17: 0.09 / variance} {
		near(t, "share", shareOf(e, j).Share, want, 0.05)
	}
	r := rand.New(rand.NewPCG(1, 1))
	for i := range y {
		y[i] = r.NormFloat64()
	}
	if e := Explain(y, x, 3); e.Good() || e.R2 > 0.2 {
		t.Errorf("noise is explained: R2 %.3f", e.R2)
	}
}

func TestSharesOfNothing(t *testing.T) {
	if e := Explain([]float64{1, 1, 1}, [][]float64{{1, 2, 3}}, 2); e.Good() || len(e.Shares) > 0 {
		t.Errorf("%+v", e)
	}
	if s, _ := TotalShare([]float64{2, 2}, []float64{2, 2}); !math.IsNaN(s) {
		t.Error(s)
	}
}

// How the inputs happen to go together in few draws makes no share greater than
// the whole: over many scramblings the parts of a sum of three inputs among 118
// add up to no more than all, and are right in the mean. Tolerance of the mean:
// three standard errors.
func TestSharesOfFewDrawsAreNotTooGreat(t *testing.T) {
	const seeds = 40
	var sum, squares float64
	for seed := range uint64(seeds) {
		y, x := evaluated(func(u []float64) float64 {
			return NormalQuantile(u[50]) + NormalQuantile(u[90]) + 0.3*NormalQuantile(u[3])
		}, 118, 150, seed)
		e := Explain(y, x, 3)
		all := 0.0
		for _, s := range e.Shares {
			all += s.Share
		}
		if all > 1 {
			t.Errorf("seed %d: the shares add up to %.3f", seed, all)
		}
		s := shareOf(e, 50).Share
		sum += s
		squares += s * s
	}
	mean := sum / seeds
	near(t, "mean share", mean, 1/2.09, 3*math.Sqrt((squares/seeds-mean*mean)/seeds))
}

// What the regression says that it foretells of draws it has not seen is near
// what it can know: 0.9 where a tenth is noise. Tolerance: the choice of terms
// among 354 makes it hopeful by a few hundredths.
func TestExplainedIsNotBoasted(t *testing.T) {
	const seeds = 20
	sum := 0.0
	r := rand.New(rand.NewPCG(5, 6))
	for seed := range uint64(seeds) {
		y, x := evaluated(func(u []float64) float64 { return NormalQuantile(u[50]) + NormalQuantile(u[90]) }, 118, 200, seed)
		for i := range y {
			y[i] += math.Sqrt(2.0/9) * r.NormFloat64()
		}
		sum += Explain(y, x, 3).R2
	}
	near(t, "R2", sum/seeds, 0.9, 0.03)
}
