// Package table reads files of rows and columns, CSV and XLSX, as cells of text.
// What the cells mean is the caller's; nothing is computed, and no formula is
// run.
package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// Limits beyond which a file is refused. A trial or survey is far smaller.
const (
	maxBytes    = 64 << 20
	maxUnzipped = 256 << 20
	maxCells    = 5_000_000
)

// Problem names why a file cannot be read.
type Problem string

// The problems.
const (
	TooLarge   Problem = "too-large"
	NotText    Problem = "not-text"   // neither UTF-8 nor a workbook
	Malformed  Problem = "malformed"  // quotes that do not close, a broken workbook
	NoSheet    Problem = "no-sheet"   // of the name asked for
	ManySheets Problem = "sheet-open" // more than one sheet with cells, and none named
	Nothing    Problem = "empty"
)

// Error says what is wrong with a file, and where if that is known.
type Error struct {
	Problem Problem
	Line    int      // 0 if not known
	Sheets  []string // that the workbook has
	Err     error    // what the reader below said
}

// Error names the problem.
func (e *Error) Error() string {
	switch {
	case e.Line > 0:
		return fmt.Sprintf("table, line %d: %s", e.Line, e.Problem)
	case len(e.Sheets) > 0:
		return fmt.Sprintf("table: %s, of %s", e.Problem, strings.Join(e.Sheets, ", "))
	}
	return fmt.Sprintf("table: %s", e.Problem)
}

// Unwrap gives what the reader below said.
func (e *Error) Unwrap() error { return e.Err }

// Sheet is what a file holds.
type Sheet struct {
	Cells [][]string
	Line  []int // on which each row begins, from 1
}

// Read returns the cells of a CSV file or of a sheet of a workbook, told apart by
// how the file begins. Lines of a CSV file that begin with # are left out; its
// cells may be parted by commas, semicolons or tabs. sheet may be empty if only
// one holds anything, and does not matter for CSV. What cannot be read gives an
// *Error; an error of r itself is handed on.
func Read(r io.Reader, sheet string) (Sheet, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return Sheet{}, err
	}
	if len(data) > maxBytes {
		return Sheet{}, &Error{Problem: TooLarge}
	}
	var out Sheet
	if bytes.HasPrefix(data, []byte("PK\x03\x04")) {
		out.Cells, err = workbook(data, sheet)
		for i := range out.Cells {
			out.Line = append(out.Line, i+1)
		}
	} else {
		out, err = separated(data)
	}
	switch {
	case err != nil:
		return Sheet{}, err
	case len(out.Cells) == 0:
		return Sheet{}, &Error{Problem: Nothing}
	case count(out.Cells) > maxCells:
		return Sheet{}, &Error{Problem: TooLarge}
	}
	return out, nil
}

func count(cells [][]string) (n int) {
	for _, row := range cells {
		n += len(row)
	}
	return n
}

// separated reads CSV.
func separated(data []byte) (out Sheet, err error) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) // the mark that some programs put first
	if !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return out, &Error{Problem: NotText}
	}
	c := csv.NewReader(bytes.NewReader(data))
	c.Comment, c.Comma, c.FieldsPerRecord = '#', mark(data), -1
	for {
		row, err := c.Read()
		var wrong *csv.ParseError
		switch {
		case err == io.EOF:
			return out, nil
		case errors.As(err, &wrong):
			return out, &Error{Problem: Malformed, Line: wrong.Line, Err: err}
		case err != nil:
			return out, err
		}
		line, _ := c.FieldPos(0)
		out.Cells, out.Line = append(out.Cells, row), append(out.Line, line)
	}
}

// mark is what parts the cells of the first line that is no comment: whichever of
// tab, semicolon and comma it has most of.
func mark(data []byte) rune {
	best, most := ',', 0
	for line := range bytes.Lines(data) {
		if line = bytes.TrimSpace(line); len(line) == 0 || line[0] == '#' {
			continue
		}
		for _, r := range "\t;," {
			if n := bytes.Count(line, []byte(string(r))); n > most {
				best, most = r, n
			}
		}
		break
	}
	return best
}

// workbook reads a sheet of XLSX.
func workbook(data []byte, sheet string) ([][]string, error) {
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true, UnzipSizeLimit: maxUnzipped})
	if err != nil {
		return nil, &Error{Problem: Malformed, Err: err}
	}
	defer f.Close()
	sheets := f.GetSheetList()
	if sheet != "" {
		if !slices.Contains(sheets, sheet) {
			return nil, &Error{Problem: NoSheet, Sheets: sheets}
		}
		return rows(f, sheet)
	}
	var found [][]string
	for _, name := range sheets {
		cells, err := rows(f, name)
		if err != nil {
			return nil, err
		}
		if len(cells) > 0 && len(found) > 0 {
			return nil, &Error{Problem: ManySheets, Sheets: sheets}
		}
		if len(cells) > 0 {
			found = cells
		}
	}
	return found, nil
}

func rows(f *excelize.File, sheet string) ([][]string, error) {
	cells, err := f.GetRows(sheet)
	if err != nil {
		return nil, &Error{Problem: Malformed, Err: err}
	}
	return cells, nil
}
