package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"awn/internal/tools/need"
	"awn/internal/tools/targets"
)

// checker knows the module that is checked.
type checker struct {
	root     string
	files    []targets.File
	fuzztime time.Duration
	tally    tally
}

func (c *checker) parts() []part {
	return []part{
		{"gofmt", c.gofmt},
		{"vet", c.vet},
		{"build", c.build},
		{"staticcheck", c.staticcheck},
		{"tests", c.tests},
		{"race", c.race},
		{"fuzz", c.fuzz},
	}
}

// goCommand runs the go command at the root with its output shown.
func (c *checker) goCommand(args ...string) error {
	cmd := exec.Command("go", args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = c.root, os.Stdout, os.Stderr
	return cmd.Run()
}

func (c *checker) gofmt() (string, error) {
	args := []string{"-l"}
	for _, f := range c.files {
		args = append(args, filepath.FromSlash(f.Path()))
	}
	cmd := exec.Command("gofmt", args...)
	cmd.Dir, cmd.Stderr = c.root, os.Stderr
	out, err := cmd.Output()
	if err == nil && len(bytes.TrimSpace(out)) > 0 {
		err = fmt.Errorf("not formatted:\n%s", out)
	}
	return fmt.Sprintf("%d files", len(c.files)), err
}

func (c *checker) vet() (string, error) { return "all packages", c.goCommand("vet", "./...") }

// build also compiles for the other systems that the program is meant for.
func (c *checker) build() (string, error) {
	var errs []error
	platforms := []string{"linux/amd64", "windows/amd64", "darwin/arm64"}
	for _, platform := range platforms {
		system, arch, _ := strings.Cut(platform, "/")
		cmd := exec.Command("go", "build", "-o", os.DevNull, "./...")
		cmd.Dir, cmd.Stdout, cmd.Stderr = c.root, os.Stdout, os.Stderr
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+arch)
		if err := cmd.Run(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", platform, err))
		}
	}
	return strings.Join(platforms, ", "), errors.Join(errs...)
}

func (c *checker) staticcheck() (string, error) {
	return "all packages", c.goCommand("tool", "-modfile=tools/lint/go.mod", "staticcheck", "./...")
}

func (c *checker) tests() (string, error) {
	err := c.goTest("./...")
	return fmt.Sprintf("%d tests", c.tally.passed+c.tally.failed), err
}

// race runs the tests of packages with concurrency under the race detector,
// which needs a C compiler.
func (c *checker) race() (string, error) {
	packages := targets.Concurrent(c.files)
	if len(packages) == 0 {
		return "no package has concurrency", nil
	}
	if _, ok := need.Find("cc"); !ok {
		if need.Required("cc") {
			return "", errors.New("no C compiler, and AWN_REQUIRE names cc")
		}
		return "not run: the race detector needs a C compiler", nil
	}
	args := []string{"test", "-race", longest}
	for _, p := range packages {
		args = append(args, "./"+p)
	}
	return strings.Join(packages, " "), c.goCommand(args...)
}

// fuzz gives each fuzz target a few seconds: the seeds have run with the
// tests, this looks a little beyond them.
func (c *checker) fuzz() (string, error) {
	all := targets.WithPrefix(c.files, "Fuzz", "F")
	var errs []error
	for _, f := range all {
		errs = append(errs, f.Fuzz(c.root, c.fuzztime, os.Stdout))
	}
	return fmt.Sprintf("%d targets, %s each", len(all), c.fuzztime), errors.Join(errs...)
}
