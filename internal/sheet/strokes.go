package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// words draws a text with the margin of paper round its letters that parts it
// from what lies under it.
func (c canvas) words(n *node, l look) {
	p := c.s.pdf
	style := ""
	if l["font-style"] == "italic" {
		style = "I"
	} else if l.number("font-weight", 400) > 500 {
		style = "B"
	}
	p.SetFont(family, style, l.number("font-size", 13)*pxMm*72/25.4)
	wide := p.GetStringWidth(n.text)
	x := c.across(n.at["x"]) + lengthPx(n.at["dx"], 0)*pxMm
	switch l["text-anchor"] {
	case "end":
		x -= wide
	case "middle":
		x -= wide / 2
	}
	y := c.down(n.at["y"])
	p.SetAlpha(1, "Normal")
	p.SetDashPattern(nil, 0)
	if l["paint-order"] == "stroke" {
		p.SetDrawColor(white.r, white.g, white.b)
		p.SetLineWidth(l.number("stroke-width", 1) * pxMm)
		p.SetLineJoinStyle("round")
		p.SetTextRenderingMode(1)
		p.Text(x, y, n.text)
		p.SetTextRenderingMode(0)
	}
	colour, ok := l.paint("fill", "var(--ink)")
	if ok {
		p.SetTextColor(colour.r, colour.g, colour.b)
		p.Text(x, y, n.text)
	}
}

func (c canvas) line(n *node, l look) {
	if c.pen(l) {
		c.s.pdf.Line(c.across(n.at["x1"]), c.down(n.at["y1"]), c.across(n.at["x2"]), c.down(n.at["y2"]))
	}
}

func (c canvas) rect(n *node, l look) {
	x, y, w, h := c.across(n.at["x"]), c.down(n.at["y"]), c.lengthX(n.at["width"], 0), c.lengthY(n.at["height"], 0)
	if id, ok := strings.CutPrefix(n.at["fill"], "url(#"); ok {
		c.hatch(strings.TrimSuffix(id, ")"), x, y, w, h)
		return
	}
	c.painted(l, func(style string) { c.s.pdf.Rect(x, y, w, h, style) })
}

func (c canvas) circle(n *node, l look) {
	r := lengthPx(n.at["r"], 0) * pxMm
	c.painted(l, func(style string) { c.s.pdf.Circle(c.across(n.at["cx"]), c.down(n.at["cy"]), r, style) })
}

func (c canvas) path(n *node, l look) {
	c.painted(l, func(style string) {
		if c.trace(n.at["d"]) {
			if style == "F" && l["fill-rule"] == "evenodd" {
				style = "F*"
			}
			c.s.pdf.DrawPath(style)
		}
	})
}

// painted fills a shape and then draws its outline, each as its look says.
func (c canvas) painted(l look, shape func(style string)) {
	if colour, ok := l.paint("fill", "var(--ink)"); ok {
		c.s.pdf.SetFillColor(colour.r, colour.g, colour.b)
		c.s.pdf.SetAlpha(l.number("fill-opacity", 1), "Normal")
		shape("F")
	}
	if c.pen(l) {
		shape("D")
	}
}

// pen takes up the pen of a look; false if it has none.
func (c canvas) pen(l look) bool {
	colour, ok := l.paint("stroke", "none")
	if !ok {
		return false
	}
	p := c.s.pdf
	p.SetDrawColor(colour.r, colour.g, colour.b)
	p.SetAlpha(l.number("stroke-opacity", 1), "Normal")
	p.SetLineWidth(l.number("stroke-width", 1) * pxMm)
	dashes := numbers(l["stroke-dasharray"])
	for i := range dashes {
		dashes[i] *= pxMm
	}
	p.SetDashPattern(dashes, 0)
	return true
}

// hatch covers a rectangle with the tile of a hatch.
func (c canvas) hatch(id string, x, y, w, h float64) {
	tile := c.hatches[id]
	if tile == nil || !(w > 0 && h > 0) {
		return
	}
	c.s.pdf.ClipRect(x, y, w, h, false)
	defer c.s.pdf.ClipEnd()
	tileW, tileH := lengthPx(tile.at["width"], 0)*pxMm, lengthPx(tile.at["height"], 0)*pxMm
	if !(tileW > 0 && tileH > 0) {
		return
	}
	// Tiles are laid from the corner of the picture, so that the hatches of
	// neighbours meet.
	for v := c.y + math.Floor((y-c.y)/tileH)*tileH; v < y+h; v += tileH {
		for u := c.x + math.Floor((x-c.x)/tileW)*tileW; u < x+w; u += tileW {
			at := c
			at.x, at.y, at.sx, at.sy = u, v, pxMm, pxMm
			at.children(tile, nil)
		}
	}
}

// trace lays a path under the pen: lines and curves with absolute
// coordinates. It reports whether there is anything to draw.
func (c canvas) trace(data string) bool {
	p, drawn := c.s.pdf, false
	var at, from, bend fpdf.PointType
	for command, v := range commands(data) {
		points := make([]fpdf.PointType, 0, len(v)/2)
		for i := 0; i+1 < len(v); i += 2 {
			points = append(points, fpdf.PointType{X: c.x + v[i]*c.sx, Y: c.y + v[i+1]*c.sy})
		}
		switch {
		case command == 'M' && len(points) > 0:
			at, from = points[0], points[0]
			p.MoveTo(at.X, at.Y)
			c.lines(points[1:], &at)
		case command == 'L':
			c.lines(points, &at)
		case command == 'H' || command == 'V':
			for _, x := range v {
				if command == 'H' {
					at.X = c.x + x*c.sx
				} else {
					at.Y = c.y + x*c.sy
				}
				p.LineTo(at.X, at.Y)
			}
		case command == 'Q':
			for i := 0; i+1 < len(points); i += 2 {
				bend = points[i]
				p.CurveTo(bend.X, bend.Y, points[i+1].X, points[i+1].Y)
				at = points[i+1]
			}
		case command == 'T': // its bend is that of the curve before, mirrored
			for _, q := range points {
				bend = fpdf.PointType{X: 2*at.X - bend.X, Y: 2*at.Y - bend.Y}
				p.CurveTo(bend.X, bend.Y, q.X, q.Y)
				at = q
			}
		case command == 'C':
			for i := 0; i+2 < len(points); i += 3 {
				p.CurveBezierCubicTo(points[i].X, points[i].Y, points[i+1].X, points[i+1].Y, points[i+2].X, points[i+2].Y)
				at = points[i+2]
			}
		case command == 'Z':
			p.ClosePath()
			at = from
		default:
			p.SetError(fmt.Errorf("a path of a picture has %q, which print does not know", command))
			return false
		}
		drawn = true
	}
	return drawn
}

func (c canvas) lines(points []fpdf.PointType, at *fpdf.PointType) {
	for _, q := range points {
		c.s.pdf.LineTo(q.X, q.Y)
		*at = q
	}
}

// commands yields the commands of path data with their numbers.
func commands(data string) func(yield func(rune, []float64) bool) {
	return func(yield func(rune, []float64) bool) {
		for i := 0; i < len(data); {
			command := rune(data[i])
			end := i + 1
			for end < len(data) && !letter(data[end]) {
				end++
			}
			if !yield(command, pathNumbers(data[i+1:end])) {
				return
			}
			i = end
		}
	}
}

func letter(b byte) bool { return b >= 'A' && b <= 'Z' || b >= 'a' && b <= 'z' && b != 'e' }

// pathNumbers reads numbers that may follow each other without a space: a
// minus or a second point begins the next.
func pathNumbers(text string) []float64 {
	var out []float64
	for i := 0; i < len(text); {
		if text[i] == ' ' || text[i] == ',' || text[i] == '\n' {
			i++
			continue
		}
		end, point := i, false
		for end < len(text) {
			b := text[end]
			if b == '.' && point || b == '-' && end > i && text[end-1] != 'e' || b == ' ' || b == ',' || b == '\n' {
				break
			}
			point = point || b == '.'
			end++
		}
		x, err := strconv.ParseFloat(text[i:end], 64)
		if err != nil {
			x = math.NaN()
		}
		out = append(out, x)
		i = end
	}
	return out
}
