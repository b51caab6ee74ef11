package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// Module is a module whose code awn uses.
type Module struct {
	Path, Version string
	Dir           string // where its files lie
	Linked        bool   // it is part of the program; otherwise only tests use it
}

// platforms are the systems whose programs may link different modules.
var platforms = []string{"linux/amd64", "windows/amd64", "darwin/arm64"}

// Modules lists the modules that the packages of the module at root use,
// sorted by path.
func Modules(root string) ([]Module, error) {
	byPath := map[string]Module{}
	for _, platform := range platforms {
		if err := list(root, platform, false, byPath); err != nil {
			return nil, err
		}
	}
	if err := list(root, platforms[0], true, byPath); err != nil {
		return nil, err
	}
	out := make([]Module, 0, len(byPath))
	for _, m := range byPath {
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b Module) int { return cmp.Compare(a.Path, b.Path) })
	return out, nil
}

// list adds the modules of one platform. Those that come up with tests alone
// are not linked.
func list(root, platform string, tests bool, byPath map[string]Module) error {
	args := []string{"list", "-e", "-deps", "-json=Module"}
	pattern := "./cmd/..."
	if tests {
		args, pattern = append(args, "-test"), "./..."
	}
	system, arch, _ := strings.Cut(platform, "/")
	cmd := exec.Command("go", append(args, pattern)...)
	cmd.Dir, cmd.Stderr = root, os.Stderr
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+arch)
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	err = decode(out, !tests, byPath)
	return errors.Join(err, cmd.Wait())
}

// decode reads the packages that go list prints, each with its module.
func decode(from io.Reader, linked bool, byPath map[string]Module) error {
	packages := json.NewDecoder(from)
	for {
		var p struct {
			Module *struct {
				Path, Version, Dir string
				Main               bool
			}
		}
		err := packages.Decode(&p)
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("go list: %w", err)
		}
		m := p.Module
		if m == nil || m.Main {
			continue
		}
		if _, known := byPath[m.Path]; !known {
			byPath[m.Path] = Module{m.Path, m.Version, m.Dir, linked}
		}
	}
}
