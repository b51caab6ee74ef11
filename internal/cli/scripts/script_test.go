// Package scripts_test runs the command as a person does, one script after
// another, apart from the tests of package cli: these run once more under the
// race detector, and scripts would take ten minutes there.
package scripts_test

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"awn/examples"
	"awn/internal/cli"
	"awn/internal/house"
)

// awn runs the command in the test's own binary.
func awn() {
	os.Exit(cli.Main(context.Background(), os.Args[1:], cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
}

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"awn": awn})
}

// TestScripts runs the command as a person does. “exits 3 awn malt” holds that
// a command ends with that status; $EXAMPLE is the
// piece that is built in, $RELEASE and $MODEL what the version prints.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("EXAMPLE", examples.First)
			e.Setenv("RELEASE", house.Release)
			e.Setenv("MODEL", strconv.Itoa(house.Model))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND ...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	err = ts.Exec(args[1], args[2:]...)
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("%v ends with %d, want %d", args[1:], got, want)
	}
}
