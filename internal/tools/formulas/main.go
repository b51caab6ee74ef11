// Command formulas gathers the formula comments of the science packages into
// reckon/catalogue.json.
//
// A formula is an exported function, or an exported method of an exported
// type, in a package that computes the trade, whose results are all numbers
// (float64, or a type declared as float64 in one of those packages), save that
// an error or a bool may come last. Three kinds of function give a number
// without being a formula, and need no formula comment:
//
//   - an accessor: a method without parameters whose body returns a field, an
//     element or a plain conversion of what it holds;
//   - a reader: a function whose first parameter is a string, which reads a
//     number from text or looks one up by name;
//   - a setter or step that returns nothing but an error computes nothing that
//     is handed out, and is not seen at all.
//
// The comment of a formula is a sentence that begins with its name, then the
// formula itself indented by a tab, then lines that begin with Source:,
// Assumed:, Recalled: or Definition., and where they apply Valid:, Check: and
// Note:, in this order. A definition that its sentence states in full, such as
// a sum over layers, may leave out the indented formula.
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"awn/internal/tools/targets"
	"awn/reckon"
)

// file is where the catalogue lies, below the root of the module.
const file = "reckon/catalogue.json"

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "formulas:", err)
		os.Exit(1)
	}
}

func run() error {
	root, err := targets.Root()
	if err != nil {
		return err
	}
	found, faults, err := gather(root)
	if err != nil {
		return err
	}
	for _, f := range faults {
		fmt.Fprintln(os.Stderr, f)
	}
	text, err := marshal(found)
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(root, file), text, 0o644); err != nil {
		return err
	}
	fmt.Printf("%s: %d formulas\n", file, len(found))
	if len(faults) > 0 {
		return fmt.Errorf("%d comments need mending", len(faults))
	}
	return nil
}

func marshal(formulas []reckon.Formula) ([]byte, error) {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(formulas); err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}
