package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"awn/internal/tools/targets"
)

// rounding is what is left of a closed account. It is the rounding of the
// processor's arithmetic and not the same on all of them.
var rounding = regexp.MustCompile(`10⁻[⁰¹²³⁴⁵⁶⁷⁸⁹]+`)

func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	fresh, commands, err := refresh(string(text))
	if err != nil {
		t.Fatal(err)
	}
	if rounding.ReplaceAllString(fresh, "") != rounding.ReplaceAllString(string(text), "") {
		t.Errorf("%s does not show what is printed: run go run ./internal/tools/readme", file)
	}
	if commands < 4 {
		t.Errorf("%d commands with their output in %s: there should be the account and three sums", commands, file)
	}
	if lines := strings.Count(string(text), "\n"); lines > 150 {
		t.Errorf("%s has %d lines, and must not have more than 150", file, lines)
	}
}

// Links of the README and of the pages of the method lead to files that exist.
func TestLinksLeadSomewhere(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	pages, err := filepath.Glob(filepath.Join(root, "docs", "*", "*.md"))
	if err != nil {
		t.Fatal(err)
	}
	link := regexp.MustCompile(`\]\(([^)#:]+)\)`)
	for _, page := range append(pages, filepath.Join(root, file)) {
		text, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range link.FindAllStringSubmatch(string(text), -1) {
			if _, err := os.Stat(filepath.Join(filepath.Dir(page), m[1])); err != nil {
				t.Errorf("%s links to %s, which is not there", page, m[1])
			}
		}
	}
}

func TestRefresh(t *testing.T) {
	const page = "a\n```\n$ go run ./cmd/awn reckon mass 1 t\nold\n...\n$ go run ./cmd/awn version\n```\nb"
	fresh, commands, err := refresh(page)
	if err != nil {
		t.Fatal(err)
	}
	head, tail, _ := strings.Cut(page, "old")
	want := head + "A mass in tonnes, pounds and bushels" + strings.TrimSuffix(tail, "```\nb") + "awn "
	if !strings.HasPrefix(fresh, want) || !strings.HasSuffix(fresh, "\n```\nb") || commands != 2 {
		t.Errorf("%d commands:\n%s", commands, fresh)
	}
	if _, _, err := refresh("```\n$ go run ./cmd/awn malt\nno end"); err == nil {
		t.Error("a block without end is taken")
	}
	if _, _, err := refresh("```\n$ go run ./cmd/awn nonsense\n```"); err == nil {
		t.Error("a command that fails is shown")
	}
}
