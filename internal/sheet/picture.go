package sheet

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"awn/internal/draw"
)

// pxMm is a pixel of a page on screen in millimetres.
const pxMm = 25.4 / 96

// Picture prints a picture over the width of the page, with what it shows in
// words under it.
func (s *Sheet) Picture(p draw.Picture) {
	root, err := read(p.SVG)
	if err != nil {
		s.pdf.SetError(fmt.Errorf("picture: %w", err))
		return
	}
	left, wide, high := s.frame(root)
	said := s.pdf.SplitText(p.Says, s.wide)
	s.room(high + 3 + float64(len(said))*3.9)
	top := s.pdf.GetY() + 1
	c := canvas{s: s, hatches: map[string]*node{}, x: left, y: top, wide: wide, high: high, sx: pxMm, sy: pxMm}
	c = c.boxed(root)
	c.children(root, styled("svg", root.classes(), nil))
	s.plain()
	s.pdf.SetXY(marginMm, top+high+1)
	s.Small(p.Says)
}

// frame is where a picture stands: one that has a height in pixels over the
// width of the page, with room for the figures of its axis unless it is full;
// one that has a shape of its own in the middle, no wider than on screen.
func (s *Sheet) frame(root *node) (left, wide, high float64) {
	if w, h, ok := root.box(); ok {
		wide = math.Min(s.wide, lengthPx(strings.TrimSuffix(styled("svg", root.classes(), nil)["max-width"], "px"), w)*pxMm)
		return marginMm + (s.wide-wide)/2, wide, wide * h / w
	}
	high = lengthPx(root.at["height"], 0) * pxMm
	if has(root.classes(), "awn") && !has(root.classes(), "full") {
		return marginMm + 40*pxMm, s.wide - 44*pxMm, high
	}
	return marginMm, s.wide, high
}

// box is the size of an element's view box.
func (n *node) box() (w, h float64, ok bool) {
	v := numbers(n.at["viewBox"])
	if len(v) != 4 || !(v[2] > 0 && v[3] > 0) {
		return 0, 0, false
	}
	return v[2], v[3], true
}

// node is an element of a picture.
type node struct {
	tag  string
	at   map[string]string
	text string
	kids []*node
}

func (n *node) classes() []string { return strings.Fields(n.at["class"]) }

// read reads the elements of a picture.
func read(svg string) (*node, error) {
	d := xml.NewDecoder(strings.NewReader(svg))
	top := &node{}
	open := []*node{top}
	for {
		t, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		last := open[len(open)-1]
		switch t := t.(type) {
		case xml.StartElement:
			n := &node{tag: t.Name.Local, at: map[string]string{}}
			for _, a := range t.Attr {
				n.at[a.Name.Local] = a.Value
			}
			last.kids = append(last.kids, n)
			open = append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			last.text += string(t)
		}
	}
	if len(top.kids) != 1 || top.kids[0].tag != "svg" {
		return nil, fmt.Errorf("it is not one svg element")
	}
	return top.kids[0], nil
}

// canvas is a part of a page with its own coordinates: a point (u, v) of a
// picture lies at (x + u sx, y + v sy).
type canvas struct {
	s          *Sheet
	hatches    map[string]*node
	x, y       float64 // mm
	wide, high float64 // mm; what 100 % means
	sx, sy     float64 // mm for each unit
}

// children draws what an element holds. What a picture cannot be without is
// known here; a new kind of element is an error and not a gap.
func (c canvas) children(n *node, l look) {
	for _, k := range n.kids {
		look := styled(k.tag, k.classes(), l)
		if look["display"] == "none" {
			continue
		}
		switch k.tag {
		case "title", "desc":
		case "defs":
			for _, h := range k.kids {
				c.hatches[h.at["id"]] = h
			}
		case "svg":
			c.nested(k, look)
		case "g":
			c.moved(k.at["transform"]).children(k, look)
		case "text":
			c.words(k, look)
		case "line":
			c.line(k, look)
		case "rect":
			c.rect(k, look)
		case "circle":
			c.circle(k, look)
		case "path":
			c.path(k, look)
		default:
			c.s.pdf.SetError(fmt.Errorf("a picture has <%s>, which print does not know", k.tag))
		}
	}
}

// nested draws a picture within a picture; one with a view box is stretched.
func (c canvas) nested(n *node, l look) {
	inner := c
	inner.x, inner.y = c.across(n.at["x"]), c.down(n.at["y"])
	inner.wide, inner.high = c.lengthX(n.at["width"], c.wide), c.lengthY(n.at["height"], c.high)
	inner = inner.boxed(n)
	if l["overflow"] == "hidden" {
		c.s.pdf.ClipRect(inner.x, inner.y, inner.wide, inner.high, false)
		defer c.s.pdf.ClipEnd()
	}
	inner.children(n, l)
}

// boxed stretches the units of an element's view box over the canvas.
func (c canvas) boxed(n *node) canvas {
	if w, h, ok := n.box(); ok {
		c.sx, c.sy = c.wide/w, c.high/h
	}
	return c
}

// moved is the canvas behind "translate(x y)" and "scale(x y)".
func (c canvas) moved(transform string) canvas {
	for part := range strings.SplitSeq(transform, ")") {
		name, arguments, ok := strings.Cut(strings.TrimSpace(part), "(")
		if !ok {
			continue
		}
		v := numbers(arguments)
		if len(v) == 1 && name == "scale" {
			v = append(v, v[0])
		}
		switch {
		case name == "translate" && len(v) >= 1:
			c.x += v[0] * c.sx
			if len(v) > 1 {
				c.y += v[1] * c.sy
			}
		case name == "scale" && len(v) == 2:
			c.sx, c.sy = c.sx*v[0], c.sy*v[1]
		default:
			c.s.pdf.SetError(fmt.Errorf("a picture is moved by %q, which print does not know", part))
		}
	}
	return c
}

// across and down are the places of a coordinate on the page.
func (c canvas) across(v string) float64 { return c.x + c.lengthX(v, 0) }

func (c canvas) down(v string) float64 { return c.y + c.lengthY(v, 0) }

func (c canvas) lengthX(v string, otherwise float64) float64 {
	return length(v, c.wide, c.sx, otherwise)
}

func (c canvas) lengthY(v string, otherwise float64) float64 {
	return length(v, c.high, c.sy, otherwise)
}

// length is a length in millimetres: a share of the whole, or units.
func length(v string, whole, unit, otherwise float64) float64 {
	if share, ok := strings.CutSuffix(v, "%"); ok {
		x, _ := strconv.ParseFloat(share, 64)
		return x / 100 * whole
	}
	x, err := strconv.ParseFloat(v, 64)
	if err != nil {
		return otherwise
	}
	return x * unit
}

// lengthPx is a length in pixels.
func lengthPx(v string, otherwise float64) float64 { return length(v, math.NaN(), 1, otherwise) }

// numbers are those of a list.
func numbers(list string) []float64 {
	var out []float64
	for _, word := range strings.FieldsFunc(list, func(r rune) bool { return r == ' ' || r == ',' }) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil {
			x = math.NaN()
		}
		out = append(out, x)
	}
	return out
}
