package draw

import (
	"math"
	"strconv"
)

// Series is one quantity in time, as stretches with their least, mean and most:
// a band from least to most, and the mean as a line. A page that has a script
// can be asked to look closer at it: Look says where.
type Series struct {
	ID, Title, Says string
	Head            []string // of the table
	Rows            [][]string
	FromMs, ToMs    int64 // the part that is shown
	EveryMs, GapMs  int64
	AtMs            []int64
	Least, Mean     []float64
	Most            []float64
	Ticks           []TimeTick
	Look            []Attribute
}

// TimeTick is a moment on the axis with its word.
type TimeTick struct {
	AtMs int64
	Word string
}

// Attribute is something a script is told.
type Attribute struct{ Name, Value string }

// Heights of a series, in pixels.
const (
	seriesHeadPx = 8.0
	seriesPx     = 230.0
	seriesFootPx = 30.0
)

// Series draws the stretches.
func (p Pen) Series(c Series) Picture {
	bottom := seriesHeadPx + seriesPx
	s := open(withAxis+" seen", c.ID, c.Title, c.Says, bottom+seriesFootPx)
	low, high := span(c.Least, c.Most)
	low, high = roomFor(low, high)
	y := scale{low, high, seriesPx, 0}
	x := scale{float64(c.FromMs), float64(c.ToMs), 0, 1}
	s.f(`<g class="down">`)
	if !math.IsNaN(low) {
		at, decimals := ticks(low, high, 5)
		for _, v := range at {
			s.rule(0, seriesHeadPx+y.at(v), 1, seriesHeadPx+y.at(v), "hair")
			s.text(0, seriesHeadPx+y.at(v)+4, -6, "tick end", p.write(v, decimals))
		}
	}
	s.f(`</g><g class="across">`)
	for _, t := range c.Ticks {
		at := x.at(float64(t.AtMs))
		s.rule(at, seriesHeadPx, at, bottom, "hair")
		s.text(at, bottom+18, 0, anchored("tick", at), t.Word)
	}
	s.f(`</g>`)
	s.rule(0, bottom, 1, bottom, "frame")
	s.plot(seriesHeadPx, seriesPx)
	s.f(`<g class="trace"`)
	for _, a := range c.Look {
		s.f(` data-%s="%s"`, a.Name, escape(a.Value))
	}
	s.f(`>`)
	if !math.IsNaN(low) {
		s.stretches(c, scale{x.from, x.to, 0, wide}, y)
	}
	s.f(`</g>`)
	s.endPlot()
	return Picture{SVG: s.close(), Table: Table{Head: c.Head, Rows: c.Rows}, Says: c.Says}
}

// roomFor widens a range to round values, so that a flat line lies in the
// middle.
func roomFor(low, high float64) (float64, float64) {
	if math.IsNaN(low) {
		return low, high
	}
	if high-low < 1e-9*max(1, math.Abs(high)) {
		low, high = low-0.5, high+0.5
	}
	step, _ := roundStep((high - low) / 5)
	return math.Floor(low/step+1e-9) * step, math.Ceil(high/step-1e-9) * step
}

// stretches draws the band and the line of each run without a gap.
func (s *sheet) stretches(c Series, x, y scale) {
	var top, foot, mean []point
	end := func() {
		for i := len(foot) - 1; i >= 0; i-- {
			top = append(top, foot[i])
		}
		s.path(top, true, "band")
		s.path(mean, false, "line fine")
		if len(mean) == 1 { // one reading alone is a short stroke
			s.f(`<path d="M%s %sh%s" class="line"/>`, px(mean[0].x-1), px(mean[0].y), strconv.Itoa(2))
		}
		top, foot, mean = nil, nil, nil
	}
	for i, at := range c.AtMs {
		if i > 0 && at-c.AtMs[i-1] > c.GapMs {
			end()
		}
		mid := x.at(float64(at) + float64(c.EveryMs)/2)
		top, foot = append(top, point{mid, y.at(c.Most[i])}), append(foot, point{mid, y.at(c.Least[i])})
		mean = append(mean, point{mid, y.at(c.Mean[i])})
	}
	end()
}
