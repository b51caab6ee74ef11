package germinate

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// table reads the rows of numbers of a file in testdata; lines that begin with
// # and the head are passed over.
func table(t *testing.T, name string) [][]float64 {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]float64
	for line := range strings.Lines(string(text)) {
		fields := strings.Split(strings.TrimSpace(line), ",")
		var row []float64
		for _, f := range fields {
			if x, err := strconv.ParseFloat(f, 64); err == nil {
				row = append(row, x)
			}
		}
		if len(row) == len(fields) {
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		t.Fatalf("%s holds no row", name)
	}
	return rows
}
