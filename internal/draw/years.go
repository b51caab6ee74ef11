package draw

import "math"

// Years is how figures went from one season to the next, a row for each figure.
type Years struct {
	ID, Title, Says string
	Head            []string // of the table: figure, then each season
	Seasons         []string
	Rows            []YearRow
}

// YearRow is one figure: its value in each season with the ends of its interval,
// NaN where there is none.
type YearRow struct {
	Name             string
	Value, Low, High []float64
	Decimals         int
}

// Heights of a row of years, in pixels.
const (
	yearRowPx  = 84.0
	yearHeadPx = 22.0
	yearLinePx = 44.0
	yearFootPx = 26.0
)

// Years draws the figures.
func (p Pen) Years(y Years) Picture {
	s := open(full, y.ID, y.Title, y.Says, yearRowPx*float64(len(y.Rows))+yearFootPx)
	t := Table{Head: y.Head}
	at := func(i int) float64 { return 0.1 + 0.8*(float64(i)+0.5)/float64(max(len(y.Seasons), 1)) }
	for k, row := range y.Rows {
		p.yearRow(s, row, yearRowPx*float64(k), at)
		cells := []string{row.Name}
		for _, v := range row.Value {
			cells = append(cells, p.write(v, row.Decimals))
		}
		t.Rows = append(t.Rows, cells)
	}
	for i, season := range y.Seasons {
		s.text(at(i), yearRowPx*float64(len(y.Rows))+14, 0, "tick mid", season)
	}
	return Picture{SVG: s.close(), Table: t, Says: y.Says}
}

func (p Pen) yearRow(s *sheet, row YearRow, y float64, at func(int) float64) {
	s.text(0, y+14, 0, "label", row.Name)
	low, high := span(row.Value, row.Low, row.High)
	if math.IsNaN(low) {
		return
	}
	if high == low {
		low, high = low-1, high+1
	}
	place := scale{low, high, y + yearHeadPx + yearLinePx, y + yearHeadPx}
	last := -1
	for i, v := range row.Value {
		if math.IsNaN(v) {
			continue
		}
		if last >= 0 {
			s.rule(at(last), place.at(row.Value[last]), at(i), place.at(v), "frame")
		}
		last = i
	}
	for i, v := range row.Value {
		if math.IsNaN(v) {
			continue
		}
		if !math.IsNaN(row.Low[i]) && !math.IsNaN(row.High[i]) {
			s.rule(at(i), place.at(row.Low[i]), at(i), place.at(row.High[i]), "limit")
		}
		s.f(`<circle cx="%s" cy="%s" r="4.5" class="mark"/>`, percent(at(i)), px(place.at(v)))
		if i == 0 && len(row.Value) > 1 {
			s.text(at(i), place.at(v)+4, -10, "label strong end", p.write(v, row.Decimals))
			continue
		}
		s.text(at(i), place.at(v)+4, 10, "label strong", p.write(v, row.Decimals))
	}
	s.rule(0, y+yearRowPx-4, 1, y+yearRowPx-4, "hair")
}
