// Command check is the first tier of tests: everything that must hold before
// a change is taken. It runs its parts in order, prints how long each took,
// and goes on after a failure so that one run shows all there is.
//
//	go run ./internal/tools/check [-only part,part] [-fuzztime 3s]
package main

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"

	"awn/internal/tools/targets"
)

func main() {
	only := flag.String("only", "", "parts to run, parted by commas; all if empty")
	fuzztime := flag.Duration("fuzztime", 3*time.Second, "how long each fuzz target is tried")
	flag.Parse()
	ok, err := run(*only, *fuzztime)
	if err != nil {
		fmt.Fprintln(os.Stderr, "check:", err)
	}
	if err != nil || !ok {
		os.Exit(1)
	}
}

func run(only string, fuzztime time.Duration) (ok bool, err error) {
	root, err := targets.Root()
	if err != nil {
		return false, err
	}
	files, err := targets.Files(root)
	if err != nil {
		return false, err
	}
	c := &checker{root: root, files: files, fuzztime: fuzztime}
	parts, err := choose(c.parts(), only)
	if err != nil {
		return false, err
	}
	var results []result
	for _, p := range parts {
		fmt.Printf("== %s\n", p.name)
		start := time.Now()
		note, err := p.run()
		results = append(results, result{p.name, time.Since(start), note, err})
		if err != nil {
			fmt.Printf("-- %s: %v\n", p.name, err)
		}
	}
	return summary(results, c.tally), nil
}

// part is one thing that is checked. Its note says what was covered.
type part struct {
	name string
	run  func() (note string, err error)
}

type result struct {
	name string
	took time.Duration
	note string
	err  error
}

func choose(all []part, only string) ([]part, error) {
	if only == "" {
		return all, nil
	}
	var out []part
	for name := range strings.SplitSeq(only, ",") {
		i := slices.IndexFunc(all, func(p part) bool { return p.name == name })
		if i < 0 {
			return nil, fmt.Errorf("there is no part %s", name)
		}
		out = append(out, all[i])
	}
	return out, nil
}

// summary prints a line for each part and the closing count, and reports
// whether all is well.
func summary(results []result, t tally) bool {
	fmt.Printf("\n%-12s %9s  %-6s %s\n", "part", "minutes", "", "covered")
	ok := true
	for _, r := range results {
		verdict := "ok"
		if r.err != nil {
			verdict, ok = "FAIL", false
		}
		fmt.Printf("%-12s %9.2f  %-6s %s\n", r.name, r.took.Minutes(), verdict, r.note)
	}
	for _, s := range t.skips {
		fmt.Printf("skipped: %s\n", s)
	}
	if t.passed+t.failed > 0 {
		fmt.Printf("%d passed, %d failed, %d skipped\n", t.passed, t.failed, len(t.skips))
	}
	return ok
}
