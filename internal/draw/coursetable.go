package draw

import "math"

// mostRows is how many rows a table behind a course keeps: the whole is in
// the CSV.
const mostRows = 40

// courseTable is the lines and bands of a course at round hours.
func (p Pen) courseTable(c Course) Table {
	t := Table{Head: []string{c.HourWord}}
	type column struct {
		values   []float64
		decimals int
	}
	var columns []column
	for _, panel := range c.Panels {
		for _, l := range panel.Lines {
			t.Head = append(t.Head, panel.Title+": "+l.Word)
			columns = append(columns, column{l.Values, panel.Decimals})
		}
		for _, b := range panel.Bands {
			t.Head = append(t.Head, panel.Title+": "+b.LowWord, panel.Title+": "+b.HighWord)
			columns = append(columns, column{b.Low, panel.Decimals}, column{b.High, panel.Decimals})
		}
	}
	for _, i := range pick(c.TimeH, mostRows) {
		row := []string{p.write(c.TimeH[i], 1)}
		for _, col := range columns {
			row = append(row, p.write(col.values[i], col.decimals))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// pick chooses the moments nearest to at most n round hours, the first and
// the last among them.
func pick(timeH []float64, n int) []int {
	if len(timeH) == 0 {
		return nil
	}
	from, to := timeH[0], timeH[len(timeH)-1]
	var out []int
	add := func(i int) {
		if len(out) == 0 || out[len(out)-1] < i {
			out = append(out, i)
		}
	}
	add(0)
	i := 0
	for _, h := range hours(from, to, n) {
		for i+1 < len(timeH) && math.Abs(timeH[i+1]-h) <= math.Abs(timeH[i]-h) {
			i++
		}
		add(i)
	}
	add(len(timeH) - 1)
	return out
}
