package draw

import (
	"cmp"
	"math"
	"slices"
)

// Bed is one quantity of a bed as contours: time across, depth down, like a
// map.
type Bed struct {
	ID, Title, Says string
	HourWord        string
	TopWord         string // beside the top of the bed
	FloorWord       string // beside its floor
	FromH, ToH      float64
	TimeH           []float64
	Layers          int
	Values          []float64 // moment after moment, layer 0 on the floor
	Levels          []float64 // of the isolines
	Decimals        int
	Break           float64
	BreakWord       string
	Turns           []float64 // hours, drawn as seams
	TurnWord        string
	Warm            bool // drawn in the accent
}

const bedPx = 170.0

// Bed draws the contours.
func (p Pen) Bed(b Bed) Picture {
	const head, foot = 8.0, axisPx
	s := open(withAxis, b.ID, b.Title, b.Says, head+bedPx+foot)
	x := scale{b.FromH, b.ToH, 0, 1}
	g := b.grid()
	s.plot(head, bedPx)
	labels := b.ground(s, g)
	s.endPlot()
	s.turns(b, x, head)
	s.rule(0, head, 1, head, "frame")
	if b.Break >= b.FromH && b.Break <= b.ToH {
		s.rule(x.at(b.Break), head, x.at(b.Break), head+bedPx, "break")
		s.sided(x.at(b.Break), head+bedPx-8, 6, "label strong", b.BreakWord)
	}
	for _, l := range labels {
		s.text(l.x/wide, head+l.y+4, 0, "iso-word mid", p.write(l.level, b.levelDecimals()))
	}
	s.text(0, head+9, -6, "tick end", b.TopWord)
	s.text(0, head+bedPx-2, -6, "tick end", b.FloorWord)
	p.hourAxis(s, b.FromH, b.ToH, x, head+bedPx, b.HourWord)
	return Picture{SVG: s.close(), Table: p.bedTable(b), Says: b.Says}
}

// turns draws each turning of the bed as a seam.
func (s *sheet) turns(b Bed, x scale, head float64) {
	for i, t := range b.Turns {
		if !(t > b.FromH && t < b.ToH) {
			continue
		}
		s.rule(x.at(t), head, x.at(t), head+bedPx, "turn")
		if i == 0 {
			s.sided(x.at(t), head+bedPx-8, 4, "label faint", b.TurnWord)
		}
	}
}

// levelDecimals is how many decimals tell the levels apart.
func (b Bed) levelDecimals() int {
	for _, l := range b.Levels {
		if l != math.Round(l) {
			return 1
		}
	}
	return 0
}

// grid lays the values out for the page. They are known in the middle of each
// layer and are carried on in a straight line to the edges of the bed.
func (b Bed) grid() *grid {
	if b.Layers < 1 {
		return &grid{}
	}
	sx := scale{b.FromH, b.ToH, 0, wide}
	g := &grid{}
	moments := pickEvenly(len(b.TimeH), mostPoints)
	for _, i := range moments {
		g.x = append(g.x, sx.at(b.TimeH[i]))
	}
	row := func(y float64, layer, inner int, beyond float64) {
		g.y = append(g.y, y)
		for _, i := range moments {
			v, next := b.Values[i*b.Layers+layer], b.Values[i*b.Layers+inner]
			g.v = append(g.v, v+beyond*(v-next))
		}
	}
	last := b.Layers - 1
	row(0, last, max(0, last-1), 0.5)
	for k := range b.Layers {
		row((float64(k)+0.5)/float64(b.Layers)*bedPx, last-k, last-k, 0)
	}
	row(bedPx, 0, min(1, last), 0.5)
	return g
}

// pickEvenly is at most n of the indices below count, the last among them.
func pickEvenly(count, n int) []int {
	out := make([]int, 0, min(count, n))
	for k := range min(count, n) {
		out = append(out, k*(count-1)/max(1, min(count, n)-1))
	}
	return out
}

// label is the figure of an isoline and where it stands.
type label struct{ x, y, level float64 }

// ground draws the tint and the isolines of a bed and says where their
// figures go.
func (b Bed) ground(s *sheet, g *grid) []label {
	if len(g.x) < 2 {
		return nil
	}
	tint, line := "tint", "iso"
	if b.Warm {
		tint, line = "tint warm", "iso warm"
	}
	padded := g.closed(math.Inf(-1))
	for _, level := range b.Levels {
		data := ""
		for _, ring := range padded.isolines(level) {
			data += trace(straighten(ring), true)
		}
		if data != "" {
			s.f(`<path d="%s" class="%s"/>`, data, tint)
		}
	}
	var labels []label
	for i, level := range b.Levels {
		lines := g.isolines(level)
		class := line
		if i%2 == 1 {
			class += " index"
		}
		for _, l := range lines {
			s.path(straighten(l), false, class)
		}
		labels = place(labels, lines, level)
	}
	return labels
}

// place finds a spot for the figure of a level on its longest line, clear of
// the figures that stand already.
func place(labels []label, lines [][]point, level float64) []label {
	lines = slices.Clone(lines)
	slices.SortStableFunc(lines, func(a, b []point) int {
		return cmp.Compare(length(b), length(a))
	})
	for _, l := range lines {
		if length(l) < 40 {
			break
		}
		for _, share := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
			at := along(l, share)
			if inside(at) && clear(labels, at) {
				return append(labels, label{at.x, at.y, level})
			}
		}
	}
	return labels
}

func inside(p point) bool {
	return p.x > 30 && p.x < wide-30 && p.y > 10 && p.y < bedPx-10
}

// clear says whether a figure at p would run into none of the others; widths
// are those of a page of ordinary width.
func clear(labels []label, p point) bool {
	for _, l := range labels {
		if math.Abs(l.x-p.x) < 58 && math.Abs(l.y-p.y) < 13 {
			return false
		}
	}
	return true
}

// length is the length of a line on the plot.
func length(l []point) float64 {
	sum := 0.0
	for i := 1; i < len(l); i++ {
		sum += math.Hypot(l[i].x-l[i-1].x, l[i].y-l[i-1].y)
	}
	return sum
}

// along is the point at a share of a line's length.
func along(l []point, share float64) point {
	left := share * length(l)
	for i := 1; i < len(l); i++ {
		d := math.Hypot(l[i].x-l[i-1].x, l[i].y-l[i-1].y)
		if d >= left && d > 0 {
			t := left / d
			return point{l[i-1].x + t*(l[i].x-l[i-1].x), l[i-1].y + t*(l[i].y-l[i-1].y)}
		}
		left -= d
	}
	return l[len(l)-1]
}

// bedTable is the bed at round hours: floor, quarters of the depth, top.
func (p Pen) bedTable(b Bed) Table {
	t := Table{Head: []string{b.HourWord}}
	var layers []int
	for k := range 5 {
		i := k * (b.Layers - 1) / 4
		if k > 0 && i == layers[len(layers)-1] {
			continue
		}
		layers = append(layers, i)
		depth := p.write(100*(float64(i)+0.5)/float64(b.Layers), 0) + " %"
		switch i {
		case 0:
			depth = b.FloorWord
		case b.Layers - 1:
			depth = b.TopWord
		}
		t.Head = append(t.Head, depth)
	}
	for _, i := range pick(b.TimeH, mostRows) {
		row := []string{p.write(b.TimeH[i], 1)}
		for _, layer := range layers {
			row = append(row, p.write(b.Values[i*b.Layers+layer], b.Decimals))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
