package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"awn/internal/tools/targets"
)

func read(t *testing.T, name string) string {
	t.Helper()
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestNoticeIsFresh(t *testing.T) {
	root, err := targets.Root()
	if err != nil {
		t.Fatal(err)
	}
	modules, err := Modules(root)
	if err != nil {
		t.Fatal(err)
	}
	want, err := Write(modules)
	if err != nil {
		t.Fatal(err)
	}
	if read(t, "NOTICE") != want {
		t.Error("NOTICE is not what the modules say: run go run ./internal/tools/notice")
	}
}

// Source: the sum is that of /usr/share/common-licenses/Apache-2.0 in Debian's
// package base-files, the text as the Apache Software Foundation publishes it.
func TestLicenceIsTheUnmodifiedText(t *testing.T) {
	const want = "cfc7749b96f63bd31c3c42b5c471bf756814053e847c10f3eb003417bc523d30"
	if got := fmt.Sprintf("%x", sha256.Sum256([]byte(read(t, "LICENSE")))); got != want {
		t.Errorf("LICENSE has the sum %s, want %s", got, want)
	}
}

func TestKind(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{read(t, "LICENSE"), "Apache-2.0"},
		{goLicense, "BSD-3-Clause"},
		{"Permission is hereby granted,\n free of charge, to any person", "MIT"},
		{"Mozilla Public License, version 2.0", "MPL-2.0"},
		{"All rights reserved.", ""},
	} {
		if got := Kind(c.text); got != c.want {
			t.Errorf("%.40q is %q, want %q", c.text, got, c.want)
		}
	}
}

// Each module that go.mod asks for itself has its line in the decisions: what
// it does here, what else was weighed, under which licence.
func TestEveryDirectDependencyIsAccountedFor(t *testing.T) {
	decisions := read(t, "docs/decisions/0002-dependencies.md")
	for _, path := range direct(read(t, "go.mod")) {
		if !strings.Contains(decisions, "| `"+path+"` |") {
			t.Errorf("go.mod asks for %s, and docs/decisions/0002-dependencies.md has no line for it", path)
		}
	}
}

// direct returns the paths that go.mod requires without calling them indirect.
func direct(gomod string) []string {
	var out []string
	block := false
	for line := range strings.Lines(gomod) {
		line = strings.TrimSpace(line)
		fields := strings.Fields(strings.TrimPrefix(line, "require "))
		switch {
		case line == "require (":
			block = true
		case line == ")":
			block = false
		case (block || strings.HasPrefix(line, "require ")) && len(fields) >= 2 && !strings.HasSuffix(line, "// indirect"):
			out = append(out, fields[0])
		}
	}
	return out
}

func TestDirect(t *testing.T) {
	got := direct("module m\n\nrequire a.org/one v1.0.0\n\nrequire (\n\tb.org/two v2.0.0\n\tc.org/three v0.1.0 // indirect\n)\n")
	if strings.Join(got, " ") != "a.org/one b.org/two" {
		t.Errorf("got %q", got)
	}
}
