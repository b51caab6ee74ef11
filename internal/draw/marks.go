package draw

import "math"

// Marks is a list of figures against their limits: a mark on its line, the
// line cut where the limit lies.
type Marks struct {
	ID, Title, Says string
	Head            []string // of the table: what, figure, least, most, verdict
	Rows            []Mark
}

// Mark is one figure against its limits. Least, Most, Low and High are NaN
// where there is none.
type Mark struct {
	Name, Figure, Verdict string // words beside the line
	Value, Low, High      float64
	Least, Most           float64
	Decimals              int
	Outside               bool // drawn in the accent
	Hump                  Hump
}

// Hump is how likely each value is: heights up to 1 at equal steps between two
// values; none draws nothing.
type Hump struct {
	From, To float64
	Height   []float64
}

// Heights within a row of marks, in pixels.
const (
	markRowPx  = 58.0
	markLinePx = 30.0 // from the top of a row to its line
	markHalfPx = 7.0
)

// Marks draws the figures.
func (p Pen) Marks(m Marks) Picture {
	s := open(full, m.ID, m.Title, m.Says, markRowPx*float64(len(m.Rows)), Cut)
	t := Table{Head: m.Head}
	for i, row := range m.Rows {
		p.mark(s, row, markRowPx*float64(i))
		t.Rows = append(t.Rows, []string{
			row.Name, row.Figure, p.write(row.Least, row.Decimals), p.write(row.Most, row.Decimals), row.Verdict,
		})
	}
	return Picture{SVG: s.close(), Table: t, Says: m.Says}
}

// mark draws one row.
func (p Pen) mark(s *sheet, m Mark, y float64) {
	s.text(0, y+15, 0, "label", m.Name)
	figure := "label end strong"
	if m.Outside {
		figure += " warm"
	}
	s.text(1, y+15, 0, figure, m.Figure)
	line := y + markLinePx
	x := m.scale()
	from, to := 0.0, 1.0
	if !math.IsNaN(m.Least) {
		from = x.at(m.Least)
		s.hatched(0, line-markHalfPx+2, from, line+markHalfPx-2, Cut)
		s.rule(from, line-markHalfPx, from, line+markHalfPx, "limit")
		s.text(from, line+markHalfPx+13, 0, "tick mid", "≥ "+p.write(m.Least, m.Decimals))
	}
	if !math.IsNaN(m.Most) {
		to = x.at(m.Most)
		s.hatched(to, line-markHalfPx+2, 1, line+markHalfPx-2, Cut)
		s.rule(to, line-markHalfPx, to, line+markHalfPx, "limit")
		s.text(to, line+markHalfPx+13, 0, "tick mid", "≤ "+p.write(m.Most, m.Decimals))
	}
	s.hump(m.Hump, x, line)
	s.rule(from, line, to, line, "frame")
	if math.IsNaN(m.Value) {
		return
	}
	if !math.IsNaN(m.Low) && !math.IsNaN(m.High) {
		s.rect(x.at(m.Low), line-4, x.at(m.High), line+4, "hem")
	}
	class := "mark"
	if m.Outside {
		class += " warm"
	}
	s.f(`<circle cx="%s" cy="%s" r="5.5" class="%s"/>`, percent(x.at(m.Value)), px(line), class)
}

// humpPx is the height of a hump, in pixels.
const humpPx = 16.0

// hump draws a hump that stands on a line.
func (s *sheet) hump(h Hump, x scale, line float64) {
	n := len(h.Height) - 1
	if n < 1 {
		return
	}
	ring := make([]point, 0, n+3)
	at := func(i int) float64 { return wide * x.at(h.From+(h.To-h.From)*float64(i)/float64(n)) }
	ring = append(ring, point{at(0), humpPx})
	for i, height := range h.Height {
		ring = append(ring, point{at(i), humpPx * (1 - height)})
	}
	ring = append(ring, point{at(n), humpPx})
	s.plot(line-humpPx, humpPx)
	s.path(ring, true, "hump")
	s.endPlot()
}

// scale runs over the figure and its limits with room on either side.
func (m Mark) scale() scale {
	low, high := span([]float64{m.Value, m.Low, m.High, m.Least, m.Most, m.Hump.from(), m.Hump.to()})
	room := 0.35 * (high - low)
	if !(room > 0) {
		room = max(0.25*math.Abs(high), 1)
	}
	return scale{low - room, high + room, 0, 1}
}

// from and to are the ends of a hump; NaN of none.
func (h Hump) from() float64 { return h.end(h.From) }

func (h Hump) to() float64 { return h.end(h.To) }

func (h Hump) end(x float64) float64 {
	if len(h.Height) == 0 {
		return math.NaN()
	}
	return x
}
