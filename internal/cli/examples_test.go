package cli_test

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"awn/examples"
)

// written writes the examples to a folder of the test's own.
func written(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if status, _, said := run(context.Background(), "init", "-q", dir); status != 0 {
		t.Fatal(said)
	}
	return dir
}

// outcome is the result of a piece as it stands in JSON.
func outcome(t *testing.T, file string) map[string]any {
	t.Helper()
	status, out, said := run(context.Background(), "malt", "--json", file)
	if status != 0 {
		t.Fatalf("%s ends with %d: %s", file, status, said)
	}
	var envelope struct{ Result map[string]any }
	if err := json.Unmarshal([]byte(out), &envelope); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	return envelope.Result
}

func TestEveryExampleRuns(t *testing.T) {
	dir := written(t)
	pieces, err := fs.Glob(examples.Files, "piece*.yaml")
	if err != nil || len(pieces) == 0 {
		t.Fatalf("%d pieces, %v", len(pieces), err)
	}
	for _, name := range pieces {
		if o := outcome(t, filepath.Join(dir, name)); len(o) == 0 {
			t.Errorf("%s: nothing came of it", name)
		}
	}
}

// The first piece is written a second time in °F, lb and bu. Its documents
// round some conversions to six decimals, hence the tolerance; the buyer's
// limits are left out, for they are judged on scales of their own.
func TestUnitsDoNotMatter(t *testing.T) {
	const near = 1e-4
	dir := written(t)
	metric, us := outcome(t, filepath.Join(dir, "piece.yaml")), outcome(t, filepath.Join(dir, "piece-us.yaml"))
	delete(metric, "judged")
	delete(us, "judged")
	numbers := 0
	for _, d := range differences("", metric, us, near, &numbers) {
		t.Error(d)
	}
	if numbers < 1000 {
		t.Errorf("only %d numbers compared", numbers)
	}
}

// differences compares two JSON values and counts the numbers.
func differences(at string, a, b any, near float64, numbers *int) []string {
	var out []string
	switch x := a.(type) {
	case map[string]any:
		y, _ := b.(map[string]any)
		if len(x) != len(y) {
			out = append(out, fmt.Sprintf("%s: %d keys and %d", at, len(x), len(y)))
		}
		for k := range x {
			out = append(out, differences(at+"."+k, x[k], y[k], near, numbers)...)
		}
	case []any:
		y, _ := b.([]any)
		if len(x) != len(y) {
			return []string{fmt.Sprintf("%s: %d entries and %d", at, len(x), len(y))}
		}
		for i := range x {
			out = append(out, differences(fmt.Sprintf("%s[%d]", at, i), x[i], y[i], near, numbers)...)
		}
	case float64:
		*numbers++
		y, ok := b.(float64)
		// A balance that closes to rounding has no digits to compare.
		if !ok || !strings.HasSuffix(at, "closure") && math.Abs(x-y) > near*math.Max(math.Abs(x), 1e-3) {
			out = append(out, fmt.Sprintf("%s: %v and %v", at, a, b))
		}
	default:
		if a != b {
			out = append(out, fmt.Sprintf("%s: %v and %v", at, a, b))
		}
	}
	return out
}
