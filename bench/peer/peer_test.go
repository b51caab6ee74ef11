package main

import (
	"errors"
	"math"
	"testing"

	"awn/internal/tools/need"
)

// cSide builds the C side, or ends the test where it cannot be built.
func cSide(t *testing.T) string {
	t.Helper()
	program, err := build(t.TempDir())
	if err != nil && !errors.Is(err, errNoPeer) {
		t.Fatal(err)
	}
	need.Met(t, "sundials", err == nil)
	return program
}

// The case computed with SciPy's BDF and LSODA at 1e-8 by a program that
// shares no line with this one gave 3.503, 2.775 and 4.828 % (the plain
// reading); the tolerance is half of the last digit.
func TestTheCaseIsTheOneMeant(t *testing.T) {
	rows, err := cvode{cSide(t), "1e-8", "ours"}.numbers("1", plain)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{3.503, 2.775, 4.828} {
		if got := rows[0][i]; math.Abs(got-want) > 0.0005 {
			t.Errorf("figure %d: %.4f, want %.3f", i, got, want)
		}
	}
}

// Both factorisations solve the same equations, so they may differ by what the
// solver's own tolerance allows: it keeps each step's error near 1e-8 relative.
func TestBothFactorisationsAgree(t *testing.T) {
	program := cSide(t)
	ours, err := cvode{program, "1e-8", "ours"}.trace()
	if err != nil {
		t.Fatal(err)
	}
	library, err := cvode{program, "1e-8", "library"}.trace()
	if err != nil {
		t.Fatal(err)
	}
	if worst, err := distance(ours, library); err != nil || worst > 1e-4 {
		t.Errorf("the worst cell differs by %g points, %v", worst, err)
	}
}

func TestDistanceSeesShapeAndNaN(t *testing.T) {
	a := [][]float64{{1, 2}, {3, 4}}
	if d, err := distance(a, [][]float64{{1, 2.5}, {3, 4}}); err != nil || d != 0.5 {
		t.Errorf("%g, %v", d, err)
	}
	if _, err := distance(a, a[:1]); err == nil {
		t.Error("traces of unequal length were compared")
	}
	if d, err := distance(a, [][]float64{{1, math.NaN()}, {3, 4}}); err != nil || !math.IsNaN(d) {
		t.Errorf("a NaN gave %g, %v", d, err)
	}
}

// Two programs that share no line, table or scheme solve the same equations.
// CVODE at a relative tolerance of 1e-4, an ordinary choice, misses its own
// converged answer by 0.021 points in its worst cell and hour; ours may miss
// it by half as much again, in any cell at any tenth of an hour.
func TestOursAgreesWithCVODE(t *testing.T) {
	exact, err := cvode{cSide(t), "1e-8", "ours"}.trace()
	if err != nil {
		t.Fatal(err)
	}
	kiln, err := newOurs()
	if err != nil {
		t.Fatal(err)
	}
	got, err := kiln.trace()
	if err != nil {
		t.Fatal(err)
	}
	worst, err := distance(got, exact)
	if err != nil {
		t.Fatal(err)
	}
	if !(worst <= 0.03) {
		t.Errorf("the worst cell is %.4f points from the converged answer", worst)
	}
}
