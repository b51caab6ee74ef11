package unit_test

import (
	"fmt"

	"awn/unit"
)

func ExampleHeader() {
	for _, cell := range []string{"protein [% dm]", " Test weight (kg/hL) ", "plump", "(odd)", "year [2025"} {
		name, text := unit.Header(cell)
		fmt.Printf("%q %q, looked up as %q\n", name, text, unit.Spelled(name))
	}
	// Output:
	// "protein" "% dm", looked up as "protein"
	// "Test weight" "kg/hL", looked up as "test_weight"
	// "plump" "", looked up as "plump"
	// "(odd)" "", looked up as "(odd)"
	// "year [2025" "", looked up as "year_[2025"
}

func ExampleMissing() {
	for _, cell := range []string{"", "NA", ".", "0", "none"} {
		fmt.Print(unit.Missing(cell), " ")
	}
	// Output: true true true false true
}
