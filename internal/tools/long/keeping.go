package main

import (
	"fmt"
	"os"
	"strings"
	"time"
)

// killRounds is how often programs that enter into a record are killed, on
// each database, two at a time.
const killRounds = 500

// runKills kills programs at moments nobody chose while they enter facts.
func (r runner) runKills() (string, error) {
	if err := os.Setenv("AWN_ROUNDS", fmt.Sprint(killRounds)); err != nil {
		return "", err
	}
	out, err := r.goCommand("test", "./internal/sqlstore", "-run=^TestKilledWhileEntering$", "-v", "-timeout=2h")
	return said(out, "acknowledged", "rounds", "---"), err
}

// runMillion fills a record up and asks it what is asked every day.
func (r runner) runMillion() (string, error) {
	out, err := r.goCommand("test", "./internal/sqlstore", "-run=^$", "-bench=^BenchmarkMillion$", "-v", "-timeout=2h")
	return said(out, "filled:", "ns/op", "gone through", "made again"), err
}

// said keeps the lines that hold one of the words, without the place in the
// code that go test sets before them.
func said(out string, words ...string) string {
	var kept strings.Builder
	for line := range strings.Lines(out) {
		for _, w := range words {
			if strings.Contains(line, w) {
				if place, text, ok := strings.Cut(strings.TrimSpace(line), ".go:"); ok && !strings.Contains(place, " ") {
					_, line, _ = strings.Cut(text, ": ")
				}
				kept.WriteString(strings.TrimSpace(line) + "\n")
				break
			}
		}
	}
	return kept.String()
}

// loadFor is how long a house is kept under load.
const loadFor = time.Minute

// runLoad has fifty people read and write and two design, against the program
// itself.
func (r runner) runLoad() (string, error) {
	if err := os.Setenv("AWN_LOAD", loadFor.String()); err != nil {
		return "", err
	}
	out, err := r.goCommand("test", "./internal/web", "-run=^TestHouseUnderLoad$", "-v", "-count=1", "-timeout=30m")
	return said(out, "load: "), err
}
