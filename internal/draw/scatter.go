package draw

import (
	"cmp"
	"math"
	"slices"
	"unicode/utf8"
)

// Scatter is things as places on two axes that cross at zero, drawn to one scale
// so that angles hold.
type Scatter struct {
	ID, Title, Says string
	Across, Up      string // words of the axes
	Head            []string
	Dots            []Dot
	Decimals        int
	OwnScales       bool // the axes have nothing to do with each other
}

// Dot is one thing on a scatter. A ray runs to it from where the axes cross.
type Dot struct {
	Word string
	X, Y float64
	Ray  bool
	Open bool
	Note string // for the table
}

// Sizes of a scatter, in its own units, which are pixels on a narrow page.
const (
	scatterPx  = 400.0
	scatterPad = 34.0
	letterPx   = 6.3  // width of a letter of a label, at a guess
	labelPx    = 12.0 // height
)

// Scatter draws the things. Of labels that would lie on each other those of the
// outermost things are kept; the table has all.
func (p Pen) Scatter(c Scatter) Picture {
	s := &sheet{id: c.ID}
	s.f(`<svg xmlns="http://www.w3.org/2000/svg" class="awn square" role="img" aria-labelledby="%s-t %s-d" viewBox="0 0 %s %s">`,
		c.ID, c.ID, px(scatterPx), px(scatterPx))
	s.f(`<title id="%s-t">%s</title><desc id="%s-d">%s</desc>`, c.ID, escape(c.Title), c.ID, escape(c.Says))
	x, y := c.scales()
	s.f(`<line x1="%s" y1="%s" x2="%s" y2="%s" class="seam"/>`, px(scatterPad/2), px(y.at(0)), px(scatterPx-scatterPad/2), px(y.at(0)))
	s.f(`<line x1="%s" y1="%s" x2="%s" y2="%s" class="seam"/>`, px(x.at(0)), px(scatterPad/2), px(x.at(0)), px(scatterPx-scatterPad))
	s.f(`<text x="%s" y="%s" class="axis end">%s →</text>`, px(scatterPx-2), px(scatterPx-8), escape(c.Across))
	s.f(`<text x="2" y="12" class="axis">↑ %s</text>`, escape(c.Up))
	t := Table{Head: c.Head}
	for _, d := range c.Dots {
		row := []string{d.Word, p.write(d.X, c.Decimals), p.write(d.Y, c.Decimals)}
		if d.Note != "" {
			row = append(row, d.Note)
		}
		t.Rows = append(t.Rows, row)
		if math.IsNaN(d.X + d.Y) {
			continue
		}
		switch {
		case d.Ray:
			s.f(`<line x1="%s" y1="%s" x2="%s" y2="%s" class="ray"/>`, px(x.at(0)), px(y.at(0)), px(x.at(d.X)), px(y.at(d.Y)))
		case d.Open:
			s.f(`<circle cx="%s" cy="%s" r="4" class="mark out"/>`, px(x.at(d.X)), px(y.at(d.Y)))
		default:
			s.f(`<circle cx="%s" cy="%s" r="4.5" class="mark"/>`, px(x.at(d.X)), px(y.at(d.Y)))
		}
	}
	s.labels(c.Dots, x, y)
	return Picture{SVG: s.close(), Table: t, Says: c.Says}
}

// scales carry values to places: both at one size of unit, unless the axes are of
// two kinds.
func (c Scatter) scales() (x, y scale) {
	xs, ys := []float64{0}, []float64{0}
	for _, d := range c.Dots {
		xs, ys = append(xs, d.X), append(ys, d.Y)
	}
	lowX, highX := span(xs)
	lowY, highY := span(ys)
	wide, high := max(highX-lowX, 1e-9), max(highY-lowY, 1e-9)
	if !c.OwnScales {
		wide = max(wide, high)
		high = wide
	}
	middleX, middleY := (lowX+highX)/2, (lowY+highY)/2
	return scale{middleX - wide/2, middleX + wide/2, scatterPad, scatterPx - scatterPad},
		scale{middleY - high/2, middleY + high/2, scatterPx - 1.5*scatterPad, scatterPad}
}

// box is where a label lies.
type box struct{ left, top, right, bottom float64 }

func (b box) meets(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

// labels writes the words of the dots beside them, the outermost first, where there
// is room.
func (s *sheet) labels(dots []Dot, x, y scale) {
	order := make([]int, 0, len(dots))
	var taken []box
	for i, d := range dots {
		if !math.IsNaN(d.X + d.Y) {
			order = append(order, i)
			taken = append(taken, box{x.at(d.X) - 4, y.at(d.Y) - 4, x.at(d.X) + 4, y.at(d.Y) + 4})
		}
	}
	far := func(i int) float64 { return math.Hypot(x.at(dots[i].X)-x.at(0), y.at(dots[i].Y)-y.at(0)) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(far(b), far(a)) })
	for _, i := range order {
		d := dots[i]
		w := letterPx * float64(utf8.RuneCountInString(d.Word))
		cx, cy := x.at(d.X), y.at(d.Y)
		for _, at := range []point{{cx + 7, cy + 4}, {cx - 7 - w, cy + 4}, {cx - w/2, cy - 8}, {cx - w/2, cy + 17}} {
			b := box{at.x, at.y - labelPx + 2, at.x + w, at.y + 2}
			if b.left < 0 || b.right > scatterPx || slices.ContainsFunc(taken, b.meets) {
				continue
			}
			taken = append(taken, b)
			class := "label"
			if d.Ray {
				class = "label faint"
			}
			s.f(`<text x="%s" y="%s" class="%s">%s</text>`, px(at.x), px(at.y), class, escape(d.Word))
			break
		}
	}
}
