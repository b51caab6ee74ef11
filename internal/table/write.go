package table

import (
	"encoding/csv"
	"fmt"
	"io"
	"iter"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Page is a table that is written: a sheet of a workbook, or a CSV file. Its
// cells are words (string), numbers (float64, int, int64), or nothing (nil,
// NaN). Rows may end with an error, which the writers hand on.
type Page struct {
	Name string
	Head []string
	Rows iter.Seq2[[]any, error]
}

// Words is a cell with words of a user. One that a spreadsheet would take for
// a formula is marked as text. In a workbook text is never run, but it may be
// saved as CSV from there.
func Words(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}

// WriteCSV writes a page with its head.
func WriteCSV(w io.Writer, p Page) error {
	c := csv.NewWriter(w)
	if err := c.Write(p.Head); err != nil {
		return err
	}
	for cells, err := range p.Rows {
		if err != nil {
			return err
		}
		line := make([]string, len(cells))
		for i, cell := range cells {
			line[i] = plain(cell)
		}
		if err := c.Write(line); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// plain is a cell of CSV.
func plain(cell any) string {
	switch x := cell.(type) {
	case nil:
		return ""
	case string:
		return Words(x)
	case float64:
		if !finite(x) {
			return ""
		}
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return fmt.Sprint(cell)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// headWidth is how wide a column is made, in characters.
const headWidth = 16

// WriteXLSX writes pages as the sheets of a workbook: numbers as numbers, words
// as text, the head kept in sight. Rows go through without being held.
func WriteXLSX(w io.Writer, pages ...Page) error {
	f := excelize.NewFile()
	defer f.Close()
	for i, p := range pages {
		if _, err := f.NewSheet(p.Name); err != nil {
			return fmt.Errorf("sheet %s: %w", p.Name, err)
		}
		if err := writeSheet(f, p); err != nil {
			return fmt.Errorf("sheet %s: %w", p.Name, err)
		}
		if i == 0 && !strings.EqualFold(p.Name, firstSheet) {
			if err := f.DeleteSheet(firstSheet); err != nil {
				return err
			}
		}
	}
	return f.Write(w)
}

// firstSheet is the sheet that a new workbook has.
const firstSheet = "Sheet1"

func writeSheet(f *excelize.File, p Page) error {
	s, err := f.NewStreamWriter(p.Name)
	if err != nil {
		return err
	}
	if err := s.SetColWidth(1, max(1, len(p.Head)), headWidth); err != nil {
		return err
	}
	if err := s.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	head := make([]any, len(p.Head))
	for i, text := range p.Head {
		head[i] = text
	}
	if err := s.SetRow("A1", head); err != nil {
		return err
	}
	line := 1
	for cells, err := range p.Rows {
		if err != nil {
			return err
		}
		line++
		at, err := excelize.CoordinatesToCellName(1, line)
		if err != nil {
			return err
		}
		if err := s.SetRow(at, typed(cells)); err != nil {
			return err
		}
	}
	return s.Flush()
}

// typed is a row with its words made safe and without what is no number.
func typed(cells []any) []any {
	out := make([]any, len(cells))
	for i, cell := range cells {
		switch x := cell.(type) {
		case string:
			out[i] = Words(x)
		case float64:
			if finite(x) {
				out[i] = x
			}
		default:
			out[i] = cell
		}
	}
	return out
}
