package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"awn/internal/tools/targets"
)

type runner struct {
	root  string
	files []targets.File
	fuzz  time.Duration
	count int
	draws int
}

func (r runner) parts() []part {
	return []part{
		{"fuzz", "Fuzzing", r.runFuzz},
		{"bench", "Benchmarks", r.runBench},
		{"survey", "Intervals of a survey that hold the truth", r.runSurveys},
		{"load", "A house under load", r.runLoad},
		{"kills", "The record under kill", r.runKills},
		{"million", "A record of a million facts", r.runMillion},
		{"peer", "The kiln against C and SUNDIALS", r.runPeer},
		{"lme4", "Trials of varieties against lme4", r.runLme4},
		{"coverage", "Coverage of the bands", r.runCoverage},
	}
}

// goCommand runs the go command at the root, shows what it prints and returns
// its standard output.
func (r runner) goCommand(args ...string) (string, error) {
	var out bytes.Buffer
	cmd := exec.Command("go", args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = r.root, io.MultiWriter(os.Stdout, &out), os.Stderr
	err := cmd.Run()
	return out.String(), err
}

// runFuzz tries each fuzz target in its turn.
func (r runner) runFuzz() (string, error) {
	var figures strings.Builder
	var errs []error
	for _, f := range targets.WithPrefix(r.files, "Fuzz", "F") {
		err := f.Fuzz(r.root, r.fuzz, os.Stdout)
		verdict := "nothing found"
		if err != nil {
			verdict = "FAILED; the input lies in testdata/fuzz"
			errs = append(errs, err)
		}
		fmt.Fprintf(&figures, "%-16s %-32s %8s  %s\n", f.Package, f.Func, r.fuzz, verdict)
	}
	return figures.String(), errors.Join(errs...)
}

// runLme4 fits trials here and with lme4 in one run, which fails unless the answers
// are equal. A machine without lme4 is told so.
func (r runner) runLme4() (string, error) {
	out, err := r.goCommand("test", "-run=^$", "-bench=BesideLme4", "-benchtime=5x", "-v", "./variety")
	if err != nil {
		return "", err
	}
	var figures strings.Builder
	figures.WriteString("components equal to 1e-4 of themselves, log-likelihood to 1e-3; the fit alone is timed\n")
	for line := range strings.Lines(out) {
		if strings.HasPrefix(line, "BenchmarkBesideLme4/") && strings.Contains(line, "times-faster") || strings.Contains(line, "not run") {
			figures.WriteString(strings.TrimSpace(line) + "\n")
		}
	}
	return figures.String(), nil
}

// runBench runs every benchmark several times and lets benchstat say how far
// the runs lie apart.
func (r runner) runBench() (string, error) {
	var packages []string
	seen := map[string]bool{}
	for _, b := range targets.WithPrefix(r.files, "Benchmark", "B") {
		if !seen[b.Package] {
			seen[b.Package] = true
			packages = append(packages, "./"+b.Package)
		}
	}
	if len(packages) == 0 {
		return "there are no benchmarks\n", nil
	}
	args := append([]string{"test", "-run=^$", "-bench=.", "-skip=BesideLme4|Million", "-benchmem", fmt.Sprintf("-count=%d", r.count)}, packages...)
	out, err := r.goCommand(args...)
	if err != nil {
		return "", err
	}
	dir, err := os.MkdirTemp("", "awn-bench-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "bench.txt")
	if err := os.WriteFile(file, []byte(out), 0o644); err != nil {
		return "", err
	}
	cmd := exec.Command("go", "tool", "-modfile=tools/benchstat/go.mod", "benchstat", "this="+file)
	cmd.Dir, cmd.Stderr = r.root, os.Stderr
	table, err := cmd.Output()
	return string(table), err
}

func (r runner) runPeer() (string, error) {
	return r.goCommand("run", "./bench/peer", fmt.Sprintf("-rounds=%d", max(r.count, 1)))
}

// surveyDraws is how many surveys are drawn of one invented harvest.
const surveyDraws = 2000

// runSurveys counts how often the intervals of package crop hold the truth.
func (r runner) runSurveys() (string, error) {
	out, err := r.goCommand("test", "./crop", "-run=^TestIntervalsHoldTheTruth$", "-v", fmt.Sprintf("-surveys=%d", surveyDraws))
	var figures strings.Builder
	for line := range strings.Lines(out) {
		if _, figure, ok := strings.Cut(line, "coverage: "); ok {
			figures.WriteString(figure)
		}
	}
	return figures.String(), err
}
