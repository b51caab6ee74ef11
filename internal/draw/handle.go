package draw

import (
	"fmt"
	"strconv"
)

// Handle is a moment of a course that somebody sets: a peg under the strip of
// steps, which a script lets be pulled along the hours. One that nobody can
// pull is drawn open and says why.
type Handle struct {
	AtH, FromH    float64 // where it stands, and from where its field counts
	LeastH, MostH float64 // how much its field may say
	Field         string  // of the form that gives it; "" of one that cannot be pulled
	Word          string  // what falls there
	Says          string  // the same with its hour, or why it cannot be pulled
}

// Sizes of the row of pegs, in pixels, how near two may stand on one level as a
// share of the width, and how many levels there are.
const (
	pegPx      = 15.0
	pegReachPx = 24.0 // that answers to a finger
	pegWordPx  = 18.0
	pegShape   = "M0 0L5.5 5V13H-5.5V5Z"
	pegApart   = 0.045
	mostLevels = 3
)

// levels puts each peg on the first level that has room for it.
func (c Course) levels() (of []int, count int) {
	x, last := scale{c.FromH, c.ToH, 0, 1}, [mostLevels]float64{-1, -1, -1}
	for _, h := range c.Handles {
		at, best := x.at(h.AtH), -1
		for l := range last {
			if best < 0 && at-last[l] >= pegApart {
				best = l
			}
		}
		if best < 0 {
			best = mostLevels - 1
		}
		last[best] = at
		of, count = append(of, best), max(count, best+1)
	}
	return of, count
}

// pegsPx is how high the row of pegs is.
func (c Course) pegsPx() float64 {
	if len(c.Handles) == 0 {
		return 0
	}
	_, n := c.levels()
	return float64(n)*pegPx + pegWordPx
}

// pegs draws the handles below a height, their rules down to the end of the
// panels. What a script needs to pull them stands in their data; without it
// they are marks.
func (s *sheet) pegs(c Course, x scale, from, to float64) {
	hour := func(h float64) string { return strconv.FormatFloat(h, 'f', 4, 64) }
	of, n := c.levels()
	for i, h := range c.Handles {
		y, class, data := from+float64(of[i])*pegPx, "peg fixed", ""
		if h.Field != "" {
			class = "peg"
			data = fmt.Sprintf(` data-field="%s" data-at="%s" data-from="%s" data-least="%s" data-most="%s" data-span="%s"`,
				escape(h.Field), hour(h.AtH), hour(h.FromH), hour(h.LeastH), hour(h.MostH), hour(c.ToH-c.FromH))
		}
		s.f(`<svg x="%s" overflow="visible" class="%s" data-word="%s" data-says="%s"%s>`, percent(x.at(h.AtH)), class, escape(h.Word), escape(h.Says), data)
		s.f(`<line y1="%s" y2="%s" class="pull"/>`, px(from), px(to))
		s.f(`<rect x="%s" y="%s" width="%s" height="%s" class="reach"><title>%s</title></rect>`, px(-pegReachPx/2), px(y-4), px(pegReachPx), px(pegReachPx), escape(h.Says))
		s.f(`<path transform="translate(0 %s)" d="%s"/>`, px(y), pegShape)
		class = "label peg-word"
		if x.at(h.AtH) > 0.5 {
			class += " end"
		}
		s.f(`<text y="%s" class="%s">%s</text></svg>`, px(from+float64(n)*pegPx+12), class, escape(h.Says))
	}
}
