package odds

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

const (
	logisticTerms  = 3
	logisticSteps  = 50
	logisticPull   = 1e-3 // on the bent terms, so that a reading that parts all faults from the rest has an end
	logisticSettle = 1e-9
)

// Logistic fits the chance of a fault to a reading, by a curve that may rise,
// fall or turn once, and returns the chance at each reading and the deviance that
// the reading takes away: chi-square of 2 degrees of freedom if it tells nothing.
// NaN where nothing varies.
//
//	ln(p / (1 - p)) = b0 + b1 x + b2 x²        (x of mean 0 and variance 1, by maximum likelihood)
//
// Recalled: Cox 1958.
// Check: of two groups it gives the share of each.
func Logistic(fault []bool, read []float64) (chance []float64, deviance float64) {
	x := polynomials(read, logisticTerms-1)
	n := len(fault)
	design := mat.NewDense(n, len(x)+1, nil)
	faults := 0
	for i := range n {
		design.Set(i, 0, 1)
		for k := range x {
			design.Set(i, k+1, x[k][i])
		}
		if fault[i] {
			faults++
		}
	}
	share := float64(faults) / float64(n)
	if len(x) == 0 || faults == 0 || faults == n {
		return nil, math.NaN()
	}
	b := mat.NewVecDense(len(x)+1, nil)
	b.SetVec(0, math.Log(share/(1-share)))
	chance = make([]float64, n)
	for range logisticSteps {
		if step, ok := newton(design, fault, b, chance); !ok || step < logisticSettle {
			break
		}
	}
	fitted, plain := 0.0, 0.0
	for i, p := range chance {
		fitted -= 2 * logChance(fault[i], p)
		plain -= 2 * logChance(fault[i], share)
	}
	return chance, plain - fitted
}

// newton takes one step and leaves the chances of where it began in chance.
func newton(design *mat.Dense, fault []bool, b *mat.VecDense, chance []float64) (step float64, ok bool) {
	n, terms := design.Dims()
	curve, slope := mat.NewSymDense(terms, nil), mat.NewVecDense(terms, nil)
	for i := range n {
		row := design.RowView(i)
		p := 1 / (1 + math.Exp(-mat.Dot(row, b)))
		chance[i] = p
		away := -p
		if fault[i] {
			away++
		}
		slope.AddScaledVec(slope, away, row)
		curve.SymRankOne(curve, p*(1-p), row)
	}
	for k := 1; k < terms; k++ {
		pull := logisticPull * float64(n)
		slope.SetVec(k, slope.AtVec(k)-pull*b.AtVec(k))
		curve.SetSym(k, k, curve.At(k, k)+pull)
	}
	var chol mat.Cholesky
	move := mat.NewVecDense(terms, nil)
	if !chol.Factorize(curve) || chol.SolveVecTo(move, slope) != nil {
		return 0, false
	}
	b.AddVec(b, move)
	return mat.Norm(move, math.Inf(1)), true
}

func logChance(fault bool, p float64) float64 {
	if !fault {
		p = 1 - p
	}
	return math.Log(max(p, math.SmallestNonzeroFloat64))
}
