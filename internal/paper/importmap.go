package paper

import (
	"maps"
	"slices"
	"strings"
	"time"

	"awn/unit"
)

// ImportMap says how the rows of a file become entries of the record. It is
// kept and used again for every file of the same make.
type ImportMap struct {
	Rows    string                  `key:"rows" one:"tickets|results" doc:"What a row is: a weighbridge ticket, or the results of one sample."`
	Sheet   string                  `key:"sheet?" doc:"Which sheet of a workbook."`
	Zone    string                  `key:"zone" doc:"Time zone of the clock that the times were read from, such as Europe/Dublin."`
	Form    string                  `key:"time_form?" match:"serial|[YMDhms0-9 ./:,T-]+" doc:"How times are written, such as DD/MM/YYYY hh:mm; serial for the day numbers of a spreadsheet. YYYY-MM-DD hh:mm, if it is not given."`
	Decimal string                  `key:"decimal?" one:"point|comma" doc:"The mark before decimals. A point, if it is not given."`
	Others  string                  `key:"other_columns?" one:"refused|ignored" doc:"What becomes of columns that are not named here. A file that has one is refused, if it is not said."`
	Again   *int                    `key:"again" min:"1" max:"99" doc:"Raise it to bring the same file in once more, after all that came of it was struck."`
	Columns map[string]ImportColumn `key:"columns" match:".+" doc:"What each column holds, by its header."`
	Fixed   map[string]string       `key:"fixed?" match:"[a-z_]+" doc:"Fields that are the same on every row."`
}

// ImportColumn is what a column holds: a field of the entry, or a result.
type ImportColumn struct {
	Field       string            `key:"field?" doc:"The field of the entry."`
	Also        string            `key:"also?" doc:"A second field that the same cell fills."`
	Quantity    string            `key:"quantity?" doc:"The quantity that was measured, with basis and unit at the end of its name, such as don_mg_kg_asis."`
	Unit        string            `key:"unit?" doc:"Unit and basis of the numbers, such as t or % wb, where the cells do not say it themselves."`
	Method      string            `key:"method?" doc:"Method of a result."`
	Uncertainty string            `key:"uncertainty?" doc:"Standard uncertainty of a result, a number in the same unit."`
	Words       map[string]string `key:"words?" match:".+" doc:"What the words of this column stand for; no others are read."`

	_ struct{} `rule:"one of field quantity"`
}

// fieldsOf lists the fields that an entry from a row may have; a list of
// several under need wants one of them.
var fieldsOf = map[string]struct {
	all  []string
	need [][]string
}{
	"tickets": {
		all:  []string{"at", "date", "clock", "lot", "to", "ticket", "gross", "tare", "net", "u_net", "moisture", "u_moisture", "grower", "grown", "variety", "crop_year", "vehicle", "note"},
		need: [][]string{{"at", "date"}, {"lot"}, {"to"}, {"net", "gross"}, {"moisture"}},
	},
	"results": {
		all:  []string{"at", "date", "clock", "delivery", "lot", "piece", "silo", "sample", "lab", "note"},
		need: [][]string{{"at", "date"}, {"delivery", "lot", "piece", "silo"}},
	},
}

// Kind is the word behind the first key.
func (ImportMap) Kind() string { return "import-map/1" }

// Check finds fields that are unknown, filled twice or not at all.
func (m ImportMap) Check() (faults []Fault) {
	add := func(code, path, got string, allowed ...string) {
		faults = append(faults, Fault{Code: code, Path: path, Got: got, Allowed: allowed, Nearest: unit.Nearest(got, allowed)})
	}
	if _, err := time.LoadLocation(m.Zone); err != nil || m.Zone == "" || m.Zone == "Local" {
		add("plant.zone.unknown", "zone", m.Zone)
	}
	if form := m.TimeForm(); form != "serial" {
		for _, part := range []string{"YYYY", "MM", "DD"} {
			if strings.Count(form, part) != 1 {
				add("map.form.incomplete", "time_form", form, part)
			}
		}
	}
	fields, filled := fieldsOf[m.Rows], map[string]bool{}
	fill := func(path, field string) {
		switch {
		case field == "":
		case !slices.Contains(fields.all, field):
			add("map.field.unknown", path, field, fields.all...)
		case filled[field]:
			add("map.field.twice", path, field)
		}
		filled[field] = true
	}
	for _, header := range slices.Sorted(maps.Keys(m.Columns)) {
		c := m.Columns[header]
		fill(join("columns", header)+".field", c.Field)
		fill(join("columns", header)+".also", c.Also)
		if c.Quantity != "" && m.Rows != "results" {
			add("map.field.unknown", join("columns", header)+".quantity", c.Quantity, fields.all...)
		}
		filled["quantity"] = filled["quantity"] || c.Quantity != ""
	}
	for _, field := range slices.Sorted(maps.Keys(m.Fixed)) {
		fill(join("fixed", field), field)
	}
	if m.Rows == "results" && !filled["quantity"] {
		add("map.field.missing", "columns", "", "quantity")
	}
	for _, any := range fields.need {
		if !slices.ContainsFunc(any, func(f string) bool { return filled[f] }) {
			add("map.field.missing", "columns", "", any...)
		}
	}
	return append(faults, m.checkSets(filled)...)
}

// checkSets finds fields that shut each other out, or want each other.
func (m ImportMap) checkSets(filled map[string]bool) (faults []Fault) {
	add := func(code, got string, allowed ...string) {
		faults = append(faults, Fault{Code: code, Path: "columns", Got: got, Allowed: allowed})
	}
	if filled["at"] && (filled["date"] || filled["clock"]) {
		add("map.field.both", "at", "date")
	}
	if filled["clock"] && !filled["date"] && !filled["at"] {
		add("map.field.missing", "", "date")
	}
	if filled["gross"] != filled["tare"] {
		add("map.field.missing", "", "gross", "tare")
	}
	var of []string
	for _, f := range fieldsOf["results"].need[1] {
		if filled[f] && m.Rows == "results" {
			of = append(of, f)
		}
	}
	if len(of) > 1 {
		add("map.field.both", of[0], of[1:]...)
	}
	return faults
}

// TimeForm is how times are written.
func (m ImportMap) TimeForm() string {
	if m.Form == "" {
		return "YYYY-MM-DD hh:mm"
	}
	return m.Form
}
