// Command notice writes NOTICE: the modules that awn is built from, with the
// licence texts of those that are linked into the program.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"awn/internal/tools/targets"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "notice:", err)
		os.Exit(1)
	}
}

func run() error {
	root, err := targets.Root()
	if err != nil {
		return err
	}
	modules, err := Modules(root)
	if err != nil {
		return err
	}
	text, err := Write(modules)
	if err != nil {
		return err
	}
	fmt.Printf("NOTICE: %d modules\n", len(modules))
	return os.WriteFile(filepath.Join(root, "NOTICE"), []byte(text), 0o644)
}
