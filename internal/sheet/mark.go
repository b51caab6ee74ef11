package sheet

import (
	"fmt"

	"github.com/boombuler/barcode/qr"
)

// QR prints a text as a QR code in the upper right corner of the first page,
// of a side in millimetres. Text that is written after it keeps clear of it.
func (s *Sheet) QR(text string, sideMm float64) {
	code, err := qr.Encode(text, qr.M, qr.Auto)
	if err != nil {
		s.pdf.SetError(fmt.Errorf("QR code of %d letters: %w", len(text), err))
		return
	}
	n := code.Bounds().Dx()
	side := sideMm / float64(n)
	s.mark = sideMm
	left := marginMm + s.wide - sideMm
	for y := range n {
		for x := 0; x < n; x++ {
			run := 0
			for x+run < n && dark(code.At(x+run, y).RGBA()) {
				run++
			}
			if run > 0 { // one bar for each run, so that no hairline parts its modules
				s.pdf.Rect(left+float64(x)*side, marginMm+float64(y)*side, float64(run)*side, side, "F")
				x += run
			}
		}
	}
}

func dark(r, _, _, _ uint32) bool { return r < 0x8000 }

// across is the width of a line at the present height.
func (s *Sheet) across() float64 {
	if s.mark > 0 && s.pdf.PageNo() == 1 && s.pdf.GetY() < marginMm+s.mark {
		return s.wide - s.mark - 2*gapMm
	}
	return s.wide
}
