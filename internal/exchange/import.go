package exchange

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"

	"awn/internal/paper"
	"awn/internal/table"
	"awn/ledger"
	"awn/unit"
)

// File is a file as it was brought in.
type File struct {
	Name string
	Data []byte
}

// Entry says who brings a file in and when, and what stands in the record
// already.
type Entry struct {
	Who   string
	AtMS  int64                  // when it is entered, ms UTC
	Known map[ledger.Code]string // id of the receipt in force of each delivery; see [Deliveries]

	// Things are those that results can be about; nil if nobody knows.
	Things map[ledger.Ref]bool
}

// Batch is what a file comes to: entries to append together, and the file
// itself to be kept as a document.
type Batch struct {
	Drafts []ledger.Draft // the last says that the file was brought in
	Rows   []int          // the row of each draft, 0 for the last
	SHA256 string         // of the file, in hexadecimal
	Media  string         // of the file
}

// Limits of a file.
const (
	mostRows   = 100_000
	mostFaults = 1_000
)

// The media of files that are brought in.
const (
	mediaCSV  = "text/csv"
	mediaXLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
)

// Import reads a file as the map says. There are either drafts or faults:
// calling it and appending nothing is the dry run.
func Import(file File, how paper.ImportMap, by Entry) (Batch, Faults) {
	sum := sha256.Sum256(file.Data)
	in := &importer{file: file, how: how, by: by, sum: sum, zone: newClock(how), seen: map[string]int{}}
	b := Batch{SHA256: hex.EncodeToString(sum[:]), Media: mediaCSV}
	if isWorkbook(file.Data) {
		b.Media, in.workbook = mediaXLSX, true
	}
	sheet, ok := in.open()
	if !ok || !in.head(sheet) {
		return Batch{}, in.faults
	}
	for i, cells := range sheet.Cells[1:] {
		if in.row(sheet.Line[i+1], cells) {
			b.Rows = append(b.Rows, sheet.Line[i+1])
		}
		if len(in.faults) >= mostFaults {
			in.faults = append(in.faults[:mostFaults], Fault{Code: "import.faults.more", File: file.Name, Got: fmt.Sprint(mostFaults)})
			break
		}
	}
	if len(in.faults) == 0 && len(in.drafts) == 0 {
		in.fault(0, "", Fault{Code: "import.file.rows", Got: "0", Allowed: []string{fmt.Sprint("1 to ", mostRows)}})
	}
	if len(in.faults) > 0 {
		return Batch{}, in.faults
	}
	b.Drafts, b.Rows = append(in.drafts, in.note()), append(b.Rows, 0)
	return b, nil
}

func isWorkbook(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// importer reads one file.
type importer struct {
	file     File
	how      paper.ImportMap
	by       Entry
	sum      [32]byte
	zone     clock
	workbook bool

	headers []string // as they stand in the file
	columns []column
	fixed   map[string]string
	seen    map[string]int // row in which a lot or sample stood

	drafts []ledger.Draft
	faults Faults
}

// column is a column of the file that the map names.
type column struct {
	index  int
	header string
	paper.ImportColumn
	ending ending // of a result
}

func (in *importer) fault(row int, column string, f Fault) {
	f.File, f.Row, f.Column = in.file.Name, row, column
	in.faults = append(in.faults, f)
}

// open reads the cells.
func (in *importer) open() (table.Sheet, bool) {
	sheet, err := table.Read(bytes.NewReader(in.file.Data), in.how.Sheet)
	var wrong *table.Error
	switch {
	case errors.As(err, &wrong) && len(wrong.Sheets) > 0:
		in.fault(0, "", Fault{Code: "import.file.sheet", Got: in.how.Sheet, Allowed: wrong.Sheets, Nearest: unit.Nearest(in.how.Sheet, wrong.Sheets)})
	case errors.As(err, &wrong):
		in.fault(wrong.Line, "", Fault{Code: "import.file.unread", Got: string(wrong.Problem)})
	case err != nil:
		in.fault(0, "", Fault{Code: "import.file.unread", Got: err.Error()})
	case len(sheet.Cells) > mostRows+1:
		in.fault(0, "", Fault{Code: "import.file.rows", Got: fmt.Sprint(len(sheet.Cells) - 1), Allowed: []string{fmt.Sprint("1 to ", mostRows)}})
	}
	return sheet, len(in.faults) == 0
}

// head holds the headers of the file against the map.
func (in *importer) head(sheet table.Sheet) bool {
	line, known := sheet.Line[0], []string{}
	for header := range in.how.Columns {
		known = append(known, header)
	}
	slices.Sort(known)
	for i, cell := range sheet.Cells[0] {
		header := strings.TrimSpace(cell)
		c, named := in.how.Columns[header]
		switch {
		case named && slices.Contains(in.headers, header):
			in.fault(line, header, Fault{Code: "import.column.twice", Got: header})
		case named:
			in.columns = append(in.columns, column{index: i, header: header, ImportColumn: c})
		case header != "" && in.how.Others != "ignored":
			in.fault(line, header, Fault{Code: "import.column.unknown", Got: header, Allowed: known, Nearest: unit.Nearest(header, known)})
		}
		in.headers = append(in.headers, header)
	}
	for _, header := range known {
		if !slices.Contains(in.headers, header) {
			in.fault(line, "", Fault{Code: "import.column.missing", Got: header, Allowed: in.headers, Nearest: unit.Nearest(header, in.headers)})
		}
	}
	in.fixed = in.how.Fixed
	for i := range in.columns {
		in.checkUnit(line, &in.columns[i])
	}
	return len(in.faults) == 0
}

// row turns one row into a draft, or notes what is wrong with it; false if
// there is nothing in it or something is wrong.
func (in *importer) row(line int, cells []string) bool {
	if !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
		return false
	}
	before := len(in.faults)
	for _, cell := range cells[min(len(cells), len(in.headers)):] {
		if strings.TrimSpace(cell) != "" {
			in.fault(line, "", Fault{Code: "import.row.long", Got: fmt.Sprint(len(cells)), Allowed: []string{fmt.Sprint(len(in.headers), " columns")}})
			return false
		}
	}
	r := &row{in: in, line: line, cells: cells}
	at := r.time()
	var body ledger.Body
	if in.how.Rows == "tickets" {
		body = r.ticket()
	} else {
		body = r.analysis()
	}
	if len(in.faults) > before {
		return false
	}
	d := in.draft(body, line, at)
	if err := d.Check(); err != nil {
		r.refused(err)
		return false
	}
	in.drafts = append(in.drafts, d)
	return true
}

// draft makes the entry of a row.
func (in *importer) draft(body ledger.Body, line int, at moment) ledger.Draft {
	kind, schema, text := ledger.NewBody(body)
	return ledger.Draft{
		ID: in.id(line), Kind: kind, Schema: schema, Body: text,
		At: at.ms, OffsetMin: at.offsetMin, Entered: in.by.AtMS, Who: in.by.Who,
	}
}

// note is the entry that ties the file itself to the record. It happened when
// the last of its rows did, so that the same file gives the same entry.
func (in *importer) note() ledger.Draft {
	last := slices.MaxFunc(in.drafts, func(a, b ledger.Draft) int { return cmp.Compare(a.At, b.At) })
	return in.draft(&ledger.Decision{
		Decision: "imported", Reason: fmt.Sprintf("%s: %d", in.how.Rows, len(in.drafts)), Document: ledger.Digest(hex.EncodeToString(in.sum[:])),
	}, 0, moment{last.At, last.OffsetMin})
}

// id is that of a row of this file. It has no time in it: the file and the row
// alone make it, so that a map that was corrected in between gives the same
// ids with other contents, which the record refuses, and not all of it twice.
func (in *importer) id(line int) string {
	again := 0
	if in.how.Again != nil {
		again = *in.how.Again
	}
	sum := sha256.Sum256(fmt.Appendf(nil, "awn import 1\n%x\n%d\n%d\n", in.sum, again, line))
	return ledger.ID(0, [10]byte(sum[:10]))
}
