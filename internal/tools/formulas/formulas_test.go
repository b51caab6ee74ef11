package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"awn/internal/tools/targets"
)

func root(t *testing.T) string {
	t.Helper()
	r, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestEveryFormulaSaysWhenceItComes(t *testing.T) {
	found, faults, err := gather(root(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range faults {
		t.Error(f)
	}
	if len(found) < 10 {
		t.Errorf("only %d formulas found: the search has lost its way", len(found))
	}
}

func TestCatalogueIsFresh(t *testing.T) {
	found, _, err := gather(root(t))
	if err != nil {
		t.Fatal(err)
	}
	want, err := marshal(found)
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(root(t), file))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is not what the comments say: run go run ./internal/tools/formulas", file)
	}
}

func TestReadTakesACommentApart(t *testing.T) {
	f, faults := read(`Loss is what goes. It has
two lines.

	a = b + c        (kg)
	d = e

with e the rest.

Source: Reed 1901, p. 3
and p. 4.
Valid: 0 to 1; NaN outside.
Note: said once.
`, "Loss")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for _, c := range []struct{ what, got, want string }{
		{"summary", f.Summary, "Loss is what goes. It has two lines."},
		{"text", f.Text, "a = b + c        (kg)\nd = e\nwith e the rest."},
		{"standing", f.Standing, "source"},
		{"source", f.Source, "Reed 1901, p. 3 and p. 4."},
		{"valid", f.Valid, "0 to 1; NaN outside."},
		{"note", f.Note, "said once."},
		{"check", f.Check, ""},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.what, c.got, c.want)
		}
	}
}

func TestReadFindsWhatIsMissing(t *testing.T) {
	for _, c := range []struct{ doc, fault string }{
		{"", "does not begin with the name"},
		{"Loss is what goes.\n\n\ta = b\n", "none of Source:"},
		{"Loss is what goes.\n\nSource: Reed 1901.\n", "no formula"},
		{"Loss is what goes.\n\n\ta = b\n\nSource:\n", "nothing after the word"},
		{"Loss is what goes.\n\n\ta = b\n\nValid: all.\nSource: Reed 1901.\n", "stands after"},
	} {
		_, faults := read(c.doc, "Loss")
		if !strings.Contains(strings.Join(faults, "; "), c.fault) {
			t.Errorf("%q: faults %q, want one with %q", c.doc, faults, c.fault)
		}
	}
}

func TestWhatIsAFormula(t *testing.T) {
	const src = `package kiln
type Loss float64
type Run struct { t float64; layer []float64 }
type hidden struct{}
func A(x float64) float64 { return x }
func B(x float64) (Loss, error) { return 0, nil }
func C() (low, high float64) { return }
func D(t unit.Celsius) unit.Kelvin { return 0 }
func (r *Run) E() float64 { return r.t + 1 }
func (r *Run) NotHeld() float64 { return r.t }
func (r *Run) NotElement() float64 { return r.layer[0] }
func (l Loss) NotConversion() float64 { return float64(l) }
func NotReader(text string) (float64, error) { return 0, nil }
func NotNumber() Run { return Run{} }
func NotCount() (int, float64) { return 0, 0 }
func NotSlice() []float64 { return nil }
func (r *Run) NotStep() error { return nil }
func (hidden) NotSeen() float64 { return 1 }
func notSeen() float64 { return 1 }
`
	syntax, err := parser.ParseFile(token.NewFileSet(), "kiln.go", src, 0)
	if err != nil {
		t.Fatal(err)
	}
	numbers := map[string]bool{"kiln.Loss": true, "unit.Celsius": true, "unit.Kelvin": true}
	for _, d := range syntax.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if !ok {
			continue
		}
		want := !strings.HasPrefix(strings.ToLower(fn.Name.Name), "not")
		if got := isFormula(fn, "kiln", numbers); got != want {
			t.Errorf("%s is a formula: %v, want %v", fn.Name.Name, got, want)
		}
	}
}
