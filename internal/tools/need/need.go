// Package need is for tests that want a program or a library from outside Go.
// Where it is missing the test is skipped and says what to install; where
// AWN_REQUIRE names it (a list parted by commas, as in
// AWN_REQUIRE=chromium,cc) the test fails instead, so that a machine that
// should have everything cannot pass by skipping.
package need

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// programs are the names under which systems install a program, best first.
var programs = map[string][]string{
	"chromium": {"chromium", "chromium-browser", "google-chrome", "chrome"},
	"cc":       {"cc", "gcc", "clang"},
}

// folders are where systems keep a program that they do not put on the path.
// Where several match, the last is the newest.
var folders = map[string][]string{
	"postgres": {"/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/usr/local/pgsql/bin", "/opt/homebrew/opt/postgresql*/bin"},
}

// Find returns where a program lies, under any of its names.
func Find(name string) (path string, found bool) {
	names, ok := programs[name]
	if !ok {
		names = []string{name}
	}
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path, true
		}
	}
	for _, folder := range folders[name] {
		found, _ := filepath.Glob(filepath.Join(folder, name)) // a pattern above is well formed
		if len(found) > 0 {
			return found[len(found)-1], true
		}
	}
	return "", false
}

// Required reports whether AWN_REQUIRE names the thing.
func Required(name string) bool {
	return slices.Contains(strings.Split(os.Getenv("AWN_REQUIRE"), ","), name)
}

// Program returns where a program lies, or ends the test.
func Program(t testing.TB, name string) string {
	t.Helper()
	path, found := Find(name)
	Met(t, name, found)
	return path
}

// Met ends the test unless the thing was found: it fails where the thing is
// required and is skipped elsewhere.
func Met(t testing.TB, name string, found bool) {
	t.Helper()
	switch {
	case found:
	case Required(name):
		t.Fatalf("%s is not here, and AWN_REQUIRE names it", name)
	default:
		t.Skipf("not run: %s is not here (AWN_REQUIRE=%s would make this a failure)", name, name)
	}
}
