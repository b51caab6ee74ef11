package draw

import (
	"math"
	"slices"
)

// Sections is a silo cut through, once or several times side by side, with what is
// known at each depth.
type Sections struct {
	ID, Title, Says string
	Depth           string   // over the axis
	Head            []string // of the table: which cut, depth, then the columns of the marks
	Cuts            []Section
}

// Section is the silo at one time.
type Section struct {
	Word  string // over it
	Marks []DepthMark
}

// DepthMark is what is known at one depth, 0 at the top of the grain, 1 at the floor.
type DepthMark struct {
	Share  float64
	Depth  string // in words
	Word   string // written into the grain
	Cells  []string
	Accent bool // the warmest
}

// Sizes of a silo, in pixels, and the shares of its column that its walls stand at.
const (
	siloHeadPx  = 26.0
	siloRoofPx  = 34.0
	siloGrainPx = 250.0
	siloFootPx  = 16.0
	siloLinePx  = 17.0 // least distance of words
	siloFrom    = 0.06
	siloTo      = 0.9
)

// Sections draws the silo.
func (p Pen) Sections(c Sections) Picture {
	top := siloHeadPx + siloRoofPx
	s := open(withAxis, c.ID, c.Title, c.Says, top+siloGrainPx+siloFootPx)
	t := Table{Head: c.Head}
	s.plot(siloHeadPx, siloRoofPx+siloGrainPx)
	for i := range c.Cuts {
		from, to := c.walls(i)
		from, to = wide*from, wide*to
		floor := siloRoofPx + siloGrainPx
		s.path([]point{{from, siloRoofPx}, {(from + to) / 2, 2}, {to, siloRoofPx}}, false, "line fine")
		s.path([]point{{from, siloRoofPx}, {from, floor}, {to, floor}, {to, siloRoofPx}}, true, "tint warm")
		s.path([]point{{from, siloRoofPx}, {from, floor - 1}, {to, floor - 1}, {to, siloRoofPx}}, false, "line")
	}
	s.endPlot()
	for i, cut := range c.Cuts {
		from, to := c.walls(i)
		s.text(from, 14, 0, "tick", cut.Word)
		s.cut(cut, from, to, top, i == 0)
		for _, m := range cut.Marks {
			t.Rows = append(t.Rows, append([]string{cut.Word, m.Depth}, m.Cells...))
		}
	}
	if len(c.Cuts) > 0 {
		s.text(0, top-6, -6, "axis end", c.Depth)
	}
	return Picture{SVG: s.close(), Table: t, Says: c.Says}
}

// walls are where a silo stands, as shares of the width.
func (c Sections) walls(i int) (from, to float64) {
	each := 1 / float64(len(c.Cuts))
	return each * (float64(i) + siloFrom), each * (float64(i) + siloTo)
}

// cut writes what is known into the grain. Words that would lie on one another move
// down; their depth is the line beside them.
func (s *sheet) cut(cut Section, from, to, top float64, axis bool) {
	marks := slices.Clone(cut.Marks)
	slices.SortStableFunc(marks, func(a, b DepthMark) int {
		if a.Share < b.Share {
			return -1
		}
		return 1
	})
	last := math.Inf(-1)
	for _, m := range marks {
		if math.IsNaN(m.Share) {
			continue
		}
		at := top + siloGrainPx*min(max(m.Share, 0), 1)
		s.rule(from, at, from+0.12*(to-from), at, "frame")
		y := max(at, last+siloLinePx)
		last = y
		class := "label mid"
		if m.Accent {
			class = "label strong warm mid"
		}
		s.text((from+to)/2+0.03, y+4, 0, class, m.Word)
		if axis {
			s.text(0, y+4, -6, "tick end", m.Depth)
		}
	}
}
