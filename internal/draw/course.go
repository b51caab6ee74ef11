package draw

import (
	"cmp"
	"math"
)

// Course is the whole way of a piece: panels one above the other on one time
// axis, under a strip that tells the stages by hatch and word.
type Course struct {
	ID, Title, Says string
	FromH, ToH      float64
	HourWord        string // head of the first column of the table and of the axis
	Stages          []Span // named stretches, ruled through all panels
	Steps           []Span // hatched stretches of the strip
	Moments         []Moment
	Handles         []Handle // what is set by hand
	TimeH           []float64
	Panels          []Panel
}

// Span is a stretch of time.
type Span struct {
	FromH, ToH float64
	Hatch      Hatch
	Word       string
}

// Moment is one instant that matters, drawn through all panels.
type Moment struct {
	AtH  float64
	Word string
}

// Panel is a set of lines on one scale. All have a value, or NaN, for each
// moment of the course.
type Panel struct {
	Title    string // the quantity and its unit
	HeightPx float64
	Decimals int
	FromZero bool
	Bands    []Band
	Lines    []Line
	Points   []Point // what was measured
}

// Point is one value that was measured.
type Point struct{ AtH, Value float64 }

// Line is a value over time.
type Line struct {
	Word   string
	Values []float64
	Stroke Stroke
}

// Band is what lies between two values over time: worst and best beside the
// mean.
type Band struct {
	Low, High         []float64
	LowWord, HighWord string // heads of the columns of the table
	Word              string // what the band is, beside it
	Hem               bool   // of odds, not of places: drawn in the accent
}

// Stroke is how a line is drawn.
type Stroke string

// The strokes.
const (
	Solid  Stroke = "solid"
	Fine   Stroke = "fine"
	Dashed Stroke = "dashed"
	Accent Stroke = "accent"
)

// Heights of the parts of a course, in pixels.
const (
	stripWordsPx = 18.0
	stripPx      = 14.0
	panelHeadPx  = 36.0
	panelPx      = 120.0
	axisPx       = 34.0
)

// Course draws the way of a piece.
func (p Pen) Course(c Course) Picture {
	top := 0.0 // where the panels begin
	if len(c.Stages)+len(c.Steps) > 0 {
		top = stripWordsPx + stripPx
	}
	pegsAt := top
	top += c.pegsPx()
	height := top
	for _, panel := range c.Panels {
		height += panelHeadPx + cmp.Or(panel.HeightPx, panelPx)
	}
	hatches := []Hatch{}
	for _, s := range c.Steps {
		hatches = append(hatches, s.Hatch)
	}
	class := withAxis
	if len(c.Handles) > 0 {
		class = handled
	}
	s := open(class, c.ID, c.Title, c.Says, height+axisPx, hatches...)
	x := scale{c.FromH, c.ToH, 0, 1}
	if pegsAt > 0 {
		s.strip(c, x)
	}
	y := top
	for _, panel := range c.Panels {
		y += panelHeadPx
		h := cmp.Or(panel.HeightPx, panelPx)
		p.panel(s, c, panel, x, y, h)
		y += h
	}
	s.through(c, x, stripWordsPx+c.pegsPx(), y)
	s.pegs(c, x, pegsAt, y)
	p.hourAxis(s, c.FromH, c.ToH, x, y, c.HourWord)
	return Picture{SVG: s.close(), Table: p.courseTable(c), Says: c.Says}
}

// strip draws the stages: their words, and below them the hatch of each step.
func (s *sheet) strip(c Course, x scale) {
	for _, st := range c.Stages {
		s.text(x.at(st.FromH), stripWordsPx-6, 0, "stage", st.Word)
	}
	for _, st := range c.Steps {
		s.hatched(x.at(st.FromH), stripWordsPx, x.at(st.ToH), stripWordsPx+stripPx, st.Hatch)
		s.rule(x.at(st.ToH), stripWordsPx, x.at(st.ToH), stripWordsPx+stripPx, "hair")
	}
	s.rule(0, stripWordsPx, 1, stripWordsPx, "frame")
	s.rule(0, stripWordsPx+stripPx, 1, stripWordsPx+stripPx, "frame")
}

// through rules the starts of stages and the moments down all panels.
func (s *sheet) through(c Course, x scale, from, to float64) {
	for i, st := range c.Stages {
		if i > 0 {
			s.rule(x.at(st.FromH), from, x.at(st.FromH), to, "seam")
		}
	}
	for _, m := range c.Moments {
		if !(m.AtH >= c.FromH && m.AtH <= c.ToH) {
			continue
		}
		at := x.at(m.AtH)
		s.rule(at, from+stripPx, at, to, "moment")
		s.sided(at, from+stripPx+12, 5, "label moment-word", m.Word)
	}
}

// sided writes a word beside a place, on the side that has room.
func (s *sheet) sided(share, y, gap float64, class, words string) {
	if share > 0.75 {
		s.text(share, y, -gap, class+" end", words)
		return
	}
	s.text(share, y, gap, class, words)
}

// panel draws one set of lines with its scale.
func (p Pen) panel(s *sheet, c Course, panel Panel, x scale, y, h float64) {
	s.text(0, y-10, -gutterPx, "title", panel.Title)
	low, high := panel.bounds()
	if math.IsNaN(low) {
		return
	}
	at, decimals := ticks(low, high, 4)
	sy := scale{low, high, h, 0}
	sx := scale{x.from, x.to, 0, wide}
	for _, t := range at {
		s.rule(0, y+sy.at(t), 1, y+sy.at(t), "hair")
		s.text(0, y+sy.at(t)+4, -6, "tick end", p.write(t, max(decimals, 0)))
	}
	s.plot(y, h)
	for _, b := range panel.Bands {
		s.band(c.TimeH, b, sx, sy)
	}
	for _, l := range panel.Lines {
		for _, run := range runs(c.TimeH, l.Values, sx, sy) {
			s.path(run, false, "line "+string(l.Stroke))
		}
	}
	s.endPlot()
	for _, d := range panel.Points {
		if d.AtH >= c.FromH && d.AtH <= c.ToH && !math.IsNaN(d.Value) {
			s.f(`<circle cx="%s" cy="%s" r="4" class="mark"/>`, percent(x.at(d.AtH)), px(y+sy.at(d.Value)))
		}
	}
	s.lineWords(c.TimeH, panel, sx, sy, y)
}

// bounds is the least and greatest value of a panel, with a little air.
func (panel Panel) bounds() (low, high float64) {
	all := make([][]float64, 0, len(panel.Lines)+2*len(panel.Bands))
	for _, l := range panel.Lines {
		all = append(all, l.Values)
	}
	for _, b := range panel.Bands {
		all = append(all, b.Low, b.High)
	}
	points := make([]float64, len(panel.Points))
	for i, d := range panel.Points {
		points[i] = d.Value
	}
	low, high = span(append(all, points)...)
	if panel.FromZero {
		low = min(low, 0)
	}
	if low == high {
		return low - 1, high + 1
	}
	air := 0.06 * (high - low)
	if panel.FromZero && low == 0 {
		return low, high + air
	}
	return low - air, high + air
}

// band fills what lies between two values.
func (s *sheet) band(timeH []float64, b Band, sx, sy scale) {
	n := len(timeH)
	for from := 0; from < n; from++ {
		if math.IsNaN(b.Low[from]) || math.IsNaN(b.High[from]) {
			continue
		}
		to := from
		for to < n && !math.IsNaN(b.Low[to]) && !math.IsNaN(b.High[to]) {
			to++
		}
		up := runs(timeH[from:to], b.High[from:to], sx, sy)
		down := runs(timeH[from:to], b.Low[from:to], sx, sy)
		if len(up) == 1 && len(down) == 1 {
			ring := up[0]
			for i := len(down[0]) - 1; i >= 0; i-- {
				ring = append(ring, down[0][i])
			}
			class := "band"
			if b.Hem {
				class = "band hem"
			}
			s.path(ring, true, class)
		}
		from = to
	}
}

// hourAxis writes the hours under a plot; every other one is left out where
// the page is narrow.
func (p Pen) hourAxis(s *sheet, fromH, toH float64, x scale, y float64, word string) {
	s.rule(0, y, 1, y, "frame")
	for i, h := range hours(fromH, toH, 10) {
		class := "tick mid"
		if i%2 == 1 {
			class += " wide-only"
		}
		s.rule(x.at(h), y, x.at(h), y+4, "frame")
		s.text(x.at(h), y+17, 0, class, p.write(h, 0))
	}
	s.text(1, y+31, 0, "axis end", word)
}
