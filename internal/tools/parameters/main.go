// Command parameters writes docs/method/parameters.md: every uncertain
// constant of a course, with its range and its standing.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"awn/course"
	"awn/internal/tools/targets"
	"awn/odds"
)

// file is where the table lies, below the root of the module.
const file = "docs/method/parameters.md"

func main() {
	root, err := targets.Root()
	if err == nil {
		err = os.WriteFile(filepath.Join(root, file), []byte(table(course.Parameters())), 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "parameters:", err)
		os.Exit(1)
	}
}

const head = `# Parameters

Every constant of the model that may be wrong, in grain order: %d lines. Low and high are the 5th and 95th percentile of
what it may be; of a uniform shape they are its ends. A house puts its own figure under ` + "`params:`" + ` in its plant document, by
the same key and in the same unit. Sources are keys of [SOURCES.md](../../SOURCES.md).

The standings, best first: *measured* on this lot or house; *checked* against something outside the project; *sourced* from
a publication that was read; *practice*, common practice without a source; *recalled* from memory of a publication that
nobody here has read; *weak*, a judgement: tune it to the house. In this table: %s.

This file is made by: go run ./internal/tools/parameters
`

// table is the text of the file: one section for each package.
func table(all []odds.Parameter) string {
	var b strings.Builder
	fmt.Fprintf(&b, head, len(all), standings(all))
	last := ""
	for _, p := range all {
		if area, _, _ := strings.Cut(p.Key, "."); area != last {
			last = area
			fmt.Fprintf(&b, "\n## %s\n\n| key | unit | default | low | high | shape | source | standing |\n", area)
			b.WriteString("| --- | --- | ---: | ---: | ---: | --- | --- | --- |\n")
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s | %s | %s | %s |\n",
			p.Key, p.Unit, number(p.Default), number(p.Low), number(p.High), p.Distribution, p.Source, p.Mark)
	}
	return b.String()
}

// standings counts how many parameters stand how.
func standings(all []odds.Parameter) string {
	count := map[odds.Standing]int{}
	for _, p := range all {
		count[p.Mark]++
	}
	var out []string
	for _, s := range []odds.Standing{odds.Measured, odds.Checked, odds.Sourced, odds.Practice, odds.Recalled, odds.Weak} {
		if n := count[s]; n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, s))
		}
	}
	return strings.Join(out, ", ")
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
