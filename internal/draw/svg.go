package draw

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
)

// wide is the width of a plot in its own units. A plot is stretched to the
// width of the page; strokes and letters are not.
const wide = 1000.0

// gutterPx is the room left of a plot for the figures of its axis; Style
// gives it as a margin.
const gutterPx = 40

// sheet is an SVG being written.
type sheet struct {
	strings.Builder
	id string
}

// Classes of pictures: with a gutter for an axis, over the full width, or with
// an axis and marks that can be pulled.
const (
	withAxis = "awn"
	full     = "awn full"
	handled  = "awn handled"
)

// open begins a picture of a given height in pixels. The id keeps the names
// of its parts apart from those of other pictures on the page.
func open(class, id, title, says string, heightPx float64, hatches ...Hatch) *sheet {
	s, role := &sheet{id: id}, "img"
	if class == handled {
		role = "group" // an image hides what is in it from those who do not see
	}
	s.f(`<svg xmlns="http://www.w3.org/2000/svg" class="%s" role="%s" aria-labelledby="%s-t %s-d" width="100%%" height="%s">`,
		class, role, id, id, px(heightPx))
	s.f(`<title id="%s-t">%s</title><desc id="%s-d">%s</desc>`, id, escape(title), id, escape(says))
	s.patterns(hatches)
	return s
}

// close ends the picture.
func (s *sheet) close() string {
	s.f(`</svg>`)
	return s.String()
}

func (s *sheet) f(format string, a ...any) { fmt.Fprintf(s, format, a...) }

// text writes words at a share of the width and a height in pixels, moved by
// dx pixels.
func (s *sheet) text(share, y, dx float64, class, words string) {
	s.f(`<text x="%s" y="%s"`, percent(share), px(y))
	if dx != 0 {
		s.f(` dx="%s"`, px(dx))
	}
	s.f(` class="%s">%s</text>`, class, escape(words))
}

// rule draws a straight line between two shares of the width.
func (s *sheet) rule(share1, y1, share2, y2 float64, class string) {
	s.f(`<line x1="%s" y1="%s" x2="%s" y2="%s" class="%s"/>`, percent(share1), px(y1), percent(share2), px(y2), class)
}

// rect draws a rectangle; fill is a class, and hatch, if any, lies over it.
func (s *sheet) rect(share1, y1, share2, y2 float64, class string) {
	s.f(`<rect x="%s" y="%s" width="%s" height="%s" class="%s"/>`,
		percent(share1), px(y1), percent(share2-share1), px(y2-y1), class)
}

// hatched draws a rectangle filled with a hatch.
func (s *sheet) hatched(share1, y1, share2, y2 float64, h Hatch) {
	if h == Plain {
		return
	}
	s.f(`<rect x="%s" y="%s" width="%s" height="%s" fill="url(#%s-%s)"/>`,
		percent(share1), px(y1), percent(share2-share1), px(y2-y1), s.id, h)
}

// plot begins a part that is stretched to the width: wide units across,
// height units down.
func (s *sheet) plot(y, height float64) {
	s.f(`<svg x="0" y="%s" width="100%%" height="%s" viewBox="0 0 %s %s" preserveAspectRatio="none" class="plot">`,
		px(y), px(height), px(wide), px(height))
}

func (s *sheet) endPlot() { s.f(`</svg>`) }

// path draws a line through points of a plot; a closed one is filled by class.
func (s *sheet) path(pts []point, closed bool, class string) {
	if len(pts) < 2 {
		return
	}
	s.f(`<path d="%s" class="%s"/>`, trace(pts, closed), class)
}

// trace is the path data of points.
func trace(pts []point, closed bool) string {
	var b strings.Builder
	for i, p := range pts {
		if i == 0 {
			b.WriteByte('M')
		} else {
			b.WriteByte('L')
		}
		b.WriteString(px(p.x))
		b.WriteByte(' ')
		b.WriteString(px(p.y))
	}
	if closed {
		b.WriteByte('Z')
	}
	return b.String()
}

// px writes a length to a tenth of a pixel, without trailing zeros.
func px(x float64) string {
	x = math.Round(x*10) / 10
	if x == 0 {
		x = 0 // no minus zero
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// percent writes a share of the width.
func percent(share float64) string {
	return strconv.FormatFloat(math.Round(share*1e4)/100, 'f', -1, 64) + "%"
}

func escape(s string) string { return html.EscapeString(s) }
