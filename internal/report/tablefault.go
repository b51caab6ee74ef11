package report

import (
	"fmt"
	"strings"

	"awn/finding"
	"awn/internal/words"
)

// TableFaults says each fault of a table in a line: its place, the sentence and
// the code. lines are those of the file that the rows begin on.
func TableFaults(file string, lines []int, faults []finding.Cell, u words.Units) []string {
	out := make([]string, len(faults))
	for i, f := range faults {
		place := file
		if f.Row > 0 && f.Row <= len(lines) {
			place += fmt.Sprintf(":%d", lines[f.Row-1])
		}
		if f.Header != "" {
			place += ", " + f.Header
		}
		got, meant := f.Text, ""
		if !strings.HasSuffix(f.Code, ".header.missing") {
			got = "“" + got + "”"
		}
		if f.Meant != "" {
			meant = "“" + f.Meant + "”"
		}
		text := words.Named(finding.Finding{Code: f.Code}, u, "got", got, "entry", got, "meant", meant, "asked", f.Text)
		out[i] = fmt.Sprintf("%s: %s [%s]", place, text, f.Code)
	}
	return out
}
