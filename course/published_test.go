package course_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// A published malting from end to end, run from the documents that a user can
// run. Each row of testdata/harrington.csv has its tolerance with the reason;
// how far the model misses is printed with -v and told in
// docs/method/disagreements.md.
func TestHarrington(t *testing.T) {
	o := run(t, load(t, "checks/harrington.yaml"))
	all, living := o.Growth.Mean, o.Growth.Living
	got := map[string]float64{
		"extract":          100 * all.ExtractFine,
		"S/T":              100 * all.Kolbach,
		"wort beta-glucan": living.WortBetaGlucanMgL,
		"diastatic power":  all.DiastaticPowerASBC,
	}
	rows := published(t, "testdata/harrington.csv")
	if len(rows) != len(got) {
		t.Fatalf("%d rows and %d figures", len(rows), len(got))
	}
	for _, r := range rows {
		x, ok := got[r.figure]
		if !ok {
			t.Fatalf("nothing is compared with %s", r.figure)
		}
		t.Logf("%-17s %6.1f %s, published %.1f: misses by %+.1f of %.1f", r.figure, x, r.unit, r.value, x-r.value, r.tolerance)
		if !(math.Abs(x-r.value) <= r.tolerance) {
			t.Errorf("%s is %.1f %s, published %.1f, tolerance %.1f", r.figure, x, r.unit, r.value, r.tolerance)
		}
	}
}

// row is a published figure.
type row struct {
	figure, unit     string
	value, tolerance float64
}

// published reads a table of figures, units, values and tolerances.
func published(t *testing.T, name string) []row {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment, r.FieldsPerRecord = '#', 4
	records, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []row
	for _, rec := range records[1:] {
		value, err1 := strconv.ParseFloat(rec[2], 64)
		tolerance, err2 := strconv.ParseFloat(rec[3], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%s: %v", name, rec)
		}
		out = append(out, row{rec[0], rec[1], value, tolerance})
	}
	return out
}
