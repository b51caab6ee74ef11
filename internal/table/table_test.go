package table_test

import (
	"bytes"
	"errors"
	"io"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/xuri/excelize/v2"

	"awn/internal/table"
)

func TestSeparated(t *testing.T) {
	want := [][]string{{"variety", "yield [t/ha]"}, {"A", "5.2"}, {"B, the tall", ""}}
	for name, text := range map[string]string{
		"comma":     "# a trial\nvariety,yield [t/ha]\nA,5.2\n\"B, the tall\",\n",
		"semicolon": "variety;yield [t/ha]\nA;5.2\nB, the tall;\n",
		"tab":       "\xef\xbb\xbfvariety\tyield [t/ha]\r\nA\t5.2\r\nB, the tall\t\r\n",
	} {
		got, err := table.Read(strings.NewReader(text), "")
		if err != nil || !reflect.DeepEqual(got.Cells, want) {
			t.Errorf("%s: %q, %v", name, got.Cells, err)
		}
	}
}

// A fault is named by the line of the file, remarks and empty lines counted.
func TestLinesAreThoseOfTheFile(t *testing.T) {
	got, err := table.Read(strings.NewReader("# a trial\nvariety,note\n\nA,\"two\nlines\"\n# more\nB,\n"), "")
	if want := []int{2, 4, 7}; err != nil || !reflect.DeepEqual(got.Line, want) {
		t.Errorf("%v, %v; want %v", got.Line, err, want)
	}
}

func book(t *testing.T, sheets map[string][][]any) *bytes.Buffer {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for name, cells := range sheets {
		if _, err := f.NewSheet(name); err != nil {
			t.Fatal(err)
		}
		for i, row := range cells {
			at, err := excelize.CoordinatesToCellName(1, i+1)
			if err != nil {
				t.Fatal(err)
			}
			if err := f.SetSheetRow(name, at, &row); err != nil {
				t.Fatal(err)
			}
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return &out
}

func TestWorkbook(t *testing.T) {
	one := book(t, map[string][][]any{"plots": {{"variety", "yield"}, {"A", 5.25}, {"B", nil}, {"C", 1234.5}}})
	got, err := table.Read(one, "")
	if err != nil || len(got.Cells) != 4 || got.Cells[1][1] != "5.25" || got.Cells[3][1] != "1234.5" || got.Line[3] != 4 {
		t.Errorf("%q, %v", got.Cells, err)
	}
	both := map[string][][]any{"plots": {{"a"}}, "notes": {{"b"}}}
	var wrong *table.Error
	if _, err := table.Read(book(t, both), ""); !errors.As(err, &wrong) || wrong.Problem != table.ManySheets || len(wrong.Sheets) != 3 {
		t.Errorf("%v", err)
	}
	if _, err := table.Read(book(t, both), "trial"); !errors.As(err, &wrong) || wrong.Problem != table.NoSheet {
		t.Errorf("%v", err)
	}
	if got, err := table.Read(book(t, both), "notes"); err != nil || got.Cells[0][0] != "b" {
		t.Errorf("%q, %v", got.Cells, err)
	}
}

func TestRefused(t *testing.T) {
	for text, want := range map[string]table.Problem{
		"":                     table.Nothing,
		"# only a comment\n":   table.Nothing,
		"a,b\n\"1,2\n":         table.Malformed,
		"a,b\n\xff\xfe,2\n":    table.NotText,
		"PK\x03\x04 no book":   table.Malformed,
		"variety\x00yield\n1,": table.NotText,
	} {
		var wrong *table.Error
		if _, err := table.Read(strings.NewReader(text), ""); !errors.As(err, &wrong) || wrong.Problem != want || wrong.Error() == "" {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if _, err := table.Read(iotest.ErrReader(io.ErrUnexpectedEOF), ""); !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Errorf("%v, want the reader's own error", err)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("a,b\n1,2\n"))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := table.Read(bytes.NewReader(data), "")
		if err == nil && (len(got.Cells) == 0 || len(got.Cells) != len(got.Line)) {
			t.Error("neither cells nor a reason")
		}
	})
}
