package mixed

import (
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"awn/internal/tools/need"
)

// cells is a table by column.
type cells map[string][]string

// table reads a testdata file whose comment lines begin with # and whose first
// row names the columns.
func table(t testing.TB, name string) cells {
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
func public(t testing.TB, name string) cells {
	t.Helper()
	f, err := os.Open(filepath.Join(os.Getenv("AWN_DATA"), "trials", name))
	need.Met(t, "AWN_DATA", err == nil)
	defer f.Close()
	return parse(t, f, '\t')
}

func parse(t testing.TB, from io.Reader, comma rune) cells {
	t.Helper()
	r := csv.NewReader(from)
	r.Comment, r.Comma = '#', comma
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := cells{}
	for _, row := range all[1:] {
		for i, cell := range row {
			out[all[0][i]] = append(out[all[0][i]], cell)
		}
	}
	return out
}

// numbers is a column as numbers, NaN where it says NA.
func (c cells) numbers(t testing.TB, name string) []float64 {
	t.Helper()
	var out []float64
	for _, cell := range c[name] {
		x, err := strconv.ParseFloat(cell, 64)
		if cell == "NA" {
			x, err = math.NaN(), nil
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, x)
	}
	if len(out) == 0 {
		t.Fatalf("no column %s", name)
	}
	return out
}

// where keeps the rows that keep says.
func (c cells) where(keep func(row int) bool) cells {
	out := cells{}
	for name, column := range c {
		for i, cell := range column {
			if keep(i) {
				out[name] = append(out[name], cell)
			}
		}
	}
	return out
}

// term makes one level of each combination of cells in the columns.
func (c cells) term(name string, random bool, columns ...string) Term {
	t := Term{Name: name, Random: random}
	seen := map[string]int{}
	for i := range c[columns[0]] {
		var key []string
		for _, column := range columns {
			key = append(key, c[column][i])
		}
		label := strings.Join(key, "\x00")
		if _, ok := seen[label]; !ok {
			seen[label] = len(seen)
		}
		t.Level = append(t.Level, seen[label])
	}
	t.Levels = len(seen)
	return t
}

// place is the level of each label of a column, as term numbers them.
func (c cells) place(column string) map[string]int {
	out := map[string]int{}
	for _, label := range c[column] {
		if _, ok := out[label]; !ok {
			out[label] = len(out)
		}
	}
	return out
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

// close fails unless got is within the share of want.
func closeTo(t testing.TB, what string, got, want, share float64) {
	t.Helper()
	near(t, what, got, want, share*math.Abs(want))
}
