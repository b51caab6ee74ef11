// Command long is the second tier of tests: what takes too long to run before
// every change. It fuzzes each target for minutes, runs the benchmarks and
// times the C peer and lme4. It also counts how often the intervals of a survey
// hold the truth, and holds the bands of an ensemble against truths that are
// computed in another way. It has fifty people at work on one house, kills
// programs that enter into a record, and asks a record of a million facts. With
// -write its figures go into docs/figures.md, each with the machine, the Go
// version and the day.
//
//	go run ./internal/tools/long [-parts fuzz,bench,survey,coverage,load,kills,million,peer,lme4] [-minutes 5] [-count 6] [-draws 1000] [-write]
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"awn/internal/tools/targets"
)

func main() {
	names := flag.String("parts", "fuzz,bench,survey,coverage,load,kills,million,peer,lme4", "parts to run, parted by commas")
	minutes := flag.Float64("minutes", 5, "how long each fuzz target is tried")
	count := flag.Int("count", 6, "how often each benchmark is run")
	draws := flag.Int("draws", 1000, "draws behind each band and truths held against it")
	write := flag.Bool("write", false, "put the figures into docs/figures.md")
	flag.Parse()
	if err := run(*names, *minutes, *count, *draws, *write); err != nil {
		fmt.Fprintln(os.Stderr, "long:", err)
		os.Exit(1)
	}
}

// part is one thing that takes long. Its figures are lines of text.
type part struct {
	name, title string
	run         func() (figures string, err error)
}

func run(names string, minutes float64, count, draws int, write bool) error {
	root, err := targets.Root()
	if err != nil {
		return err
	}
	files, err := targets.Files(root)
	if err != nil {
		return err
	}
	r := runner{root: root, files: files, fuzz: time.Duration(minutes * float64(time.Minute)), count: count, draws: draws}
	parts, err := choose(r.parts(), names)
	if err != nil {
		return err
	}
	where := place()
	var failed []string
	for _, p := range parts {
		fmt.Printf("== %s\n", p.title)
		start := time.Now()
		figures, err := p.run()
		fmt.Printf("%s\n%.1f minutes\n", figures, time.Since(start).Minutes())
		if err != nil {
			fmt.Printf("-- %s: %v\n", p.name, err)
			failed = append(failed, p.name)
			continue
		}
		if write {
			if err := record(filepath.Join(root, "docs", "figures.md"), p.title, where, figures); err != nil {
				return err
			}
		}
	}
	if len(failed) > 0 {
		return fmt.Errorf("failed: %s", strings.Join(failed, ", "))
	}
	return nil
}

func choose(all []part, names string) ([]part, error) {
	var out []part
	for name := range strings.SplitSeq(names, ",") {
		i := slices.IndexFunc(all, func(p part) bool { return p.name == name })
		if i < 0 {
			return nil, fmt.Errorf("there is no part %s", name)
		}
		out = append(out, all[i])
	}
	return out, nil
}
