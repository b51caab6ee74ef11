package exchange

import (
	"fmt"
	"maps"
	"strings"

	"awn/ledger"
	"awn/unit"
)

// Fault is one thing that is wrong with a file, and where.
type Fault struct {
	Code    string   // a key of Sentences, or of those of unit and ledger
	File    string   // as it was named
	Row     int      // the line on which the row begins, 0 if it is about the file
	Column  string   // header of the column, "" if it is about the row
	Got     string   // what stands there
	Allowed []string // what may stand there
	Nearest string   // which of those was probably meant, "" if none
}

// Sentence says the fault in English.
func (f Fault) Sentence() string {
	return unit.Fill(sentences[f.Code], f.Got, f.Allowed, f.Nearest)
}

// Error gives place, sentence and code.
func (f Fault) Error() string {
	place := f.File
	if f.Row > 0 {
		place += fmt.Sprintf(", row %d", f.Row)
	}
	if f.Column != "" {
		place += ", column “" + f.Column + "”"
	}
	return place + ": " + f.Sentence() + " [" + f.Code + "]"
}

// Faults are all that is wrong with a file, in reading order.
type Faults []Fault

// Error lists them.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

// OfRecord reports whether the file in itself is good, and the record refuses
// it: for what stands there already, or does not.
func (f Faults) OfRecord() bool {
	for _, x := range f {
		if x.Code != "import.row.entered" && x.Code != "import.row.unknown" && x.Code != "import.row.changed" {
			return false
		}
	}
	return len(f) > 0
}

// Sentences has the English text of every code of this package.
var Sentences = map[string]string{
	"import.file.unread":     `The file cannot be read: {got}.`,
	"import.file.sheet":      `{got} is not a sheet with rows here{nearest}; say which: {allowed}.`,
	"import.file.rows":       `The file has {got} rows; it may have {allowed}.`,
	"import.column.unknown":  `{got} is a column that the map does not know{nearest}; it knows {allowed}. Name it there, or say other_columns: ignored.`,
	"import.column.missing":  `The file has no column {got}{nearest}; it has {allowed}.`,
	"import.column.twice":    `{got} is the header of two columns.`,
	"import.quantity.ending": `{got} does not end in a basis and unit that results are kept in{nearest}: {allowed}.`,
	"import.unit.unknown":    `{got} is not a unit of this quantity{nearest}; it should be one of {allowed}.`,
	"import.row.long":        `The row has {got} cells, and there are {allowed}.`,
	"import.row.twice":       `{got} stands in {allowed} already.`,
	"import.row.entered":     `{got} is in the record already, from another file or by hand; leave the row out, or strike what is there.`,
	"import.row.unknown":     `There is no {got} in the record{nearest}.`,
	"import.row.changed":     `The row came in before, as entry {got}, and said something else; strike what came of the file and raise “again” in the map.`,
	"import.row.unread":      `The line is no row of cells: {got}.`,
	"import.column.unread":   `{got} is not a column of readings{nearest}; they are {allowed}.`,
	"import.series.code":     `{got} cannot be the code of a series: letters, digits and hyphens, at most 40.`,
	"import.series.quantity": `{got} is not what this series reads; it is {allowed}.`,
	"import.series.unknown":  `{got} is not a quantity{nearest}; it should be one of {allowed}.`,
	"import.unit.none":       `{got} is not a unit of anything{nearest}.`,
	"import.row.empty":       `The row has no result.`,
	"import.cell.missing":    `Nothing stands here, and {got} is needed.`,
	"import.cell.word":       `{got} is not a word that the map knows here{nearest}; it knows {allowed}.`,
	"import.cell.whole":      `{got} is not a whole number.`,
	"import.time.form":       `{got} is not a time as the map says they are written: {allowed}.`,
	"import.time.read":       `{got} is not a time; it is written in one of the forms {allowed}.`,
	"import.time.gap":        `{got} never was: the clock in {allowed} was put forward over it.`,
	"import.weight.missing":  `There is neither a net weight nor gross and tare.`,
	"import.weight.tare":     `The tare is more than the gross: {got}.`,
	"import.faults.more":     `There are more faults; these are the first {got}.`,
}

// sentences are those of all codes that a fault here can bear.
var sentences = func() map[string]string {
	all := maps.Clone(Sentences)
	maps.Copy(all, unit.Sentences)
	maps.Copy(all, ledger.Sentences)
	return all
}()
