// Command peer times the kiln of awn against the same case written in C and
// solved by SUNDIALS CVODE as it is usually set up. Both sides run in turns,
// round by round, so that a machine whose speed drifts treats them alike.
//
//	go run ./bench/peer [-rounds 5]
//
// It needs a C compiler and SUNDIALS (Debian: gcc and libsundials-dev) and
// says so where they are missing.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"runtime"
)

func main() {
	rounds := flag.Int("rounds", 5, "rounds in which every side runs once")
	flag.Parse()
	err := run(*rounds)
	if errors.Is(err, errNoPeer) {
		fmt.Fprintf(os.Stderr, "peer: %v\ninstall them with: apt-get install gcc libsundials-dev\n", err)
		os.Exit(1)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "peer:", err)
		os.Exit(1)
	}
}

func run(rounds int) error {
	dir, err := os.MkdirTemp("", "awn-peer-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	program, err := build(dir)
	if err != nil {
		return err
	}
	kiln, err := newOurs()
	if err != nil {
		return err
	}
	sides := []side{
		{"CVODE dense 1e-4", cvode{program, "1e-4", "ours"}}, // what the ratios are to
		{"CVODE dense 1e-6", cvode{program, "1e-6", "ours"}},
		{"the same, Debian's LU, 1e-4", cvode{program, "1e-4", "library"}},
		{"the same, Debian's LU, 1e-6", cvode{program, "1e-6", "library"}},
		{"awn", kiln},
	}
	// The yardstick of error: tight enough that a tighter one changes nothing shown.
	exact, err := cvode{program, "1e-9", "ours"}.trace()
	if err != nil {
		return err
	}
	results, err := race(sides, exact, rounds)
	if err != nil {
		return err
	}
	fmt.Printf("%s, %s/%s, %d rounds in turns; one run is the whole kilning, every 0.1 h read\n\n",
		runtime.Version(), runtime.GOOS, runtime.GOARCH, rounds)
	print(os.Stdout, results)
	return nil
}
