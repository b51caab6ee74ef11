package odds

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Of two groups the fitted chances are their shares, and the deviance is the
// likelihood ratio of a two by two table, 2 sum O ln(O/E). Tolerance: the pull
// that keeps separated groups finite.
func TestLogisticOfTwoGroups(t *testing.T) {
	var fault []bool
	var read []float64
	for i := range 200 {
		read = append(read, float64(i/100))
		fault = append(fault, i < 20 || i >= 140) // 20 of 100, and 60 of 100
	}
	p, deviance := Logistic(fault, read)
	near(t, "the first", p[0], 0.2, 0.005)
	near(t, "the second", p[199], 0.6, 0.005)
	g := 2 * (20*math.Log(20.0/40) + 80*math.Log(80.0/60) + 60*math.Log(60.0/40) + 40*math.Log(40.0/60))
	near(t, "deviance", deviance, g, 0.02)
}

// A reading that tells nothing takes away 2 on average: the mean of chi-square
// with two degrees of freedom.
func TestLogisticOfNoise(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	const runs, n = 300, 200
	sum := 0.0
	for range runs {
		fault, read := make([]bool, n), make([]float64, n)
		for i := range n {
			fault[i], read[i] = r.Float64() < 0.3, r.NormFloat64()
		}
		_, deviance := Logistic(fault, read)
		sum += deviance
	}
	near(t, "mean deviance", sum/runs, 2, 0.35) // 3 standard errors
}

// Groups apart from each other have an end, and a fault on both sides is found.
func TestLogisticApartAndTurning(t *testing.T) {
	apart, turning, read := make([]bool, 100), make([]bool, 100), make([]float64, 100)
	for i := range read {
		read[i] = float64(i)
		apart[i], turning[i] = i >= 50, i < 25 || i >= 75
	}
	for _, fault := range [][]bool{apart, turning} {
		p, _ := Logistic(fault, read)
		right := 0
		for i := range p {
			if (p[i] > 0.5) == fault[i] {
				right++
			}
		}
		if right < 98 {
			t.Errorf("%d of 100 told apart", right)
		}
	}
	if _, d := Logistic(make([]bool, 9), make([]float64, 9)); !math.IsNaN(d) {
		t.Error("nothing varies, and there is a fit")
	}
}
