package crop

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/unit"
)

// Column says what a column of a table holds, apart from qualities.
type Column string

// The columns.
const (
	SeasonColumn   Column = "season"
	DistrictColumn Column = "district"
	VarietyColumn  Column = "variety"
	FarmColumn     Column = "farm"
	WeightColumn   Column = "weight"        // tonnes that the sample stands for
	TonnesColumn   Column = "tonnes"        // tonnes that it was taken from, or of a stratum
	AreaColumn     Column = "area"          // hectares that it stands for
	LoadsColumn    Column = "loads"         // how many loads it is mixed of
	FarmsColumn    Column = "farms_frame"   // farms that grow the stratum
	SampledColumn  Column = "farms_sampled" // of them, sampled
	BinsColumn     Column = "bins_farm"
	LookedColumn   Column = "bins_sampled"
	EastColumn     Column = "east"
	NorthColumn    Column = "north"
	IgnoredColumn  Column = "ignored"
)

// columnWords are the words by which a column is known.
var columnWords = map[string]Column{
	"season": SeasonColumn, "year": SeasonColumn, "crop_year": SeasonColumn,
	"district": DistrictColumn, "region": DistrictColumn, "county": DistrictColumn,
	"variety": VarietyColumn, "cultivar": VarietyColumn,
	"farm": FarmColumn, "grower": FarmColumn, "producer": FarmColumn,
	"weight": WeightColumn, "stands_for": WeightColumn, "tonnes": TonnesColumn, "tonnes_frame": TonnesColumn, "t": TonnesColumn,
	"area": AreaColumn, "ha": AreaColumn, "hectares": AreaColumn,
	"loads": LoadsColumn, "composite_of": LoadsColumn, "composite": LoadsColumn,
	"farms_frame": FarmsColumn, "farms": FarmsColumn, "farms_sampled": SampledColumn,
	"bins_farm": BinsColumn, "bins": BinsColumn, "bins_sampled": LookedColumn,
	"east": EastColumn, "easting": EastColumn, "x": EastColumn, "longitude": EastColumn, "lon": EastColumn,
	"north": NorthColumn, "northing": NorthColumn, "y": NorthColumn, "latitude": NorthColumn, "lat": NorthColumn,
	"sample": IgnoredColumn, "bin": IgnoredColumn, "id": IgnoredColumn, "note": IgnoredColumn, "remark": IgnoredColumn, "date": IgnoredColumn,
}

// Fault is something in a table that cannot be read. Row and Column count from 1;
// Row is 1 for the header, Column 0 for all of the row.
type Fault struct {
	Code        string
	Row, Column int
	Header      string // of the column
	Text        string // what stands there
	Meant       string // the nearest right word, or what is allowed
}

// cells is a table while it is read.
type cells struct {
	header, unit []string
	faults       []Fault
}

func (c *cells) fault(code string, row, column int, text string) *Fault {
	f := Fault{Code: code, Row: row, Column: column + 1, Text: text}
	if column >= 0 && column < len(c.header) {
		f.Header = c.header[column]
	}
	c.faults = append(c.faults, f)
	return &c.faults[len(c.faults)-1]
}

// head parts the headers into names and units.
func (c *cells) head(row []string) {
	for _, cell := range row {
		name, text := unit.Header(cell)
		c.header, c.unit = append(c.header, name), append(c.unit, text)
	}
}

// roles settles what each column holds, by the user's word or by its own.
func (c *cells) roles(given map[string]Column) []Column {
	out := make([]Column, len(c.header))
	taken := map[Column]bool{}
	for i, name := range c.header {
		role, ok := given[name]
		if !ok {
			role = columnWords[unit.Spelled(name)]
		}
		if role != "" && role != IgnoredColumn && taken[role] {
			c.fault("survey.header.twice", 1, i, name)
			role = IgnoredColumn
		}
		taken[role], out[i] = true, role
	}
	var strangers []string
	for name := range given {
		if !slices.Contains(c.header, name) {
			strangers = append(strangers, name)
		}
	}
	slices.Sort(strangers)
	for _, name := range strangers {
		c.fault("survey.header.unknown", 1, -1, name).Meant = unit.Nearest(name, c.header)
	}
	return out
}

// needs faults the columns that are not there, with a header that may be meant.
func (c *cells) needs(roles []Column, wanted ...Column) bool {
	all := true
	for _, w := range wanted {
		if !slices.Contains(roles, w) {
			all = false
			c.fault("survey.header.missing", 1, -1, string(w)).Meant = unit.Nearest(string(w), c.header)
		}
	}
	return all
}

// number reads a figure; NaN if it is missing or cannot be read.
func (c *cells) number(row, column int, text string) float64 {
	if unit.Missing(text) {
		return math.NaN()
	}
	if strings.Contains(text, ",") {
		c.fault("survey.cell.comma", row, column, text)
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		c.fault("survey.cell.not-a-number", row, column, text)
		return math.NaN()
	}
	return x
}

// between is number for a figure that must lie within a range.
func (c *cells) between(row, column int, text string, least, most float64) float64 {
	x := c.number(row, column, text)
	if math.IsNaN(x) || x >= least && x <= most {
		return x
	}
	c.fault("survey.cell.range", row, column, text).Meant = short(least) + " to " + short(most)
	return math.NaN()
}

// short writes a number to six figures.
func short(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

// blank reports whether a row holds nothing.
func blank(row []string) bool {
	return !slices.ContainsFunc(row, func(cell string) bool { return strings.TrimSpace(cell) != "" })
}

// cellOf is the text of a column of a row.
func cellOf(row []string, i int) string {
	if i < len(row) {
		return strings.TrimSpace(row[i])
	}
	return ""
}

// ColumnNamed is what a column holds by one of the words for it, those of
// qualities included.
func ColumnNamed(word string) (Column, bool) {
	if c, ok := columnWords[unit.Spelled(word)]; ok {
		return c, true
	}
	_, ok := formOf(unit.Spelled(word))
	return Column(unit.Spelled(word)), ok
}
