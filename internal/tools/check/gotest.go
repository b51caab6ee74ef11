package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
)

// tally counts tests by how they ended; a test with sub-tests counts with
// each of them.
type tally struct {
	passed, failed int
	skips          []string // package, test and the reason it gave
}

// event is a line of go test -json.
type event struct {
	Action, Package, Test, Output string
}

// longest is how long the tests of one package may take: a slow machine with
// few cores takes several times what a quick one does, and no test looks at the
// clock.
const longest = "-timeout=30m"

// goTest runs tests and adds them to the tally. It shows the line of each
// package, and all that a failing or skipped test printed.
func (c *checker) goTest(patterns ...string) error {
	cmd := exec.Command("go", append([]string{"test", "-json", longest}, patterns...)...)
	cmd.Dir, cmd.Stderr = c.root, os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	readErr := c.tally.read(out, os.Stdout)
	if err := cmd.Wait(); err != nil {
		return err
	}
	return readErr
}

// read follows the events of a test run and writes what is worth seeing.
func (t *tally) read(from io.Reader, to io.Writer) error {
	printed := map[[2]string][]string{} // what each running test has printed
	lines := bufio.NewReader(from)
	for {
		line, err := lines.ReadBytes('\n')
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		var e event
		if json.Unmarshal(line, &e) != nil { // not an event: the go command speaks
			fmt.Fprintf(to, "%s", line)
			continue
		}
		t.take(e, printed, to)
	}
}

func (t *tally) take(e event, printed map[[2]string][]string, to io.Writer) {
	key := [2]string{e.Package, e.Test}
	switch {
	case e.Action == "output" && e.Test != "":
		printed[key] = append(printed[key], e.Output)
	case e.Action == "output" || e.Action == "build-output":
		if e.Output != "PASS\n" && e.Output != "FAIL\n" {
			fmt.Fprint(to, e.Output)
		}
	case e.Test == "":
	case e.Action == "pass":
		t.passed++
		delete(printed, key)
	case e.Action == "fail":
		t.failed++
		fmt.Fprint(to, strings.Join(printed[key], ""))
		delete(printed, key)
	case e.Action == "skip":
		t.skips = append(t.skips, e.Package+" "+e.Test+": "+reason(printed[key]))
		delete(printed, key)
	}
}

// reason is what a skipped test said, without the lines that frame it.
func reason(lines []string) string {
	var out []string
	for _, l := range lines {
		l = strings.TrimSpace(l)
		if l != "" && !strings.HasPrefix(l, "===") && !strings.HasPrefix(l, "---") {
			out = append(out, l)
		}
	}
	return strings.Join(out, " ")
}
