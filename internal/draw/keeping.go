package draw

import "math"

// Keeping is how long each store keeps: a line from today to the day on which it
// falls below each of some levels.
type Keeping struct {
	ID, Title, Says string
	Axis            string   // what the days are counted from
	Head            []string // of the table: what; middle, early and late day of each level; the planned day
	Rows            []Kept
}

// Kept is one store.
type Kept struct {
	Name    string
	Falls   []Fall  // by level, the soonest first
	Planned float64 // day on which it is to be used, NaN where none is
	Plan    string  // the same in words
	Unknown string  // what is said where no fall is known
}

// Fall is the day on which a store falls below a level, NaN where it is not known.
type Fall struct {
	Word           string // beside the mark
	Mid, Low, High float64
}

// Sizes of a picture of keeping, in pixels, and the last day that it shows: a year
// and a half is beyond all that is planned for barley.
const (
	keepRowPx  = 74.0
	keepLinePx = 42.0 // from the top of a row to its line
	keepFootPx = 40.0
	keepUnitD  = 30.0 // an axis is never shorter
	keepMostD  = 550.0
	keepTurn   = 0.72 // share of the width beyond which words stand left of their mark
)

// Keeping draws the lines.
func (p Pen) Keeping(k Keeping) Picture {
	bottom := keepRowPx * float64(len(k.Rows))
	s := open(full, k.ID, k.Title, k.Says, bottom+keepFootPx)
	days := scale{0, k.last(), 0, 0.98}
	at, _ := ticks(0, days.to, 4)
	for _, d := range at {
		s.rule(days.at(d), 0, days.at(d), bottom, "hair")
		s.text(days.at(d), bottom+16, 0, anchored("tick", days.at(d)), p.write(d, 0))
	}
	s.text(0, bottom+34, 0, "axis", k.Axis)
	t := Table{Head: k.Head}
	for i, row := range k.Rows {
		s.kept(row, keepRowPx*float64(i), days)
		cells := []string{row.Name}
		for _, f := range row.Falls {
			cells = append(cells, p.write(f.Mid, 0), p.write(f.Low, 0), p.write(f.High, 0))
		}
		t.Rows = append(t.Rows, append(cells, p.write(row.Planned, 0)))
	}
	return Picture{SVG: s.close(), Table: t, Says: k.Says}
}

// anchored is the class of words at a share of the width: at the edges they grow
// inwards.
func anchored(class string, share float64) string {
	switch {
	case share < 0.03:
		return class
	case share > keepTurn:
		return class + " end"
	}
	return class + " mid"
}

// last is the last day shown.
func (k Keeping) last() float64 {
	days := []float64{keepUnitD}
	for _, row := range k.Rows {
		days = append(days, row.Planned)
		for _, f := range row.Falls {
			days = append(days, f.Mid, f.High)
		}
	}
	_, high := span(days)
	return min(high, keepMostD)
}

// kept draws one store.
func (s *sheet) kept(row Kept, y float64, days scale) {
	line := y + keepLinePx
	s.text(0, y+15, 0, "label strong", row.Name)
	if row.Planned <= days.to {
		at := days.at(row.Planned)
		s.rule(at, line-10, at, line+10, "moment")
		s.text(1, y+15, 0, "label end warm", row.Plan)
	}
	end, known := 0.0, false
	for _, f := range row.Falls {
		if !math.IsNaN(f.Mid) {
			end, known = max(end, min(f.Mid, days.to)), true
		}
	}
	if !known {
		s.text(0, line+4, 0, "label faint", row.Unknown)
		return
	}
	s.rule(0, line, days.at(end), line, "life")
	for i, f := range row.Falls {
		s.fall(f, line, days, i%2 == 1)
	}
}

// fall marks a level on the line of a store; below puts its word below the line.
func (s *sheet) fall(f Fall, line float64, days scale, below bool) {
	if math.IsNaN(f.Mid) {
		return
	}
	at := days.at(min(f.Mid, days.to))
	if f.Low < f.High && f.Low < days.to {
		s.rule(days.at(max(f.Low, 0)), line, days.at(min(f.High, days.to)), line, "hem-line")
	}
	if f.Mid <= days.to {
		s.rule(at, line-6, at, line+6, "limit")
	}
	y := line - 11
	if below {
		y = line + 21
	}
	s.text(at, y, 0, anchored("tick", at), f.Word)
}
