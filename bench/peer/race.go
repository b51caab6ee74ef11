package main

import (
	"fmt"
	"io"
	"math"
	"slices"
)

// answer is what one run of the case gives.
type answer struct {
	meanPct, bottomPct, topPct float64 // end moisture, % wet basis
	breakH                     float64
	ms                         float64
}

// solver is one way of computing the case.
type solver interface {
	run() (answer, error)
	// trace gives the moisture of each cell, % wet basis, bottom first, at
	// every 0.1 h.
	trace() ([][]float64, error)
}

type side struct {
	name string
	solver
}

// result is a side after all rounds.
type result struct {
	name     string
	last     answer
	ms       []float64 // of every round, sorted
	errorPct float64   // worst cell at any 0.1 h, points
}

func (r result) median() float64 { return r.ms[len(r.ms)/2] }

// race lets the sides run in turns.
func race(sides []side, exact [][]float64, rounds int) ([]result, error) {
	if rounds < 1 {
		return nil, fmt.Errorf("%d rounds", rounds)
	}
	results := make([]result, len(sides))
	for i, s := range sides {
		trace, err := s.trace()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", s.name, err)
		}
		worst, err := distance(trace, exact)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", s.name, err)
		}
		results[i] = result{name: s.name, errorPct: worst}
	}
	for range rounds {
		for i, s := range sides {
			a, err := s.run()
			if err != nil {
				return nil, fmt.Errorf("%s: %w", s.name, err)
			}
			results[i].last = a
			results[i].ms = append(results[i].ms, a.ms)
		}
	}
	for i := range results {
		slices.Sort(results[i].ms)
	}
	return results, nil
}

// distance is the largest difference between two traces.
func distance(a, b [][]float64) (float64, error) {
	if len(a) != len(b) {
		return 0, fmt.Errorf("%d readings against %d", len(a), len(b))
	}
	worst := 0.0
	for i := range a {
		if len(a[i]) != len(b[i]) {
			return 0, fmt.Errorf("%d cells against %d", len(a[i]), len(b[i]))
		}
		for j := range a[i] {
			d := math.Abs(a[i][j] - b[i][j])
			if math.IsNaN(d) {
				return d, nil
			}
			worst = max(worst, d)
		}
	}
	return worst, nil
}

// print writes the table; each ratio is the first side's time over this one's.
func print(w io.Writer, results []result) {
	fmt.Fprintf(w, "%-28s %7s %7s %7s %8s %12s %22s %7s\n",
		"side", "mean %", "bottom", "top", "break h", "worst cell", "ms median (min-max)", "ratio")
	for _, r := range results {
		ms := fmt.Sprintf("%.1f (%.1f-%.1f)", r.median(), r.ms[0], r.ms[len(r.ms)-1])
		fmt.Fprintf(w, "%-28s %7.4f %7.4f %7.4f %8.4f %9.4f pt %22s %7.2f\n",
			r.name, r.last.meanPct, r.last.bottomPct, r.last.topPct, r.last.breakH, r.errorPct, ms,
			results[0].median()/r.median())
	}
}
