// Package flow keeps the table in ARCHITECTURE.md that says which package may
// import which. Its test parses the import lines of every file in the module.
package flow

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// Rule is what one package may import.
type Rule struct {
	Package  string          // path below the module, e.g. "kiln" or "internal/words"
	Packages map[string]bool // packages of this module
	Extra    map[string]bool // standard or outside packages beyond the pure ones; "std" is all of the standard library but context
}

// Science reports whether the package computes the trade: it stands at the
// top of the tree and may use the pure part of the standard library only.
func (r Rule) Science() bool {
	return !strings.Contains(r.Package, "/") && !r.Extra["std"]
}

// Table is the rules, in the order in which ARCHITECTURE.md gives them.
type Table []Rule

// Find returns the rule of a package.
func (t Table) Find(pkg string) (Rule, bool) {
	for _, r := range t {
		if r.Package == pkg {
			return r, true
		}
	}
	return Rule{}, false
}

// fence opens the block of ARCHITECTURE.md that holds the table.
const fence = "```flow\n"

// Read returns the table in ARCHITECTURE.md of the module at root.
func Read(root string) (Table, error) {
	text, err := os.ReadFile(filepath.Join(root, "ARCHITECTURE.md"))
	if err != nil {
		return nil, err
	}
	_, block, found := strings.Cut(string(text), fence)
	block, _, closed := strings.Cut(block, "\n```")
	if !found || !closed {
		return nil, fmt.Errorf("ARCHITECTURE.md has no block opened by %q", strings.TrimSpace(fence))
	}
	return Parse(block)
}

// Parse reads rules of the form
//
//	names < names | extras
//
// one a line. A name on the right stands for a package above; with a plus in
// front it stands for that package and everything it may import itself. A
// package that is not above is an error: the table only ever points upwards,
// so it cannot hold a circle.
func Parse(block string) (Table, error) {
	var t Table
	for n, line := range strings.Split(block, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		left, right, ok := strings.Cut(line, "<")
		if !ok {
			return nil, fmt.Errorf("line %d of the table has no <: %s", n+1, line)
		}
		right, extra, _ := strings.Cut(right, "|")
		allowed, err := t.expand(strings.Fields(right))
		if err != nil {
			return nil, fmt.Errorf("line %d of the table: %w", n+1, err)
		}
		extras := set(strings.Fields(extra))
		// The rules of one line do not see each other: packages that share a line
		// never import one another.
		for _, name := range strings.Fields(left) {
			if _, twice := t.Find(name); twice {
				return nil, fmt.Errorf("line %d of the table: %s has a rule already", n+1, name)
			}
			t = append(t, Rule{name, allowed, extras})
		}
	}
	return t, nil
}

// expand turns the right-hand names of a line into a set of packages.
func (t Table) expand(names []string) (map[string]bool, error) {
	out := map[string]bool{}
	for _, name := range names {
		bare := strings.TrimPrefix(name, "+")
		r, ok := t.Find(bare)
		if !ok {
			return nil, fmt.Errorf("%s stands on no line above", bare)
		}
		out[bare] = true
		if bare != name {
			for p := range r.Packages {
				out[p] = true
			}
		}
	}
	return out, nil
}

func set(names []string) map[string]bool {
	out := make(map[string]bool, len(names))
	for _, n := range names {
		out[n] = true
	}
	return out
}
