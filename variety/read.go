package variety

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"awn/unit"
)

// Role says what a column of a trial holds.
type Role string

// The roles.
const (
	EntryColumn       Role = "entry"
	SiteColumn        Role = "site"
	YearColumn        Role = "year"
	EnvironmentColumn Role = "environment"
	RepColumn         Role = "rep"
	BlockColumn       Role = "block"
	RowColumn         Role = "row"
	ColumnColumn      Role = "column"
	PlotsColumn       Role = "plots" // how many plots the row is the mean of
	CheckColumn       Role = "check" // says yes where the entry is a check
	TraitColumn       Role = "trait"
	IgnoredColumn     Role = "ignored"
)

// roles are the words by which a column is known.
var roles = map[string]Role{
	"entry": EntryColumn, "variety": EntryColumn, "genotype": EntryColumn, "gen": EntryColumn, "line": EntryColumn, "cultivar": EntryColumn,
	"site": SiteColumn, "location": SiteColumn, "loc": SiteColumn, "place": SiteColumn,
	"year": YearColumn, "season": YearColumn, "crop_year": YearColumn,
	"environment": EnvironmentColumn, "env": EnvironmentColumn, "trial": EnvironmentColumn,
	"rep": RepColumn, "replicate": RepColumn, "replication": RepColumn,
	"block": BlockColumn, "row": RowColumn, "range": RowColumn, "column": ColumnColumn, "col": ColumnColumn, "bed": ColumnColumn,
	"plots": PlotsColumn, "check": CheckColumn, "plot": IgnoredColumn, "note": IgnoredColumn, "remark": IgnoredColumn,
}

// Layout says what a reader cannot see from the cells.
type Layout struct {
	Roles  map[string]Role // by header, where the usual words do not serve
	Traits []Trait         // by the name in the header; others get what is usual
	Checks []string
	Only   bool // no traits but those named
}

// Fault is something in a table that cannot be read. Row and Column count from 1;
// Row is 1 for the header, Column 0 for all of the row.
type Fault struct {
	Code        string
	Row, Column int
	Header      string // of the column
	Text        string // what stands there
	Meant       string // the nearest right word, if any is near
}

// sheet is a table while it is read.
type sheet struct {
	layout  Layout
	header  []string
	role    []Role
	trait   []int // by column, the place in Trials.Traits; -1
	out     Trials
	faults  []Fault
	checked map[int]bool
}

// Read makes trials of a table of cells whose first row names the columns. A
// header may carry a unit in brackets: "yield [t/ha]". All that cannot be read is
// returned together; a cell that cannot is missing from the trials.
func Read(cells [][]string, layout Layout) (Trials, []Fault) {
	s := &sheet{layout: layout, checked: map[int]bool{}}
	if len(cells) == 0 {
		return s.out, []Fault{{Code: "trial.table.empty", Row: 1}}
	}
	if !s.head(cells[0]) {
		return s.out, s.faults
	}
	for i, row := range cells[1:] {
		s.row(i+2, row)
	}
	if len(s.out.Records) == 0 {
		s.fault("trial.table.empty", 1, -1, "")
	}
	s.checks()
	return s.out, s.faults
}

func (s *sheet) fault(code string, row, column int, text string) *Fault {
	f := Fault{Code: code, Row: row, Column: column + 1, Text: text}
	if column >= 0 && column < len(s.header) {
		f.Header = s.header[column]
	}
	s.faults = append(s.faults, f)
	return &s.faults[len(s.faults)-1]
}

// head settles what each column holds, and reports whether rows can be told by it.
func (s *sheet) head(row []string) bool {
	taken := map[Role]bool{}
	for i, cell := range row {
		name, unitText := unit.Header(cell)
		s.header = append(s.header, name)
		role := s.roleOf(name)
		if role != TraitColumn && role != IgnoredColumn {
			if taken[role] {
				s.fault("trial.header.twice", 1, i, cell)
				role = IgnoredColumn
			}
			taken[role] = true
		}
		at := -1
		if role == TraitColumn {
			if at = s.newTrait(i, name, unitText); at < 0 {
				role = IgnoredColumn
			}
		}
		s.role, s.trait = append(s.role, role), append(s.trait, at)
	}
	unknown := s.strangers()
	if !taken[EntryColumn] {
		f := s.fault("trial.header.missing", 1, -1, string(EntryColumn))
		f.Meant = unit.Nearest("variety", s.header)
	}
	if !taken[SiteColumn] && !taken[EnvironmentColumn] && !taken[YearColumn] {
		s.fault("trial.header.missing", 1, -1, string(EnvironmentColumn))
	}
	if len(s.out.Traits) == 0 && !unknown {
		s.fault("trial.header.missing", 1, -1, string(TraitColumn))
	}
	return taken[EntryColumn] && (taken[SiteColumn] || taken[EnvironmentColumn] || taken[YearColumn])
}

// strangers finds headers that the layout names and the table does not have.
func (s *sheet) strangers() (any bool) {
	var named []string
	for name := range s.layout.Roles {
		named = append(named, name)
	}
	slices.Sort(named)
	for _, t := range s.layout.Traits {
		named = append(named, t.Name)
	}
	for _, name := range named {
		if !slices.Contains(s.header, name) {
			any = true
			s.fault("trial.header.unknown", 1, -1, name).Meant = unit.Nearest(name, s.header)
		}
	}
	return any
}

func (s *sheet) roleOf(name string) Role {
	if role, ok := s.layout.Roles[name]; ok {
		return role
	}
	if slices.ContainsFunc(s.layout.Traits, func(t Trait) bool { return t.Name == name }) {
		return TraitColumn
	}
	if role, ok := roles[plain(name)]; ok {
		return role
	}
	if name == "" || s.layout.Only {
		return IgnoredColumn
	}
	return TraitColumn
}

func (s *sheet) newTrait(column int, name, unitText string) int {
	if s.out.Trait(name) >= 0 {
		s.fault("trial.header.twice", 1, column, name)
		return -1
	}
	t := CommonTrait(name, unitText)
	for _, given := range s.layout.Traits {
		if given.Name == name {
			if t = given; unitText != "" {
				t.Unit = unitText
			}
		}
	}
	s.out.Traits = append(s.out.Traits, t)
	return len(s.out.Traits) - 1
}

func (s *sheet) row(number int, row []string) {
	if !slices.ContainsFunc(row, func(cell string) bool { return strings.TrimSpace(cell) != "" }) {
		return
	}
	r := Record{Plots: 1, Line: number, Value: slices.Repeat([]float64{math.NaN()}, len(s.out.Traits))}
	for i := range s.header {
		text := ""
		if i < len(row) {
			text = strings.TrimSpace(row[i])
		}
		s.cell(&r, i, text)
	}
	if len(row) > len(s.header) {
		s.fault("trial.row.long", number, -1, "")
	}
	if r.Entry == "" {
		s.fault("trial.entry.missing", number, -1, "")
		return
	}
	if r.where() == "" {
		s.fault("trial.environment.missing", number, -1, "")
		return
	}
	s.out.Records = append(s.out.Records, r)
}

func (s *sheet) cell(r *Record, column int, text string) {
	switch s.role[column] {
	case EntryColumn:
		r.Entry = text
	case SiteColumn:
		r.Site = text
	case EnvironmentColumn:
		r.Environment = text
	case RepColumn:
		r.Rep = text
	case BlockColumn:
		r.Block = text
	case RowColumn:
		r.Row = text
	case ColumnColumn:
		r.Column = text
	case YearColumn:
		if x := s.number(r.Line, column, text); !math.IsNaN(x) {
			if x != math.Trunc(x) || x < 1800 || x > 2200 {
				s.fault("trial.year.unreadable", r.Line, column, text)
				return
			}
			r.Year = int(x)
		}
	case PlotsColumn:
		if x := s.number(r.Line, column, text); x > 0 {
			r.Plots = x
		} else if !math.IsNaN(x) {
			s.fault("trial.plots.impossible", r.Line, column, text)
		}
	case CheckColumn:
		// The entry may stand in a later column: the record is looked up at the end.
		if slices.Contains([]string{"yes", "y", "true", "1", "x", "check"}, strings.ToLower(text)) {
			s.checked[r.Line] = true
		}
	case TraitColumn:
		r.Value[s.trait[column]] = s.number(r.Line, column, text)
	}
}

// number reads a figure; NaN if it is missing or cannot be read.
func (s *sheet) number(row, column int, text string) float64 {
	if unit.Missing(text) {
		return math.NaN()
	}
	if strings.Contains(text, ",") {
		s.fault("trial.cell.comma", row, column, text)
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		s.fault("trial.cell.not-a-number", row, column, text)
		return math.NaN()
	}
	return x
}

// checks settles which entries are checks.
func (s *sheet) checks() {
	entries := s.out.Entries()
	for _, check := range s.layout.Checks {
		if !slices.Contains(entries, check) {
			f := s.fault("trial.check.absent", 0, -1, check)
			f.Meant = unit.Nearest(check, entries)
			continue
		}
		s.out.Checks = append(s.out.Checks, check)
	}
	for _, r := range s.out.Records {
		if s.checked[r.Line] && !slices.Contains(s.out.Checks, r.Entry) {
			s.out.Checks = append(s.out.Checks, r.Entry)
		}
	}
}
