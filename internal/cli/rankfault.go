package cli

import (
	"errors"
	"fmt"
	"strings"

	"awn/finding"
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
	for _, f := range e.faults[:min(len(e.faults), mostFaults)] {
		place := e.file
		if f.Row > 0 && f.Row <= len(e.sheet.Line) {
			place += fmt.Sprintf(":%d", e.sheet.Line[f.Row-1])
		}
		if f.Header != "" {
			place += ", " + f.Header
		}
		got := f.Text
		if !strings.HasSuffix(f.Code, ".header.missing") {
			got = "“" + got + "”"
		}
		header = header || strings.Contains(f.Code, ".header.")
		meant := ""
		if f.Meant != "" {
			meant = "“" + f.Meant + "”"
		}
		text := words.Named(finding.Finding{Code: f.Code}, words.Units{}, "got", got, "entry", got, "meant", meant, "asked", f.Text)
		for _, l := range wrap(fmt.Sprintf("%s: %s [%s]", place, text, f.Code), width) {
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
	text := map[table.Problem]string{
		table.TooLarge: "the file is too large", table.NotText: "this is neither UTF-8 text nor a workbook",
		table.Malformed: "the cells cannot be told apart", table.Nothing: "the file holds nothing",
		table.NoSheet: "there is no such sheet", table.ManySheets: "several sheets hold something; name one with --sheet",
	}[wrong.Problem]
	switch {
	case wrong.Line > 0:
		text = fmt.Sprintf("line %d: %s", wrong.Line, text)
	case len(wrong.Sheets) > 0:
		text = fmt.Sprintf("%s (sheets: %s)", text, strings.Join(wrong.Sheets, ", "))
	}
	return errors.New(text)
}
