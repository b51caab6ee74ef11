package crop

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Area is the direct estimate of a stratum that borrows from the others.
type Area struct {
	Direct   float64   // NaN where it has no sample
	Variance float64   // of the direct estimate, taken as known
	X        []float64 // what the mean of such an area depends on, the first 1
}

// Borrowed is the estimate of an area once it has borrowed.
type Borrowed struct {
	Value, MSE float64
	Own        float64 // weight of its own samples, 0 to 1
}

// Areas is a model of areas: how far they truly differ, and what each comes to.
type Areas struct {
	Between float64 // variance of areas about what X says
	Slopes  []float64
	Area    []Borrowed
}

// ErrAreas says that there are too few areas for the model.
var ErrAreas = errors.New("too few areas, or nothing parts them")

const (
	areaRounds = 500
	areaEnd    = 1e-13 // of the step of the variance, over its scale
)

// Borrow draws each area towards what the others say of its like, the more the
// less its own samples tell. The variance between areas is found by restricted
// maximum likelihood; 0 leaves nothing but what the others say.
//
// The mixed models of package mixed find the variance of the errors too; here the
// design has said what each area's is, and it differs from one to the next.
//
//	y = X b + v + e,   γ = A/(A + ψ),   value = X b + γ (y - X b)
//	MSE = γψ + (1-γ)² x'Qx + 2 (1-γ)² (2/Σ(A+ψ)⁻²)/(A+ψ)        (Q = (X'V⁻¹X)⁻¹)
//
// Recalled: Fay and Herriot 1979; Prasad and Rao 1990; Datta and Lahiri 2000.
// Valid: more areas with samples than columns of X.
// Check: testdata/areas43.csv, the 43 areas of Arora and Lahiri 1997, against the sae package of R.
func Borrow(areas []Area) (Areas, error) {
	var own []Area
	for _, a := range areas {
		if !math.IsNaN(a.Direct) && a.Variance > 0 {
			own = append(own, a)
		}
	}
	if len(own) == 0 || len(own) <= len(own[0].X) {
		return Areas{}, ErrAreas
	}
	f := newAreaFit(own)
	if err := f.climb(); err != nil {
		return Areas{}, err
	}
	out := Areas{Between: f.between}
	for j := range f.slopes.Len() {
		out.Slopes = append(out.Slopes, f.slopes.AtVec(j))
	}
	for _, a := range areas {
		out.Area = append(out.Area, f.borrowed(a))
	}
	return out, nil
}

type areaFit struct {
	areas   []Area
	x       *mat.Dense
	between float64
	slopes  *mat.VecDense
	q       *mat.Dense // (X'V⁻¹X)⁻¹
	squares float64    // Σ (A+ψ)⁻²
}

func newAreaFit(areas []Area) *areaFit {
	f := &areaFit{areas: areas, x: mat.NewDense(len(areas), len(areas[0].X), nil)}
	for i, a := range areas {
		f.x.SetRow(i, a.X)
		f.between += a.Variance / float64(len(areas))
	}
	return f
}

// solve finds slopes and what goes with them at the present variance.
func (f *areaFit) solve() error {
	n, p := f.x.Dims()
	xv := mat.NewDense(p, n, nil) // X'V⁻¹
	y := mat.NewVecDense(n, nil)
	f.squares = 0
	for i, a := range f.areas {
		v := 1 / (f.between + a.Variance)
		f.squares += v * v
		y.SetVec(i, a.Direct)
		for j := range p {
			xv.Set(j, i, f.x.At(i, j)*v)
		}
	}
	var xvx mat.Dense
	xvx.Mul(xv, f.x)
	f.q = &mat.Dense{}
	if err := f.q.Inverse(&xvx); err != nil {
		return ErrAreas
	}
	var xvy mat.VecDense
	xvy.MulVec(xv, y)
	f.slopes = &mat.VecDense{}
	f.slopes.MulVec(f.q, &xvy)
	return nil
}

// climb finds the variance by scoring.
//
//	P = V⁻¹ - V⁻¹XQX'V⁻¹,   s = -½ tr P + ½ y'PPy,   F = ½ tr PP,   A ← max(0, A + s/F)
func (f *areaFit) climb() error {
	for range areaRounds {
		if err := f.solve(); err != nil {
			return err
		}
		score, information := f.score()
		next := max(0, f.between+score/information)
		if math.IsNaN(next) {
			return ErrAreas
		}
		step := math.Abs(next - f.between)
		f.between = next
		if step <= areaEnd*(f.between+f.areas[0].Variance) {
			return f.solve()
		}
	}
	return f.solve()
}

func (f *areaFit) score() (score, information float64) {
	n, _ := f.x.Dims()
	p := mat.NewDense(n, n, nil)
	var xq, xqx mat.Dense
	xq.Mul(f.x, f.q)
	xqx.Mul(&xq, f.x.T())
	var trace, residual float64
	for i, a := range f.areas {
		vi := 1 / (f.between + a.Variance)
		for j, b := range f.areas {
			vj := 1 / (f.between + b.Variance)
			x := -vi * xqx.At(i, j) * vj
			if i == j {
				x += vi
				trace += x
			}
			p.Set(i, j, x)
			information += x * x / 2
		}
		// PPy is the square of V⁻¹(y - Xb), for Py is that.
		e := (a.Direct - f.fitted(a)) * vi
		residual += e * e
	}
	return (residual - trace) / 2, information
}

// fitted is what the others say of an area like this.
func (f *areaFit) fitted(a Area) (sum float64) {
	for j, x := range a.X {
		sum += x * f.slopes.AtVec(j)
	}
	return sum
}

func (f *areaFit) borrowed(a Area) Borrowed {
	x := mat.NewVecDense(len(a.X), a.X)
	spread := mat.Inner(x, f.q, x)
	b := Borrowed{Value: f.fitted(a), MSE: f.between + spread}
	if math.IsNaN(a.Direct) || !(a.Variance > 0) {
		return b
	}
	v := f.between + a.Variance
	b.Own = f.between / v
	b.Value += b.Own * (a.Direct - b.Value)
	rest := (1 - b.Own) * (1 - b.Own)
	b.MSE = b.Own*a.Variance + rest*spread + 2*rest*(2/f.squares)/v
	return b
}
