package draw

import "math"

// Keeping is how long barley keeps: one line for each silo from today on, heavy
// until the living corns fall below the first level, fine until they fall below
// the second, with the doubt of either end shaded.
type Keeping struct {
	ID, Title, Says string
	Head            []string // of the table: silo, level, early, likely, late, steep
	Axis            string   // days from today
	Steep           string   // the word at the tick
	Rows            []Keep
}

// Keep is one silo. Days that are not known are NaN.
type Keep struct {
	Name  string
	Ends  [2]KeepEnd
	Steep float64
}

// KeepEnd is the day on which a level is passed.
type KeepEnd struct {
	Word            string // such as 95 %
	Early, At, Late float64
}

// Heights of a row of keeping lines, in pixels.
const (
	keepRowPx  = 62.0
	keepLinePx = 36.0
	keepHemPx  = 6.0
)

// Keeping draws the lines.
func (p Pen) Keeping(k Keeping) Picture {
	s := open(full, k.ID, k.Title, k.Says, keepRowPx*float64(len(k.Rows))+axisPx)
	t := Table{Head: k.Head}
	x := scale{0, k.last(), 0.01, 0.97}
	for i, row := range k.Rows {
		p.keep(s, k, row, x, keepRowPx*float64(i))
		for _, e := range row.Ends {
			t.Rows = append(t.Rows, []string{row.Name, e.Word, p.write(e.Early, 0), p.write(e.At, 0), p.write(e.Late, 0), p.write(row.Steep, 0)})
		}
	}
	at, decimals := ticks(0, k.last(), 8)
	p.axis(s, at, decimals, x, keepRowPx*float64(len(k.Rows)), k.Axis)
	return Picture{SVG: s.close(), Table: t, Says: k.Says}
}

// The picture shows a month at least and four years at most.
const (
	leastKeepD = 30
	mostKeepD  = 1461
	keepRoom   = 1.05
)

// last is the day at which the picture ends.
func (k Keeping) last() float64 {
	last := float64(leastKeepD)
	for _, row := range k.Rows {
		for _, d := range []float64{row.Steep, row.Ends[0].At, row.Ends[1].At, row.Ends[0].Late, row.Ends[1].Late} {
			if !math.IsNaN(d) {
				last = max(last, d*keepRoom)
			}
		}
	}
	return min(last, mostKeepD)
}

// keep draws one silo.
func (p Pen) keep(s *sheet, k Keeping, row Keep, x scale, y float64) {
	s.text(0, y+15, 0, "label", row.Name)
	line, from, last := y+keepLinePx, 0.0, k.last()
	for i, e := range row.Ends {
		if late := e.Late; !math.IsNaN(e.Early) && e.Early < last {
			if math.IsNaN(late) {
				late = last // how late cannot be said
			}
			s.rect(x.at(e.Early), line-keepHemPx, x.at(min(late, last)), line+keepHemPx, "hem")
		}
		if math.IsNaN(e.At) {
			break
		}
		s.rule(x.at(from), line, x.at(min(e.At, last)), line, [...]string{"break", "frame"}[i])
		if e.At > last {
			break
		}
		s.rule(x.at(e.At), line-keepHemPx-3, x.at(e.At), line+keepHemPx+3, "limit")
		s.text(x.at(e.At), line+keepHemPx+15, 0, "tick mid", e.Word)
		from = e.At
	}
	if !math.IsNaN(row.Steep) {
		s.rule(x.at(row.Steep), line-keepHemPx-6, x.at(row.Steep), line+keepHemPx+6, "moment")
		s.text(x.at(row.Steep), line-keepHemPx-9, 0, "label moment-word mid", k.Steep)
	}
}
