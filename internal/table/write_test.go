package table

import (
	"bytes"
	"slices"
	"testing"
)

// TestWorkbooksAreReadBack writes a workbook and reads it with the reader that
// reads those of others.
func TestWorkbooksAreReadBack(t *testing.T) {
	rows := [][]string{{"line", "dry_kg_dm"}, {"barley", "74448.001"}, {"=1+1", "-12.5"}}
	var b bytes.Buffer
	if err := Write(&b, Named{"balance", rows}, Named{"empty", nil}); err != nil {
		t.Fatal(err)
	}
	back, err := Read(bytes.NewReader(b.Bytes()), "balance")
	if err != nil {
		t.Fatal(err)
	}
	for i := range rows {
		if !slices.Equal(back.Cells[i], rows[i]) {
			t.Errorf("row %d is %q, want %q", i, back.Cells[i], rows[i])
		}
	}
}
