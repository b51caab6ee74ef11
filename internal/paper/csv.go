package paper

import (
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"awn/unit"
)

// column is a column that a CSV file may have.
type column struct {
	name        string
	least, most float64
	to          func(float64) float64 // into the unit used inside
}

func asItIs(x float64) float64     { return x }
func share(x float64) float64      { return x / 100 }
func fahrenheit(x float64) float64 { return (x - 32) / 1.8 }

// The columns of readings and of weather; "time" stands in both.
var (
	readingColumns = []column{
		{"height", 0, 100, share}, {"temp_c", -50, 90, asItIs}, {"temp_f", -58, 194, fahrenheit}, {"moisture_wb", 5, 40, share},
	}
	weatherColumns = []column{{"temp_c", -60, 60, asItIs}, {"temp_f", -76, 140, fahrenheit}, {"rh", 0, 100, share}}
)

const timeColumn = "time"

// sheetRow is one row: its time and a figure for each column, NaN where the
// cell is empty or the file has no such column.
type sheetRow struct {
	at     time.Time
	line   int
	values map[string]float64
}

// timeForms are how a time may be written in a CSV file.
var timeForms = []string{"2006-01-02", "2006-01-02T15:04", "2006-01-02 15:04", "2006-01-02T15:04:05", "2006-01-02 15:04:05", time.RFC3339}

// readSheet reads a CSV file with a head. All its faults are found in one go,
// up to a limit.
func readSheet(file string, data []byte, columns []column) ([]sheetRow, Faults) {
	s := &sheet{r: &reader{file: file, text: string(data)}, columns: columns}
	switch {
	case len(data) > mostSheetBytes:
		s.r.text = ""
		s.fault(1, 1, Fault{Code: "csv.text.size", Allowed: []string{"at most 16 MiB"}})
	case !utf8.Valid(data) || strings.ContainsRune(s.r.text, 0):
		s.r.text = strings.ToValidUTF8(s.r.text, "\uFFFD")
		s.fault(1, 1, Fault{Code: "csv.text.encoding"})
	default:
		s.read(strings.TrimPrefix(s.r.text, "\uFEFF"))
	}
	return s.rows, s.r.faults
}

const (
	mostSheetBytes  = 16 << 20
	mostSheetFaults = 50
)

// sheet is a CSV file as it is read.
type sheet struct {
	r       *reader
	columns []column
	head    []string
	rows    []sheetRow
}

func (s *sheet) fault(line, at int, f Fault) { s.r.fault(place{line, at}, "", f) }

// read reads head and rows.
func (s *sheet) read(text string) {
	c := csv.NewReader(strings.NewReader(text))
	c.Comment, c.TrimLeadingSpace = '#', true
	for len(s.r.faults) < mostSheetFaults {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var e *csv.ParseError
		if errors.As(err, &e) {
			s.fault(max(e.Line, 1), max(e.Column, 1), Fault{Code: "csv.text.syntax", Got: e.Err.Error()})
			return
		}
		at := func(i int) (line, column int) { return c.FieldPos(i) }
		if s.head == nil {
			s.readHead(cells, at)
			if len(s.r.faults) > 0 {
				return
			}
			continue
		}
		s.row(cells, at)
	}
	if len(s.rows) == 0 && len(s.r.faults) == 0 {
		s.fault(1, 1, Fault{Code: "csv.rows.none"})
	}
	slices.SortStableFunc(s.rows, func(a, b sheetRow) int { return a.at.Compare(b.at) })
}

// readHead finds the columns.
func (s *sheet) readHead(cells []string, at func(int) (int, int)) {
	names := []string{timeColumn}
	for _, c := range s.columns {
		names = append(names, c.name)
	}
	for i, name := range cells {
		name = strings.TrimSpace(name)
		line, column := at(i)
		switch {
		case !slices.Contains(names, name):
			s.fault(line, column, Fault{Code: "csv.head.unknown", Got: name, Allowed: names, Nearest: unit.Nearest(name, names)})
		case slices.Contains(s.head, name):
			s.fault(line, column, Fault{Code: "csv.head.twice", Got: name})
		}
		s.head = append(s.head, name)
	}
	if !slices.Contains(s.head, timeColumn) {
		s.fault(1, 1, Fault{Code: "csv.head.time", Allowed: names})
	}
	if slices.Contains(s.head, "temp_c") && slices.Contains(s.head, "temp_f") {
		s.fault(1, 1, Fault{Code: "csv.head.twice", Got: "temp_f"})
	}
}

// row reads one row.
func (s *sheet) row(cells []string, at func(int) (int, int)) {
	line, _ := at(0)
	row := sheetRow{line: line, values: map[string]float64{}}
	before := len(s.r.faults)
	for i, cell := range cells {
		line, place := at(i)
		cell = strings.TrimSpace(cell)
		if s.head[i] == timeColumn {
			var ok bool
			if row.at, ok = readTime(cell); !ok {
				s.fault(line, place, Fault{Code: "csv.cell.time", Got: cell, Allowed: []string{"2026-08-31", "2026-08-31T06:00"}})
			}
			continue
		}
		if cell == "" {
			continue
		}
		c := s.columns[slices.IndexFunc(s.columns, func(c column) bool { return c.name == s.head[i] })]
		x, err := strconv.ParseFloat(cell, 64)
		switch {
		case !plainNumber.MatchString(cell) || err != nil:
			s.fault(line, place, Fault{Code: "csv.cell.number", Got: cell})
		case !(x >= c.least && x <= c.most):
			s.fault(line, place, Fault{Code: "csv.cell.range", Got: cell, Allowed: []string{short(c.least) + " to " + short(c.most)}})
		default:
			row.values[strings.TrimSuffix(strings.TrimSuffix(c.name, "_c"), "_f")] = c.to(x)
		}
	}
	if len(s.r.faults) == before {
		s.rows = append(s.rows, row)
	}
}

func short(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// readTime reads a time; one without an offset is taken by the clock of the
// house, as if that were UTC.
func readTime(text string) (time.Time, bool) {
	for _, form := range timeForms {
		if t, err := time.Parse(form, text); err == nil && t.Year() > 1980 && t.Year() < 2100 {
			return t, true
		}
	}
	return time.Time{}, false
}

// get is a figure of a row.
func (r sheetRow) get(name string) float64 {
	if x, ok := r.values[name]; ok {
		return x
	}
	return math.NaN()
}
