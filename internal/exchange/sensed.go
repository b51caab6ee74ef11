package exchange

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"awn/internal/table"
	"awn/unit"
)

// Series is what one sensor reads: a quantity, kept in one unit.
type Series struct {
	Code     string // as in KILN1-AIR-ON
	Quantity string // as in temperature
	Unit     string // that its values are kept in
}

// Sensed is one reading as a file or a logger gives it.
type Sensed struct {
	Series Series
	AtMS   int64
	Value  float64 // in the unit of the series
}

// Sensor reads rows of series, time, value and unit, with the quantity behind
// them or not. It remembers the series it has met.
type Sensor struct {
	name    string
	zone    *time.Location
	known   map[string]Series
	columns []int // where series, time, value, unit and quantity stand; -1 if nowhere
	width   int
	Faults  Faults
}

// sensedColumns are the headers, in the order in which a logger sends them. The
// last may be missing.
var sensedColumns = []string{"series", "time", "value", "unit", "quantity"}

// NewSensor reads for a house that knows these series. Times without an offset
// are by the clock of the zone.
func NewSensor(name string, known []Series, zone *time.Location) *Sensor {
	s := &Sensor{name: name, zone: zone, known: map[string]Series{}, columns: []int{0, 1, 2, 3, 4}, width: 5}
	for _, k := range known {
		s.known[k.Code] = k
	}
	return s
}

// File reads a whole file, CSV or XLSX, with its headers.
func (s *Sensor) File(data []byte, sheet string) []Sensed {
	cells, err := table.Read(bytes.NewReader(data), sheet)
	var wrong *table.Error
	if errors.As(err, &wrong) {
		s.fault(wrong.Line, "", Fault{Code: "import.file.unread", Got: string(wrong.Problem)})
		return nil
	} else if err != nil {
		s.fault(0, "", Fault{Code: "import.file.unread", Got: err.Error()})
		return nil
	}
	if !s.head(cells.Line[0], cells.Cells[0]) {
		return nil
	}
	var out []Sensed
	for i, row := range cells.Cells[1:] {
		if r, ok := s.Row(cells.Line[i+1], row); ok {
			out = append(out, r)
		}
		if len(s.Faults) >= mostFaults {
			s.Faults = append(s.Faults[:mostFaults], Fault{Code: "import.faults.more", File: s.name, Got: fmt.Sprint(mostFaults)})
			break
		}
	}
	return out
}

// Line reads one line of a logger; false if there is no reading in it: it is
// empty, a remark, the headers, or something is wrong.
func (s *Sensor) Line(n int, text string) (Sensed, bool) {
	text = strings.TrimSpace(text)
	if text == "" || text[0] == '#' {
		return Sensed{}, false
	}
	row, err := csv.NewReader(strings.NewReader(text)).Read()
	var wrong *csv.ParseError
	switch {
	case errors.As(err, &wrong):
		s.fault(n, "", Fault{Code: "import.row.unread", Got: wrong.Err.Error()})
		return Sensed{}, false
	case err != nil:
		s.fault(n, "", Fault{Code: "import.row.unread", Got: err.Error()})
		return Sensed{}, false
	case strings.EqualFold(strings.TrimSpace(row[0]), sensedColumns[0]):
		return Sensed{}, false
	}
	return s.Row(n, row)
}

// head finds the columns by their headers.
func (s *Sensor) head(line int, row []string) bool {
	s.columns, s.width = []int{-1, -1, -1, -1, -1}, len(row)
	for i, cell := range row {
		header := strings.ToLower(strings.TrimSpace(cell))
		switch at := slices.Index(sensedColumns, header); {
		case at < 0 && header != "":
			s.fault(line, header, Fault{Code: "import.column.unread", Got: header, Allowed: sensedColumns, Nearest: unit.Nearest(header, sensedColumns)})
		case at >= 0 && s.columns[at] >= 0:
			s.fault(line, header, Fault{Code: "import.column.twice", Got: header})
		case at >= 0:
			s.columns[at] = i
		}
	}
	for i, at := range s.columns[:4] {
		if at < 0 {
			s.fault(line, "", Fault{Code: "import.column.missing", Got: sensedColumns[i], Allowed: row})
		}
	}
	return len(s.Faults) == 0
}

// Row reads one row; false if there is nothing in it or something is wrong.
func (s *Sensor) Row(line int, row []string) (Sensed, bool) {
	cell := func(i int) string {
		if at := s.columns[i]; at >= 0 && at < len(row) {
			return strings.TrimSpace(row[at])
		}
		return ""
	}
	if !slices.ContainsFunc(row, func(c string) bool { return strings.TrimSpace(c) != "" }) {
		return Sensed{}, false
	}
	before := len(s.Faults)
	if len(row) > s.width {
		s.fault(line, "", Fault{Code: "import.row.long", Got: fmt.Sprint(len(row)), Allowed: []string{fmt.Sprint(s.width, " columns")}})
		return Sensed{}, false
	}
	for i, name := range sensedColumns[:4] {
		if cell(i) == "" {
			s.fault(line, name, Fault{Code: "import.cell.missing", Got: name})
		}
	}
	if len(s.Faults) > before {
		return Sensed{}, false
	}
	r := Sensed{AtMS: s.time(line, cell(1))}
	r.Series, r.Value = s.value(line, cell(0), cell(2), cell(3), cell(4))
	return r, len(s.Faults) == before
}

// sensedForms are how times are written by the clock of the house.
var sensedForms = []string{"YYYY-MM-DD hh:mm:ss", "YYYY-MM-DD hh:mm"}

// latestMS is the year 2200: no reading is later.
const latestMS = 7258118400000

// time reads a time with its offset, or by the clock of the house.
func (s *Sensor) time(line int, text string) int64 {
	fault := Fault{Code: "import.time.read", Got: text, Allowed: append([]string{"2026-08-12T07:40:00Z"}, sensedForms...)}
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		if ms := t.UnixMilli(); ms >= 0 && ms <= latestMS {
			return ms
		}
		s.fault(line, "time", fault)
		return 0
	}
	for _, form := range sensedForms {
		m, f := clock{form: form, layout: layouts.Replace(form), place: s.zone.String(), zone: s.zone}.read(text)
		switch {
		case f.Code == "" && m.ms >= 0 && m.ms <= latestMS:
			return m.ms
		case f.Code == "import.time.gap":
			fault = f
		}
	}
	s.fault(line, "time", fault)
	return 0
}

// sensedDigits are the decimals of a reading that are taken, in the unit that it
// was sent in.
const sensedDigits = 6

// value reads a number in the quantity of its series. The first reading of a
// series that nobody knows says what it is.
func (s *Sensor) value(line int, code, number, symbol, quantity string) (Series, float64) {
	code = strings.ToUpper(code)
	series, known := s.known[code]
	if known && quantity != "" && quantity != series.Quantity {
		s.fault(line, "quantity", Fault{Code: "import.series.quantity", Got: quantity, Allowed: []string{series.Quantity}})
		return series, 0
	}
	if known {
		quantity = series.Quantity
	}
	of, f := dimension(quantity, symbol)
	if f.Code != "" {
		s.fault(line, map[bool]string{true: "quantity", false: "unit"}[f.Code == "import.series.unknown"], f)
		return series, 0
	}
	if len(code) > 40 || strings.Trim(code, codeLetters) != "" {
		s.fault(line, "series", Fault{Code: "import.series.code", Got: code})
		return series, 0
	}
	x, err := strconv.ParseFloat(number, 64)
	if err == nil {
		number = strconv.FormatFloat(x, 'f', sensedDigits, 64)
	}
	q, err := of.Parse(number + " " + symbol)
	var wrong *unit.Error
	if errors.As(err, &wrong) {
		s.fault(line, "value", Fault{Code: wrong.Code, Got: wrong.Got, Allowed: wrong.Allowed, Nearest: wrong.Nearest})
		return series, 0
	}
	u, _ := of.Unit(symbol) // it was just parsed
	if known && u.Inside != series.Unit {
		s.fault(line, "unit", Fault{Code: "import.unit.unknown", Got: symbol, Allowed: alike(of, kindOf(of, series.Unit))})
		return series, 0
	}
	series = Series{Code: code, Quantity: of.Name, Unit: u.Inside}
	s.known[code] = series
	return series, figures(q.Value)
}

const codeLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-"

// kindOf is the kind of the units that a series is kept in.
func kindOf(d unit.Dimension, inside string) string {
	for _, u := range d.Units {
		if u.Inside == inside {
			return u.Kind
		}
	}
	return ""
}

// dimension is the quantity of that name, or without a name the first that is
// written in the unit.
func dimension(name, symbol string) (unit.Dimension, Fault) {
	var names, symbols []string
	for _, d := range unit.Dimensions {
		_, fits := d.Unit(symbol)
		if d.Name == name && !fits {
			return d, Fault{Code: "import.unit.unknown", Got: symbol, Allowed: d.Symbols(), Nearest: unit.Nearest(symbol, d.Symbols())}
		}
		if fits && (d.Name == name || name == "") {
			return d, Fault{}
		}
		names, symbols = append(names, d.Name), append(symbols, d.Symbols()...)
	}
	if name != "" {
		return unit.Dimension{}, Fault{Code: "import.series.unknown", Got: name, Allowed: names, Nearest: unit.Nearest(name, names)}
	}
	near := unit.Nearest(symbol, symbols)
	return unit.Dimension{}, Fault{Code: "import.unit.none", Got: symbol, Nearest: near}
}

func (s *Sensor) fault(line int, column string, f Fault) {
	f.File, f.Row, f.Column = s.name, line, column
	s.Faults = append(s.Faults, f)
}
