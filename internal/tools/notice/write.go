package main

import (
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// goLicense is the licence of the Go standard library, as the Go distribution
// carries it; it is linked into every Go program.
//
//go:embed go-license.txt
var goLicense string

const head = `awn
Copyright 2026 The awn authors

Licensed under the Apache License, Version 2.0: see LICENSE.
awn is built with the Go standard library and the modules below. The licence
texts of what is linked into the program follow the list.

This file is made by: go run ./internal/tools/notice

`

// Write makes the text of NOTICE.
func Write(modules []Module) (string, error) {
	var list, texts strings.Builder
	row(&list, "Go standard library", "", "BSD-3-Clause", "in the program")
	section(&texts, "Go standard library", goLicense)
	for _, m := range modules {
		licence, err := licenceText(m.Dir)
		if err != nil {
			return "", fmt.Errorf("%s: %w", m.Path, err)
		}
		kind := Kind(licence)
		if kind == "" {
			return "", fmt.Errorf("%s: its licence is none that is known here; read it, and teach Kind about it", m.Path)
		}
		where := "in tests only"
		if m.Linked {
			where = "in the program"
			section(&texts, m.Path, licence)
		}
		row(&list, m.Path, m.Version, kind, where)
	}
	return head + list.String() + texts.String(), nil
}

func row(b *strings.Builder, cells ...string) {
	line := fmt.Sprintf("%-44s %-38s %-14s %s", cells[0], cells[1], cells[2], cells[3])
	b.WriteString(strings.TrimRight(line, " ") + "\n")
}

func section(b *strings.Builder, title, text string) {
	fmt.Fprintf(b, "\n%s\n%s\n\n", strings.Repeat("=", 78), title)
	for line := range strings.Lines(text) {
		b.WriteString(strings.TrimRight(line, " \t\r\n") + "\n")
	}
}

// licenceFile matches the names under which modules keep a licence or notice.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice)([-.](md|txt|mit|apache|bsd))?$`)

// licenceText returns the licence files in the root of a module, one after
// another.
func licenceText(dir string) (string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "", err
	}
	var texts []string
	for _, e := range entries {
		if e.IsDir() || !licenceFile.MatchString(e.Name()) {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return "", err
		}
		texts = append(texts, string(text))
	}
	if len(texts) == 0 {
		return "", fmt.Errorf("no licence file in %s", dir)
	}
	slices.SortStableFunc(texts, func(a, b string) int { return len(b) - len(a) })
	return strings.Join(texts, "\n"), nil
}

// kinds are phrases that only one licence has, and its SPDX name; the first
// that all match wins.
var kinds = []struct {
	name    string
	phrases []string
}{
	{"Apache-2.0", []string{"Apache License", "Version 2.0, January 2004"}},
	{"MPL-2.0", []string{"Mozilla Public License", "ersion 2.0"}},
	{"OFL-1.1", []string{"SIL OPEN FONT LICENSE"}},
	{"BSD-3-Clause", []string{"Redistribution and use in source and binary forms", "endorse or promote products"}},
	{"BSD-2-Clause", []string{"Redistribution and use in source and binary forms"}},
	{"ISC", []string{"Permission to use, copy, modify, and"}},
	{"MIT", []string{"Permission is hereby granted, free of charge"}},
}

// Kind returns the SPDX name of a licence text, or nothing.
func Kind(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	for _, k := range kinds {
		if !slices.ContainsFunc(k.phrases, func(p string) bool { return !strings.Contains(text, p) }) {
			return k.name
		}
	}
	return ""
}
