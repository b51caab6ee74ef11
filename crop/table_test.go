package crop

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"awn/internal/tools/need"
)

// public reads a file of the invented surveys, which do not travel with the
// program: AWN_DATA names the folder that holds them, and beside it lies the
// folder “reference” with what general-purpose statistics packages make of them.
func public(t testing.TB, parts ...string) io.Reader {
	t.Helper()
	f, err := os.Open(filepath.Join(append([]string{os.Getenv("AWN_DATA")}, parts...)...))
	need.Met(t, "AWN_DATA", os.Getenv("AWN_DATA") != "" && err == nil)
	t.Cleanup(func() { f.Close() })
	return f
}

func rows(t testing.TB, from io.Reader) [][]string {
	t.Helper()
	r := csv.NewReader(from)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatal("no table: ", err)
	}
	return all
}

// dev is the invented survey with its frame.
func dev(t testing.TB) *Survey {
	t.Helper()
	s := sound(t, rows(t, public(t, "crop", "dev.csv")))
	if faults := s.ReadFrame(rows(t, public(t, "crop", "dev_strata.csv"))); len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

func sound(t testing.TB, cells [][]string) *Survey {
	t.Helper()
	s, faults := Read(cells, nil)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

// reference is what R's survey package, 4.1-1, and calculations in R make of the
// invented survey.
func reference(t testing.TB) node {
	t.Helper()
	var out any
	if err := json.NewDecoder(public(t, "..", "reference", "crop", "ref_dev.json")).Decode(&out); err != nil {
		t.Fatal(err)
	}
	return node{t, out, ""}
}

// node is a place in the reference.
type node struct {
	t    testing.TB
	v    any
	path string
}

func (n node) at(keys ...any) node {
	n.t.Helper()
	for _, k := range keys {
		switch k := k.(type) {
		case string:
			m, _ := n.v.(map[string]any)
			v, ok := m[k]
			if !ok {
				n.t.Fatalf("the reference has no %s in %s", k, n.path)
			}
			n.v, n.path = v, n.path+"/"+k
		case int:
			n.v, n.path = n.v.([]any)[k], n.path+"/"+strconv.Itoa(k)
		}
	}
	return n
}

func (n node) has(key string) bool { _, ok := n.v.(map[string]any)[key]; return ok }

func (n node) keys() (out []string) {
	for k := range n.v.(map[string]any) {
		out = append(out, k)
	}
	return out
}

func (n node) len() int { return len(n.v.([]any)) }

func (n node) text() string { return n.v.(string) }

func (n node) x() float64 {
	n.t.Helper()
	x, ok := n.v.(float64)
	if !ok {
		n.t.Fatalf("%s is %v", n.path, n.v)
	}
	return x
}

// near fails unless got is within the tolerance of the reference.
func (n node) near(got, tolerance float64) {
	n.t.Helper()
	if want := n.x(); !(math.Abs(got-want) <= tolerance) {
		n.t.Errorf("%s = %.12g, want %.12g ± %.1g", n.path, got, want, tolerance)
	}
}

// like is near by a share of the reference.
func (n node) like(got, share float64) {
	n.t.Helper()
	n.near(got, share*math.Abs(n.x()))
}

func number(t testing.TB, text string, word bool) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil && !word {
		t.Fatal(err)
	}
	return x
}
