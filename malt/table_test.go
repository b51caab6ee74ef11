package malt

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// table reads a testdata file: comment lines begin with #, the first row names
// the columns, an empty cell is left out.
func table(t *testing.T, name string) (ids []string, rows []map[string]float64) {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		m := map[string]float64{}
		for i, cell := range line {
			if cell == "" || lines[0][i] == "id" {
				continue
			}
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			m[lines[0][i]] = x
		}
		ids, rows = append(ids, line[0]), append(rows, m)
	}
	if len(rows) == 0 {
		t.Fatalf("%s holds no rows", name)
	}
	return ids, rows
}

// near fails unless got is within tolerance of want, rounding apart. A NaN is
// never near.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*1.001+1e-12*math.Abs(want)) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}
