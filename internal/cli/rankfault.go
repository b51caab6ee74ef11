package cli

import (
	"errors"
	"fmt"
	"strings"

	"awn/finding"
	"awn/internal/report"
	"awn/internal/table"
	"awn/internal/words"
)

// tableFaults are all that cannot be read in a table.
type tableFaults struct {
	file   string
	sheet  table.Sheet
	faults []finding.Cell
}

// mostFaults is how many faults are shown.
const mostFaults = 30

// Error lists the faults, each with its line and column.
func (e *tableFaults) Error() string {
	var b strings.Builder
	header := false
	shown := e.faults[:min(len(e.faults), mostFaults)]
	for i, text := range report.TableFaults(e.file, e.sheet.Line, shown, words.Units{}) {
		header = header || strings.Contains(shown[i].Code, ".header.")
		for _, l := range wrap(text, width) {
			fmt.Fprintln(&b, l)
		}
	}
	if more := len(e.faults) - mostFaults; more > 0 {
		fmt.Fprintf(&b, "and %s more\n", counted(more, "fault"))
	}
	if header {
		for _, l := range wrap("The columns are “"+strings.Join(e.sheet.Cells[0], "”, “")+"”.", width) {
			fmt.Fprintln(&b, l)
		}
	}
	return b.String()
}

// unreadable says why a file is no table.
func unreadable(err error) error {
	var wrong *table.Error
	if !errors.As(err, &wrong) {
		return err
	}
	text := words.Units{}.Say("table." + string(wrong.Problem))
	if wrong.Problem == table.ManySheets {
		text += "; name one with --sheet"
	}
	switch {
	case wrong.Line > 0:
		text = fmt.Sprintf("line %d: %s", wrong.Line, text)
	case len(wrong.Sheets) > 0:
		text = fmt.Sprintf("%s (sheets: %s)", text, strings.Join(wrong.Sheets, ", "))
	}
	return errors.New(text)
}
