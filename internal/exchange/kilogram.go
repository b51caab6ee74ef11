package exchange

import "awn/ledger"

// kilograms writes a mass to the gram without rounding.
func kilograms(g ledger.Grams) string {
	text, _ := ledger.Signed(g).MarshalJSON() // it has no error to give
	return string(text)
}
