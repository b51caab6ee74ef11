package exchange

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/ledger"
	"awn/unit"
)

// row is one row as it is read.
type row struct {
	in    *importer
	line  int
	cells []string
}

// cell is what stands in a column, its words translated; ok is false if it is
// a word that the map does not know.
func (r *row) cell(c column) (text string, ok bool) {
	if c.index < len(r.cells) {
		text = strings.TrimSpace(r.cells[c.index])
	}
	if c.Words == nil || text == "" {
		return text, true
	}
	if word, known := c.Words[text]; known {
		return word, true
	}
	known := slices.Sorted(maps.Keys(c.Words))
	r.in.fault(r.line, c.header, Fault{Code: "import.cell.word", Got: text, Allowed: known, Nearest: unit.Nearest(text, known)})
	return "", false
}

// find is the column that fills a field.
func (r *row) find(field string) (column, bool) {
	i := slices.IndexFunc(r.in.columns, func(c column) bool { return c.Field == field || c.Also == field })
	if i < 0 {
		return column{}, false
	}
	return r.in.columns[i], true
}

// text is what fills a field, "" if nothing does.
func (r *row) text(field string) string {
	c, ok := r.find(field)
	if !ok {
		return r.in.fixed[field]
	}
	text, _ := r.cell(c)
	return text
}

// needed is text that must be there.
func (r *row) needed(field string) string {
	c, ok := r.find(field)
	if !ok {
		return r.in.fixed[field]
	}
	text, known := r.cell(c)
	if text == "" && known {
		r.in.fault(r.line, c.header, Fault{Code: "import.cell.missing", Got: field})
	}
	return text
}

// header is the column that fills a field, for a fault.
func (r *row) header(field string) string {
	c, _ := r.find(field)
	return c.header
}

// quantity reads a field with a unit; NaN if the cell is empty or at fault.
func (r *row) quantity(field string, d unit.Dimension) float64 {
	c, _ := r.find(field)
	text := r.text(field)
	if text == "" {
		return math.NaN()
	}
	q, err := d.Parse(r.in.withUnit(text, c.Unit))
	if err != nil {
		r.wrong(c.header, err)
		return math.NaN()
	}
	return q.Value
}

// grams reads a mass to the gram; false if there is none.
func (r *row) grams(field string) (ledger.Grams, bool) {
	kg := r.quantity(field, unit.Mass)
	if math.IsNaN(kg) {
		return 0, false
	}
	return ledger.Grams(math.Round(kg * 1000)), true
}

// wrong notes what the reader of quantities found.
func (r *row) wrong(header string, err error) {
	var e *unit.Error
	if errors.As(err, &e) {
		r.in.fault(r.line, header, Fault{Code: e.Code, Got: e.Got, Allowed: e.Allowed, Nearest: e.Nearest})
	}
}

// withUnit makes a quantity of a cell: the unit of the column behind a bare
// number, and a point before decimals.
func (in *importer) withUnit(text, symbol string) string {
	if in.workbook {
		text = shortNumber(text)
	} else if in.how.Decimal == "comma" {
		text = pointed(text)
	}
	if symbol != "" && strings.Trim(text, "0123456789.,'-−+ ") == "" {
		text += " " + symbol
	}
	return text
}

// pointed turns the comma of a number into a point. A number that has a point
// is given another comma, so that the reader finds it ambiguous.
func pointed(text string) string {
	if strings.Contains(text, ".") {
		return strings.Replace(text, ".", ",", 1)
	}
	return strings.Replace(text, ",", ".", 1)
}

// figuresOfSheet is how many figures of a number in a workbook are looked at:
// it keeps 12.3 as 12.300000000000001 at times.
const figuresOfSheet = 12

// shortNumber writes a number of a workbook as people would.
func shortNumber(text string) string {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return text
	}
	return strconv.FormatFloat(figures(x), 'f', -1, 64)
}

// figures rounds to the figures that a person could have typed.
func figures(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', figuresOfSheet, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// fieldOf names the field behind each place of a body.
var fieldOf = map[string]string{
	"amount.fresh_kg": "net", "amount.u_fresh_kg": "u_net", "amount.moisture_wb": "moisture", "amount.u_moisture_wb": "u_moisture",
	"gross_kg": "gross", "tare_kg": "tare",
}

// refused carries what the record would refuse to row and column.
func (r *row) refused(err error) {
	var found ledger.Faults
	if !errors.As(err, &found) {
		return
	}
	for _, f := range found {
		field := f.Path
		if name, ok := fieldOf[field]; ok {
			field = name
		}
		r.in.fault(r.line, r.header(field), Fault{Code: f.Code, Got: f.Got, Allowed: f.Allowed, Nearest: f.Nearest})
	}
}

// once notes that a name stands in two rows.
func (r *row) once(field, name string) {
	if first, twice := r.in.seen[name]; twice {
		r.in.fault(r.line, r.header(field), Fault{Code: "import.row.twice", Got: name, Allowed: []string{"row " + strconv.Itoa(first)}})
		return
	}
	r.in.seen[name] = r.line
}
