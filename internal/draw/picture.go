package draw

import "math"

// Picture is a drawing with what stands behind it.
type Picture struct {
	SVG   string // an <svg> element to be placed into a page
	Table Table  // the same numbers
	Says  string // what it shows, in one sentence
}

// Table is the numbers of a picture, written in the reader's form.
type Table struct {
	Head []string
	Rows [][]string
}

// Pen draws pictures for one reader.
type Pen struct {
	// Number writes a number with so many decimals in the reader's form.
	Number func(x float64, decimals int) string
}

// write is Number with a dash for what is not known.
func (p Pen) write(x float64, decimals int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "–"
	}
	return p.Number(x, decimals)
}
