package draw

import (
	"math"
	"slices"
	"unicode/utf8"
)

// Control is the readings of a check sample in time against their limits, and below
// them two cumulative sums against theirs.
type Control struct {
	ID, Title, Says string
	Head            []string
	Rows            [][]string // of the table
	Readings        []ControlReading
	Stretches       []Stretch
	Days            []ControlDay // for the axis
	Sum             string       // what the sums are
	SumMost         float64      // their limit
	Decimals        int
}

// ControlReading is one reading, NaN where it is missing.
type ControlReading struct {
	Day, Value float64
	Up, Down   float64 // the sums, both from zero on
	Out        bool    // drawn open
	Event      string  // written where it stands
}

// Stretch is a part of the time with one centre and its limits; Act is NaN where
// there are none.
type Stretch struct {
	From, To          float64
	Centre, Warn, Act float64
	Word              string
}

// ControlDay is a day with its word.
type ControlDay struct {
	Day  float64
	Word string
}

// Heights of the parts of a picture of control, in pixels.
const (
	controlHeadPx = 20.0
	controlPx     = 190.0
	controlGapPx  = 34.0
	sumPx         = 90.0
	controlFootPx = 24.0
	controlEdge   = 0.015 // of the width, left free on either side
)

// Control draws the readings.
func (p Pen) Control(c Control) Picture {
	top, sumTop := controlHeadPx, controlHeadPx+controlPx+controlGapPx
	bottom := sumTop + sumPx
	s := open(withAxis, c.ID, c.Title, c.Says, bottom+controlFootPx)
	days := make([]float64, len(c.Readings))
	for i, r := range c.Readings {
		days[i] = r.Day
	}
	from, to := span(days)
	x := scale{from, to, controlEdge, 1 - controlEdge}
	y := c.scale(top)
	p.controlTicks(s, y)
	for i, t := range c.Stretches {
		s.stretch(t, x, y, i > 0, top)
	}
	c.line(s, x, y)
	p.sums(s, c, x, sumTop)
	for _, d := range c.Days {
		s.text(x.at(d.Day), bottom+16, 0, "tick mid", d.Word)
		s.rule(x.at(d.Day), bottom, x.at(d.Day), bottom+4, "frame")
	}
	return Picture{SVG: s.close(), Table: Table{Head: c.Head, Rows: c.Rows}, Says: c.Says}
}

// scale holds all readings and limits.
func (c Control) scale(top float64) scale {
	var all []float64
	for _, r := range c.Readings {
		all = append(all, r.Value)
	}
	for _, t := range c.Stretches {
		all = append(all, t.Centre-t.Act, t.Centre+t.Act)
	}
	low, high := span(all)
	if math.IsNaN(low) {
		low, high = 0, 1
	}
	room := 0.06 * (high - low)
	if room == 0 {
		room = 1
	}
	return scale{low - room, high + room, top + controlPx, top}
}

func (p Pen) controlTicks(s *sheet, y scale) {
	at, decimals := ticks(y.from, y.to, 5)
	for _, v := range at {
		s.rule(0, y.at(v), 1, y.at(v), "hair")
		s.text(0, y.at(v)+4, -6, "tick end", p.write(v, decimals))
	}
}

// stretch draws centre and limits; where it begins anew a line says so.
func (s *sheet) stretch(t Stretch, x, y scale, anew bool, top float64) {
	from, to := x.at(t.From), x.at(t.To)
	if anew {
		s.rule(from, top-4, from, top+controlPx, "turn")
	}
	s.beside(from, top-8, "tick", t.Word)
	if math.IsNaN(t.Act) || math.IsNaN(t.Centre) {
		return
	}
	s.rule(from, y.at(t.Centre), to, y.at(t.Centre), "frame")
	for _, side := range [2]float64{-1, 1} {
		s.rule(from, y.at(t.Centre+side*t.Warn), to, y.at(t.Centre+side*t.Warn), "seam")
		s.rule(from, y.at(t.Centre+side*t.Act), to, y.at(t.Centre+side*t.Act), "turn")
	}
}

// line joins the readings and marks them.
func (c Control) line(s *sheet, x, y scale) {
	last := -1
	for i, r := range c.Readings {
		if math.IsNaN(r.Value) {
			continue
		}
		if last >= 0 {
			b := c.Readings[last]
			s.rule(x.at(b.Day), y.at(b.Value), x.at(r.Day), y.at(r.Value), "line fine")
		}
		last = i
	}
	for _, r := range c.Readings {
		if r.Event != "" {
			s.rule(x.at(r.Day), y.placeTo, x.at(r.Day), y.placeFrom, "moment")
			s.beside(x.at(r.Day), y.placeFrom+14, "axis moment-word", r.Event)
		}
		if math.IsNaN(r.Value) {
			continue
		}
		class := "mark"
		if r.Out {
			class = "mark out"
		}
		s.f(`<circle cx="%s" cy="%s" r="3.6" class="%s"/>`, percent(x.at(r.Day)), px(y.at(r.Value)), class)
	}
}

// begins reports whether limits begin anew on a day.
func (c Control) begins(day float64) bool {
	return slices.ContainsFunc(c.Stretches, func(t Stretch) bool { return t.From == day })
}

// beside writes a word behind a place, or before it where it would leave the picture.
func (s *sheet) beside(share, y float64, class, word string) {
	if share+letterShare*float64(utf8.RuneCountInString(word)) > 1 {
		s.text(share, y, -3, class+" end", word)
		return
	}
	s.text(share, y, 3, class, word)
}

// sums draws both sums, the one below the centre downwards.
func (p Pen) sums(s *sheet, c Control, x scale, top float64) {
	most := c.SumMost
	for _, r := range c.Readings {
		most = max(most, r.Up, r.Down)
	}
	y := scale{-1.08 * most, 1.08 * most, top + sumPx, top}
	s.text(0, top-6, 0, "tick", c.Sum)
	s.rule(0, y.at(0), 1, y.at(0), "hair")
	for _, v := range [2]float64{-c.SumMost, c.SumMost} {
		s.rule(0, y.at(v), 1, y.at(v), "turn")
		s.text(0, y.at(v)+4, -6, "tick end", p.write(v, 0))
	}
	for i := 1; i < len(c.Readings); i++ {
		a, b := c.Readings[i-1], c.Readings[i]
		if c.begins(b.Day) {
			continue
		}
		s.rule(x.at(a.Day), y.at(a.Up), x.at(b.Day), y.at(b.Up), "line")
		s.rule(x.at(a.Day), y.at(-a.Down), x.at(b.Day), y.at(-b.Down), "line")
	}
}
