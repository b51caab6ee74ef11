package unit

import (
	"slices"
	"strings"
)

// Header parts the header of a column, "protein [% dm]" or "protein (% dm)",
// into name and unit.
func Header(cell string) (name, text string) {
	cell = strings.TrimSpace(cell)
	for _, pair := range []string{"[]", "()"} {
		if open := strings.IndexByte(cell, pair[0]); open > 0 && strings.HasSuffix(cell, pair[1:]) {
			return strings.TrimSpace(cell[:open]), strings.TrimSpace(cell[open+1 : len(cell)-1])
		}
	}
	return cell, ""
}

// Spelled is a header as it is looked up: "Test weight" is test_weight.
func Spelled(header string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(header), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), "_")
}

// missing are the words that stand for a cell without a figure.
var missing = []string{"", "na", "n/a", "nan", ".", "-", "*", "null", "none", "missing"}

// Missing reports whether a cell of a table says that there is no figure.
func Missing(cell string) bool { return slices.Contains(missing, strings.ToLower(cell)) }
