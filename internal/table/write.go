package table

import (
	"io"
	"strconv"

	"github.com/xuri/excelize/v2"
)

// Named is a sheet to be written.
type Named struct {
	Name  string
	Cells [][]string
}

// Write writes a workbook. A cell that is a number is written as one; every
// other is text, whatever it begins with, so that no formula is made.
func Write(w io.Writer, sheets ...Named) (err error) {
	f := excelize.NewFile()
	defer func() {
		if e := f.Close(); err == nil {
			err = e
		}
	}()
	for i, s := range sheets {
		if i == 0 {
			err = f.SetSheetName(f.GetSheetName(0), s.Name)
		} else {
			_, err = f.NewSheet(s.Name)
		}
		if err != nil {
			return err
		}
		if err := fillSheet(f, s); err != nil {
			return err
		}
	}
	return f.Write(w)
}

func fillSheet(f *excelize.File, s Named) error {
	for y, row := range s.Cells {
		for x, text := range row {
			at, err := excelize.CoordinatesToCellName(x+1, y+1)
			if err != nil {
				return err
			}
			if number, bad := strconv.ParseFloat(text, 64); bad == nil {
				err = f.SetCellFloat(s.Name, at, number, -1, 64)
			} else {
				err = f.SetCellStr(s.Name, at, text)
			}
			if err != nil {
				return err
			}
		}
	}
	return nil
}
