package lab

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/finding"
	"awn/unit"
)

// Column says what a column of a table of results holds.
type Column string

// The columns.
const (
	DateColumn       Column = "date"
	SampleColumn     Column = "sample"
	KindColumn       Column = "kind"
	QualityColumn    Column = "quality"
	UnitColumn       Column = "unit"
	ValueColumn      Column = "value"
	MethodColumn     Column = "method"
	InstrumentColumn Column = "instrument"
	LaboratoryColumn Column = "laboratory"
	MatrixColumn     Column = "matrix"
	ReferenceColumn  Column = "reference"
	SDColumn         Column = "ring_sd"
	BatchColumn      Column = "supply"
	EventColumn      Column = "event"
	LotColumn        Column = "lot"
	VesselColumn     Column = "vessel"
	IgnoredColumn    Column = "ignored"
)

// columnWords are the words by which a column is known.
var columnWords = map[string]Column{
	"date": DateColumn, "day": DateColumn, "measured": DateColumn, "sample": SampleColumn, "piece": SampleColumn, "sample_id": SampleColumn,
	"kind": KindColumn, "type": KindColumn, "quality": QualityColumn, "analyte": QualityColumn, "analysis": QualityColumn, "parameter": QualityColumn,
	"unit": UnitColumn, "value": ValueColumn, "result": ValueColumn, "reading": ValueColumn, "method": MethodColumn,
	"instrument": InstrumentColumn, "machine": InstrumentColumn, "laboratory": LaboratoryColumn, "lab": LaboratoryColumn,
	"matrix": MatrixColumn, "material": MatrixColumn, "reference": ReferenceColumn, "assigned": ReferenceColumn, "target": ReferenceColumn,
	"ring_sd": SDColumn, "supply": BatchColumn, "batch": BatchColumn, "event": EventColumn, "lot": LotColumn, "barley": LotColumn,
	"vessel": VesselColumn, "kiln": VesselColumn, "steep": VesselColumn, "silo": VesselColumn, "germination": VesselColumn, "box": VesselColumn, "drum": VesselColumn,
	"note": IgnoredColumn, "remark": IgnoredColumn, "analyst": IgnoredColumn, "id": IgnoredColumn, "time": IgnoredColumn,
}

// ColumnNamed is what a column holds by one of the words for it.
func ColumnNamed(word string) (Column, bool) {
	c, ok := columnWords[unit.Spelled(word)]
	return c, ok
}

// kindWords are the words for kinds.
var kindWords = map[string]Kind{
	"check": Check, "control": Check, "standard": Check, "piece": Piece, "sample": Piece, "lot": Piece, "": Piece, "ring": Round, "proficiency": Round,
}

// table is results while they are read.
type table struct {
	header  []string
	role    []Column // empty for a column that is a quality by itself
	quality []int
	vessel  []int
	out     Results
	faults  []finding.Cell
}

// Read makes results of a table of cells whose first row names the columns. With a
// column "value" there is a row for each figure; without, each column that is
// nothing else is a quality, with its unit in brackets. roles says what columns
// hold that are not known by their name. All that cannot be read is returned
// together.
func Read(rows [][]string, roles map[string]Column) (Results, []finding.Cell) {
	t := &table{}
	if len(rows) == 0 {
		return t.out, []finding.Cell{{Code: "lab.table.empty", Row: 1}}
	}
	if !t.columns(rows[0], roles) {
		return t.out, t.faults
	}
	for i, row := range rows[1:] {
		if slices.ContainsFunc(row, func(cell string) bool { return strings.TrimSpace(cell) != "" }) {
			t.row(i+2, row)
		}
	}
	if len(t.out.Rows) == 0 && len(t.faults) == 0 {
		t.fault("lab.table.empty", 1, -1, "")
	}
	return t.out, t.faults
}

func (t *table) fault(code string, row, column int, text string) *finding.Cell {
	f := finding.Cell{Code: code, Row: row, Column: column + 1, Text: text}
	if column >= 0 && column < len(t.header) {
		f.Header = t.header[column]
	}
	t.faults = append(t.faults, f)
	return &t.faults[len(t.faults)-1]
}

// columns settles what each column holds, and reports whether rows can be read.
func (t *table) columns(row []string, roles map[string]Column) bool {
	units := make([]string, len(row))
	taken := map[Column]bool{}
	for i, cell := range row {
		name, text := unit.Header(cell)
		units[i] = text
		t.header = append(t.header, name)
		role, given := roles[name]
		if !given {
			role = columnWords[unit.Spelled(name)]
		}
		if role != "" && role != IgnoredColumn && role != VesselColumn {
			if taken[role] {
				t.fault("lab.header.twice", 1, i, name)
				role = IgnoredColumn
			}
			taken[role] = true
		}
		t.role = append(t.role, role)
	}
	t.strangers(roles)
	for i, name := range t.header {
		t.quality, t.vessel = append(t.quality, -1), append(t.vessel, -1)
		switch {
		case t.role[i] == VesselColumn:
			t.vessel[i] = len(t.out.Vessels)
			t.out.Vessels = append(t.out.Vessels, strings.ToLower(name))
		case t.role[i] == "" && (name == "" || taken[ValueColumn]):
			t.role[i] = IgnoredColumn
		case t.role[i] == "":
			t.quality[i] = t.newQuality(name, units[i])
		}
	}
	return t.needs(taken)
}

// strangers faults the columns that roles name and the table does not have.
func (t *table) strangers(roles map[string]Column) {
	var names []string
	for name := range roles {
		if !slices.Contains(t.header, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		t.fault("lab.header.unknown", 1, -1, name).Meant = unit.Nearest(name, t.header)
	}
}

// needs faults what is not there.
func (t *table) needs(taken map[Column]bool) bool {
	var missing []Column
	if !taken[SampleColumn] {
		missing = append(missing, SampleColumn)
	}
	switch {
	case taken[ValueColumn] && !taken[QualityColumn]:
		missing = append(missing, QualityColumn)
	case !taken[ValueColumn] && len(t.out.Qualities) == 0:
		missing = append(missing, ValueColumn)
	}
	for _, c := range missing {
		t.fault("lab.header.missing", 1, -1, string(c)).Meant = unit.Nearest(string(c), t.header)
	}
	return len(missing) == 0
}

func (t *table) newQuality(name, unitText string) int {
	q := Quality{name, unitText}
	if i := slices.Index(t.out.Qualities, q); i >= 0 {
		return i
	}
	t.out.Qualities = append(t.out.Qualities, q)
	return len(t.out.Qualities) - 1
}

// row reads one row into a result for each figure.
func (t *table) row(number int, row []string) {
	r := Result{Line: number, Day: math.NaN(), Kind: Piece, Quality: -1, Value: math.NaN(), Reference: math.NaN(), SD: math.NaN(), Vessels: make([]string, len(t.out.Vessels))}
	name, unitText, long := "", "", false
	var wide []Result
	for i := range t.header {
		text := ""
		if i < len(row) {
			text = strings.TrimSpace(row[i])
		}
		switch t.role[i] {
		case QualityColumn:
			name, long = text, true
		case UnitColumn:
			unitText = text
		case "":
			if text != "" {
				wide = append(wide, Result{Quality: t.quality[i], Value: t.number(number, i, text)})
			}
		default:
			t.cell(&r, i, text)
		}
	}
	if len(row) > len(t.header) {
		t.fault("lab.row.long", number, -1, "")
	}
	if r.Sample == "" {
		t.fault("lab.sample.missing", number, -1, "")
		return
	}
	if long && name == "" {
		t.fault("lab.quality.missing", number, -1, "")
		return
	}
	if long {
		if given, inside := unit.Header(name); inside != "" {
			name, unitText = given, inside
		}
		r.Quality = t.newQuality(name, unitText)
		wide = []Result{{Quality: r.Quality, Value: r.Value}}
	}
	for _, w := range wide {
		one := r
		one.Quality, one.Value = w.Quality, w.Value
		t.out.Rows = append(t.out.Rows, one)
	}
}

func (t *table) cell(r *Result, i int, text string) {
	switch t.role[i] {
	case DateColumn:
		r.Day = t.day(r.Line, i, text)
	case SampleColumn:
		r.Sample = text
	case KindColumn:
		kind, ok := kindWords[strings.ToLower(text)]
		if !ok {
			t.fault("lab.kind.unknown", r.Line, i, text).Meant = unit.Nearest(text, []string{"check", "piece", "ring"})
		}
		r.Kind = kind
	case ValueColumn:
		r.Value = t.number(r.Line, i, text)
	case MethodColumn:
		r.Method = text
	case InstrumentColumn:
		r.Instrument = text
	case LaboratoryColumn:
		r.Laboratory = text
	case MatrixColumn:
		r.Matrix = strings.ToLower(text)
	case ReferenceColumn:
		r.Reference = t.number(r.Line, i, text)
	case SDColumn:
		if r.SD = t.number(r.Line, i, text); r.SD <= 0 {
			t.fault("lab.sd.impossible", r.Line, i, text)
			r.SD = math.NaN()
		}
	case BatchColumn:
		r.Batch = text
	case EventColumn:
		r.Event = text
	case LotColumn:
		r.Lot = text
	case VesselColumn:
		r.Vessels[t.vessel[i]] = text
	}
}

// number reads a figure; NaN if it is missing or cannot be read.
func (t *table) number(row, column int, text string) float64 {
	if unit.Missing(text) {
		return math.NaN()
	}
	if strings.Contains(text, ",") {
		t.fault("lab.cell.comma", row, column, text)
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		t.fault("lab.cell.not-a-number", row, column, text)
		return math.NaN()
	}
	return x
}

// day reads a date: 2026-03-14, with or without a time behind it, or the number of
// days that a workbook keeps.
func (t *table) day(row, column int, text string) float64 {
	if unit.Missing(text) {
		return math.NaN()
	}
	if serial, err := strconv.ParseFloat(text, 64); err == nil && serial >= firstSerial && serial <= lastSerial {
		return math.Floor(serial) - serialOf1970
	}
	var part [3]int
	date, _, _ := strings.Cut(strings.ReplaceAll(text, "T", " "), " ")
	fields := strings.Split(date, "-")
	if len(fields) == len(part) && len(fields[0]) == 4 {
		ok := true
		for i, f := range fields {
			n, err := strconv.Atoi(f)
			part[i] = n
			ok = ok && err == nil && n > 0
		}
		if d := civilDay(part[0], part[1], part[2]); ok && !math.IsNaN(d) {
			return d
		}
	}
	t.fault("lab.date.unreadable", row, column, text)
	return math.NaN()
}

// Days of a workbook are counted from the end of 1899; those of 1970 and of the
// range that is taken for a date.
const (
	serialOf1970 = 25569
	firstSerial  = 20000
	lastSerial   = 80000
)

var monthDays = [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// civilDay counts the days from 1 January 1970; NaN for a date that is none.
func civilDay(year, month, day int) float64 {
	leap := year%4 == 0 && (year%100 != 0 || year%400 == 0)
	if year < 1900 || year > 2200 || month < 1 || month > 12 || day < 1 {
		return math.NaN()
	}
	most := monthDays[month-1]
	if month == 2 && leap {
		most++
	}
	if day > most {
		return math.NaN()
	}
	before := year - 1
	days := 365*before + before/4 - before/100 + before/400 + day - 1
	for m := range month - 1 {
		days += monthDays[m]
		if m == 1 && leap {
			days++
		}
	}
	const to1970 = 719162
	return float64(days - to1970)
}
