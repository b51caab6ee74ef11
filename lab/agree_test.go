package lab

import (
	"math"
	"testing"
)

// NCSS 303, Deming regression, worked example of ten pairs, as the tests of a
// library of statistics carry it: the variance of y's errors a quarter of that of
// x's; slope 1.001194, offset -0.089744; standard errors 0.187177 and 1.721987 by
// leaving one out, done again in base R 4. The last digit printed is the tolerance.
func TestDeming(t *testing.T) {
	x := []float64{7, 8.3, 10.5, 9, 5.1, 8.2, 10.2, 10.3, 7.1, 5.9}
	y := []float64{7.9, 8.2, 9.6, 9, 6.5, 7.3, 10.2, 10.6, 6.3, 5.2}
	l := Deming(x, y, 0.25)
	near(t, "slope", l.Slope, 1.001194228, 1e-8)
	near(t, "offset", l.Offset, -0.089744899, 1e-8)
	near(t, "error of the slope", l.SlopeSE, 0.187177053, 1e-8)
	near(t, "error of the offset", l.OffsetSE, 1.721987413, 1e-8)
	turned := Deming(y, x, 4)
	near(t, "the other way round", turned.Slope, 1/l.Slope, 1e-12)
	if !math.IsNaN(Deming(x[:3], y[:3], 1).Slope) || !math.IsNaN(Deming([]float64{1, 1, 1, 1}, y[:4], 1).Slope) {
		t.Error("three readings, or readings all alike, have a slope")
	}
}

// The same pairs by t.test(y, x, paired = TRUE) of base R 4.
func TestAgree(t *testing.T) {
	x := []float64{7, 8.3, 10.5, 9, 5.1, 8.2, 10.2, 10.3, 7.1, 5.9}
	y := []float64{7.9, 8.2, 9.6, 9, 6.5, 7.3, 10.2, 10.6, 6.3, 5.2}
	var pairs []Pair
	for i := range x {
		pairs = append(pairs, Pair{A: x[i], B: y[i], NA: 1, NB: 1})
	}
	g, ok := Agree(pairs, 1, 1.0, 0.5)
	if !ok {
		t.Fatal("ten pairs are refused")
	}
	near(t, "difference", g.Difference, -0.08, 1e-9)
	near(t, "low", g.Low, -0.6420599468, 1e-6)
	near(t, "high", g.High, 0.4820599468, 1e-6)
	near(t, "how sure they differ", g.Differ, 0.6225899766, 1e-6) // 1 - p/2
	near(t, "beyond", g.Beyond, 0.0078265544, 1e-6)
	if g.Outside != 1 || g.Widest != 4 {
		t.Errorf("%d pairs outside, widest %d: only the fifth differs by more than 1", g.Outside, g.Widest)
	}
	near(t, "single results", CriticalDifference(1, 0.5, 1, 1), 1, 1e-12)
	near(t, "endless results", CriticalDifference(1, 0.5, 10000, 10000), LastingDifference(1, 0.5), 1e-4)
	if _, ok := Agree(pairs[:2], 1, 1, 0.5); ok {
		t.Error("two pairs are compared")
	}
}

// One-way analysis of Dyestuff (Davies and Goldsmith 1972): the mean square within
// batches is 2451.25.
func TestRepeated(t *testing.T) {
	batches := [][]float64{
		{1545, 1440, 1440, 1520, 1580}, {1540, 1555, 1490, 1560, 1495}, {1595, 1550, 1605, 1510, 1560},
		{1445, 1440, 1595, 1465, 1545}, {1595, 1630, 1515, 1635, 1625}, {1520, 1455, 1450, 1480, 1445}, {1500},
	}
	r, ok := Repeated(batches, math.NaN())
	if !ok || r.Samples != 6 || r.Freedom != 24 {
		t.Fatalf("%+v", r)
	}
	near(t, "deviation", r.Deviation, math.Sqrt(2451.25), 1e-9)
	// qchisq of base R 4: 39.364077 and 12.401150 at 24 degrees of freedom.
	near(t, "low", r.Low, math.Sqrt(24*2451.25/39.364077), 1e-4)
	near(t, "high", r.High, math.Sqrt(24*2451.25/12.401150), 1e-4)
	near(t, "limit", r.Limit/r.Deviation, 2.772, 5e-4)
	near(t, "back again", Deviation(r.Limit), r.Deviation, 1e-9)
	// Pairs that repeat exactly as published are as likely worse as a chi-squared says.
	d := Deviation(1) * math.Sqrt2
	pairs, _ := Repeated([][]float64{{0, d}, {0, d}, {0, d}}, 1)
	near(t, "worse", pairs.Worse, 0.608374823, 1e-8) // pchisq(3, 3)
}

// MASS 7.3 of R, hubers(chem): 3.205497803 and 0.6736520403. Proposal 2 takes the
// exact constant for 1.134, which is rounded: a thousandth.
func TestRobust(t *testing.T) {
	chem := []float64{2.90, 3.10, 3.40, 3.40, 3.70, 3.70, 2.80, 2.50, 2.40, 2.40, 2.70, 2.20, 5.28, 3.37, 3.03, 3.03, 28.95, 3.77, 3.40, 2.20, 3.50, 3.60, 3.70, 3.70}
	mean, sd := Robust(chem)
	near(t, "mean", mean, 3.205497803, 1e-3)
	near(t, "deviation", sd, 0.6736520403, 1e-3)
	if _, sd := Robust([]float64{1, 1, 1, 9}); sd != 0 {
		t.Errorf("half and more agree, and the deviation is %g", sd)
	}
	near(t, "score", RingScore(10.4, 10, 0.2), 2, 1e-12)
	near(t, "score in doubt", RingScoreDoubtful(10.5, 10, 0.4, 0.3), 1, 1e-12)
}
