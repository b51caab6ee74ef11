package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"awn/internal/account"
	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/slip"
	"awn/internal/sqlstore"
	"awn/internal/tools/targets"
	"awn/internal/web"
	"awn/internal/words"
	"awn/ledger"
	"awn/reckon"
)

func TestListIsFresh(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(root, file))
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != list() {
		t.Errorf("%s is not what the program says: run go run ./internal/tools/codes", file)
	}
}

// isCode is the form of a code: area.thing.problem, or fewer parts where the
// area has but one thing. A star stands for any figure of an analysis.
var isCode = regexp.MustCompile(`^[a-z]+(\.([a-z0-9]+(-[a-z0-9]+)*|\*))+$`)

func TestCodesAreWellFormedAndNeverShared(t *testing.T) {
	seen := map[string]bool{}
	check := func(code string) {
		if !isCode.MatchString(code) {
			t.Errorf("%s is not of the form area.thing.problem", code)
		}
		if seen[code] {
			t.Errorf("%s stands for two things", code)
		}
		seen[code] = true
	}
	for _, c := range paper.Codes {
		check(c.Code)
	}
	for code := range reckon.Sentences {
		check(code)
	}
	for code := range sqlstore.Codes {
		check(code)
	}
	for code := range ledger.Sentences {
		check(code)
	}
	for code := range exchange.Sentences {
		check(code)
	}
	for code := range web.Codes {
		check(code)
	}
	for code := range slip.Sentences {
		check(code)
	}
	findings, acts := words.Texts()
	for code := range findings {
		check(code)
	}
	for code := range acts {
		check(code)
	}
	for code := range malthouse.Sentences {
		check(code)
	}
	for code := range account.Sentences {
		check(code)
	}
	if text := list(); strings.Count(text, "\n| `") != len(seen) {
		t.Errorf("%d codes, and %d lines in the list", len(seen), strings.Count(text, "\n| `"))
	}
}
