package course_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Every finding that a course can tell is in a table of causes and cures: above, or in
// the tests of its own stage. docs/codes.md lists them all; a test of its own
// holds that list to the source.
func TestEveryFindingIsCovered(t *testing.T) {
	text, err := os.ReadFile("../docs/codes.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, _ := strings.Cut(string(text), "\n## Findings\n")
	list, _, _ = strings.Cut(list, "\n## ")
	listed := regexp.MustCompile("(?m)^\\| `([a-z0-9.*-]+)` \\|").FindAllStringSubmatch(list, -1)
	if len(listed) < 40 {
		t.Fatalf("%d findings are listed", len(listed))
	}
	// What the pocket tables alone tell is in their tests, several codes in a text.
	sums := []string{"malt.blend.", "malt.kolbach.mean", "malt.*.meets", "steep.sample."}
	// Tests that ask only whether a finding is told do not count.
	onlyTold := []string{"bad_test.go", "cases_test.go", "practice_test.go", "identity_test.go"}
	tests := ""
	for _, dir := range []string{"steep", "germinate", "kiln", "dress", "course"} {
		if dir == "course" {
			tests += testsIn(t, dir, onlyTold...)
		} else {
			tests += testsIn(t, dir)
		}
	}
	for _, m := range listed {
		code := m[1]
		part := strings.Split(code, ".")
		if !slices.Contains([]string{"lot", "begin", "programme", "steep", "germinate", "kiln", "dress", "malt"}, part[0]) {
			continue // of computations other than a course
		}
		where := tests
		if slices.ContainsFunc(sums, func(sum string) bool { return strings.HasPrefix(code, sum) }) {
			where = strings.ReplaceAll(testsIn(t, "reckon"), " ", `" "`)
		}
		is := `"` + code + `"`
		switch { // of codes that are put together, the part that is written out
		case part[0] == "lot":
			is = `"` + part[1] + `"`
		case part[1] == "*":
			is = "." + part[2] + `"`
		}
		if !strings.Contains(where, is) {
			t.Errorf("%s comes and goes in no test", code)
		}
	}
}

// testsIn is the text of the tests of a package but for some files.
func testsIn(t *testing.T, dir string, but ...string) string {
	t.Helper()
	names, _ := filepath.Glob(filepath.Join("..", dir, "*_test.go")) // the pattern is well formed
	all := ""
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(but, filepath.Base(name)) {
			all += string(text)
		}
	}
	return all
}
