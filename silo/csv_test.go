package silo

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// rows reads a table of testdata as maps by column.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatal(name, err)
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, head := range all[0] {
			row[head] = line[i]
		}
		out = append(out, row)
	}
	return out
}

// num reads a number; NaN of an empty cell or NA.
func num(t *testing.T, s string) float64 {
	t.Helper()
	if s == "" || s == "NA" {
		return math.NaN()
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.8g, want %.8g ± %.2g", what, got, want, tolerance)
	}
}
