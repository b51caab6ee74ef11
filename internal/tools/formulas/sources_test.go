package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"awn/internal/tools/targets"
)

func sourceKeys(t *testing.T) []string {
	t.Helper()
	k, err := keys(root(t))
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func TestSourcesAreSortedAndEachOnce(t *testing.T) {
	k := sourceKeys(t)
	for i := 1; i < len(k); i++ {
		if a, b := strings.ToLower(k[i-1]), strings.ToLower(k[i]); a >= b {
			t.Errorf("SOURCES.md: %s stands after %s", k[i], k[i-1])
		}
	}
}

func TestEverythingCitedIsAnEntry(t *testing.T) {
	k := sourceKeys(t)
	found, _, err := gather(root(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		for _, b := range badSources(f, k) {
			t.Errorf("%s: %s", f.Key(), b)
		}
	}
	files, err := scienceFiles(root(t))
	if err != nil {
		t.Fatal(err)
	}
	bad, seen := badParameters(files, k)
	for _, b := range bad {
		t.Error(b)
	}
	t.Logf("%d formulas, %d parameters", len(found), seen)
}

func TestEveryTableSaysWhenceItComes(t *testing.T) {
	k := sourceKeys(t)
	heads, err := tables(root(t))
	if err != nil {
		t.Fatal(err)
	}
	for path, h := range heads {
		if !strings.Contains(h, "Source:") {
			t.Errorf("%s: its head has no # Source: line", path)
		}
		for _, c := range uncited(h, k) {
			t.Errorf("%s: SOURCES.md has no entry %s", path, c)
		}
	}
	if len(heads) == 0 {
		t.Error("no tables found: the search has lost its way")
	}
}

func TestNoEntryIsUnused(t *testing.T) {
	r := root(t)
	unused := sourceKeys(t)
	files, err := targets.Files(r)
	if err != nil {
		t.Fatal(err)
	}
	heads, err := tables(r)
	if err != nil {
		t.Fatal(err)
	}
	paths, err := filepath.Glob(filepath.Join(r, "docs", "*", "*.md"))
	if err != nil {
		t.Fatal(err)
	}
	for p := range heads {
		paths = append(paths, p)
	}
	for _, f := range files {
		paths = append(paths, filepath.Join(r, f.Path()))
	}
	for _, p := range paths {
		text, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		unused = slices.DeleteFunc(unused, func(k string) bool { return strings.Contains(string(text), k) })
	}
	for _, k := range unused {
		t.Errorf("SOURCES.md: nothing cites %s", k)
	}
}

func TestCitations(t *testing.T) {
	k := []string{"Chung and Pfost 1967", "Reed 1901", "Treatise on Malt 1901"}
	for _, c := range []struct {
		text string
		want []string
	}{
		{"Reed 1901, p. 2; see Chung and Pfost 1967.", nil},
		{"Reed 1902, p. 2.", []string{"Reed 1902"}},
		{"table of Holm et al. 1999", []string{"Holm et al. 1999"}},
		{"Treatise on Malt 1901, p. 3", nil},
		{"Malt 1901, p. 3", []string{"Malt 1901"}},
		{"See Reed 1901.", nil},
		{"25 °C and 1013 hPa; 2000 kernels", nil},
	} {
		if got := uncited(c.text, k); !slices.Equal(got, c.want) {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
	if _, ok := startsWithKey("Reed 19011", k); ok {
		t.Error("a key was found in a longer word")
	}
}
