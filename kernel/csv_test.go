package kernel_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"awn/kernel"
	"awn/odds"
)

// constants returns the defaults with the given replacements.
func constants(t testing.TB, values map[string]float64) *kernel.Constants {
	t.Helper()
	var c kernel.Constants
	if err := odds.Fill(&c, kernel.Parameters, values); err != nil {
		t.Fatal(err)
	}
	return &c
}

// table reads the rows of a file in testdata below its header.
func table(t testing.TB, name string) [][]float64 {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	cells, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := make([][]float64, len(cells)-1)
	for i, row := range cells[1:] {
		for _, cell := range row {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			rows[i] = append(rows[i], x)
		}
	}
	if len(rows) == 0 {
		t.Fatal("no rows")
	}
	return rows
}
