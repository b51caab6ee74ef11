package table

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

func page(rows ...[]any) Page {
	return Page{"Balance", []string{"what", "kg"}, func(yield func([]any, error) bool) {
		for _, r := range rows {
			if !yield(r, nil) {
				return
			}
		}
	}}
}

var sample = page([]any{"malt out", 81250.125}, []any{"=1+1", -3}, []any{"@SUM(A1)", int64(7)}, []any{"", math.NaN()}, []any{"-", nil})

func TestWriteCSV(t *testing.T) {
	var b strings.Builder
	if err := WriteCSV(&b, sample); err != nil {
		t.Fatal(err)
	}
	if want := "what,kg\nmalt out,81250.125\n'=1+1,-3\n'@SUM(A1),7\n,\n'-,\n"; b.String() != want {
		t.Errorf("got  %q\nwant %q", b.String(), want)
	}
}

// excelize, asked from the other side, finds numbers as numbers, words as text
// and no formula.
func TestWriteXLSX(t *testing.T) {
	var b bytes.Buffer
	other := page([]any{"x", 1})
	other.Name = "Sheet1"
	if err := WriteXLSX(&b, sample, other); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(f.GetSheetList(), " "); got != "Balance Sheet1" && got != "Sheet1 Balance" {
		t.Errorf("sheets %s", got)
	}
	for cell, want := range map[string]string{"A1": "what", "A2": "malt out", "B2": "81250.125", "A3": "'=1+1", "B3": "-3", "A4": "'@SUM(A1)", "B5": "", "A6": "'-"} {
		got, err := f.GetCellValue("Balance", cell)
		formula, _ := f.GetCellFormula("Balance", cell)
		kind, _ := f.GetCellType("Balance", cell)
		number := cell[0] == 'B' && want != ""
		if err != nil || got != want || formula != "" || want != "" && number == (kind == excelize.CellTypeInlineString || kind == excelize.CellTypeSharedString) {
			t.Errorf("%s: %q of type %d, formula %q, %v; want %q", cell, got, kind, formula, err, want)
		}
	}
	if got, _ := f.GetCellValue("Sheet1", "B2"); got != "1" {
		t.Errorf("second sheet: %q", got)
	}
}

// An error of the rows is not a short file.
func TestRowsThatFail(t *testing.T) {
	broken := errors.New("the record is gone")
	p := Page{"x", []string{"a"}, func(yield func([]any, error) bool) { _ = yield([]any{1}, nil) && yield(nil, broken) }}
	if err := WriteCSV(&bytes.Buffer{}, p); !errors.Is(err, broken) {
		t.Error(err)
	}
	if err := WriteXLSX(&bytes.Buffer{}, p); !errors.Is(err, broken) {
		t.Error(err)
	}
	if err := WriteXLSX(&bytes.Buffer{}, Page{Name: "a/b"}); err == nil {
		t.Error("a sheet of an impossible name was written")
	}
}

// What is written as CSV or XLSX is read back by this package, but for the mark
// before what looks like a formula.
func TestWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var rows [][]any
		for range rapid.IntRange(1, 8).Draw(rt, "rows") {
			words := rapid.StringMatching(`[a-zA-Z=+@\-,;"' ]{1,12}`).Draw(rt, "words")
			rows = append(rows, []any{"w" + words, float64(rapid.IntRange(-1e9, 1e9).Draw(rt, "g")) / 1000}, []any{words + "w", nil})
		}
		for _, write := range []func(*bytes.Buffer) error{
			func(b *bytes.Buffer) error { return WriteCSV(b, page(rows...)) },
			func(b *bytes.Buffer) error { return WriteXLSX(b, page(rows...)) },
		} {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				rt.Fatal(err)
			}
			s, err := Read(&b, "")
			if err != nil {
				rt.Fatal(err)
			}
			for i, row := range rows {
				got := append(s.Cells[i+1], "")
				if got[0] != Words(row[0].(string)) || got[1] != plain(row[1]) {
					rt.Fatalf("%q, want %q", got, row)
				}
			}
		}
	})
}
