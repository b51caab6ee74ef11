package variety

import (
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"awn/internal/tools/need"
)

// rows reads a testdata file whose comment lines begin with #.
func rows(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	return parse(t, f, ',')
}

// public reads a file of the public trial data, which do not travel with the
// program: AWN_DATA names the folder that holds them.
func public(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join(os.Getenv("AWN_DATA"), "trials", name))
	need.Met(t, "AWN_DATA", err == nil)
	defer f.Close()
	return parse(t, f, '\t')
}

func parse(t testing.TB, from io.Reader, comma rune) [][]string {
	t.Helper()
	r := csv.NewReader(from)
	r.Comment, r.Comma = '#', comma
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatal("no table: ", err)
	}
	return all
}

// figures is a table of numbers by its first column and the names of the others.
func figures(t testing.TB, name string) map[string]map[string]float64 {
	t.Helper()
	all := rows(t, name)
	out := map[string]map[string]float64{}
	for _, row := range all[1:] {
		m := map[string]float64{}
		for i, cell := range row[1:] {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				continue // a second label
			}
			m[all[0][i+1]] = x
		}
		out[row[0]] = m
	}
	return out
}

func trials(t testing.TB, cells [][]string, layout Layout) Trials {
	t.Helper()
	out, faults := Read(cells, layout)
	for _, f := range faults {
		t.Errorf("%+v", f)
	}
	return out
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

// closeTo fails unless got is within the share of want.
func closeTo(t testing.TB, what string, got, want, share float64) {
	t.Helper()
	near(t, what, got, want, share*math.Abs(want))
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
