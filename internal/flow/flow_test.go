package flow_test

import (
	"slices"
	"strings"
	"testing"

	"awn/internal/flow"
	"awn/internal/tools/targets"
)

// pure is the part of the standard library that every package may use: it
// computes, and neither reads a clock nor touches anything outside the program.
var pure = []string{
	"cmp", "errors", "fmt", "iter", "maps", "math", "math/bits", "math/rand/v2", "slices", "sort", "strconv", "strings",
	"unicode", "unicode/utf8",
}

func TestImportsFollowTheTable(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	table, err := flow.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	files, err := targets.Files(root)
	if err != nil {
		t.Fatal(err)
	}
	packages := map[string]bool{}
	for _, f := range files {
		if f.Test() || f.Package == "." {
			continue
		}
		rule, ok := table.Find(f.Package)
		if !ok && !packages[f.Package] {
			t.Errorf("package %s has no line in the import table of ARCHITECTURE.md: give it one, below all it imports", f.Package)
		}
		packages[f.Package] = true
		if !ok {
			continue
		}
		for _, path := range f.Imports() {
			if why := refuse(rule, path); why != "" {
				t.Errorf("%s imports %q: %s", f.Path(), path, why)
			}
		}
	}
	if len(packages) < 5 {
		t.Errorf("only %d packages read: the walk has lost its way", len(packages))
	}
}

// refuse says why a rule forbids an import, or nothing.
func refuse(r flow.Rule, path string) string {
	if own, ok := strings.CutPrefix(path, "awn/"); ok {
		if r.Packages[own] {
			return ""
		}
		return "the table in ARCHITECTURE.md does not let " + r.Package + " see " + own
	}
	for extra := range r.Extra {
		if path == extra || strings.HasPrefix(path, extra+"/") {
			return ""
		}
	}
	first, _, _ := strings.Cut(path, "/")
	switch {
	case strings.Contains(first, "."):
		return "an outside module the table in ARCHITECTURE.md does not name for " + r.Package
	case slices.Contains(pure, path):
		return ""
	case path == "context":
		return "context is only for packages whose work is long, and is named on their line"
	case r.Extra["std"]:
		return ""
	}
	return "a package that computes the trade reads no clock, file, log or global state"
}

func TestRefuse(t *testing.T) {
	table, err := flow.Parse("unit <\nair < unit\nkiln < +air | reflect\ncourse < +kiln | context\ninternal/cli < +course | std example.org/flags")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		pkg, path string
		allowed   bool
	}{
		{"air", "awn/unit", true},
		{"air", "awn/kiln", false},
		{"kiln", "awn/unit", true}, // through +air
		{"unit", "awn/air", false},
		{"air", "math", true},
		{"air", "os", false},
		{"air", "log/slog", false},
		{"air", "time", false},
		{"air", "math/rand", false}, // draws from a global source
		{"air", "database/sql", false},
		{"air", "reflect", false},
		{"kiln", "reflect", true},
		{"kiln", "context", false},
		{"course", "context", true},
		{"internal/cli", "os", true},
		{"internal/cli", "context", false},
		{"internal/cli", "example.org/flags/v2", true},
		{"internal/cli", "example.org/other", false},
	} {
		r, ok := table.Find(c.pkg)
		if !ok {
			t.Fatalf("no rule for %s", c.pkg)
		}
		if why := refuse(r, c.path); (why == "") != c.allowed {
			t.Errorf("%s importing %s: allowed should be %v, got %q", c.pkg, c.path, c.allowed, why)
		}
	}
}

func TestParseRefusesACircleAndAPackageTwice(t *testing.T) {
	for _, block := range []string{"a < b\nb <", "a <\nb < c\nc < b", "a <\na <", "a b < a", "no arrow"} {
		if _, err := flow.Parse(block); err == nil {
			t.Errorf("the table %q was taken", block)
		}
	}
}

func TestScience(t *testing.T) {
	table, err := flow.Parse("unit <\nexamples < | std\ninternal/cli < unit | std\nbench/peer < | std")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range table {
		if got, want := r.Science(), r.Package == "unit"; got != want {
			t.Errorf("%s is science: %v, want %v", r.Package, got, want)
		}
	}
}
