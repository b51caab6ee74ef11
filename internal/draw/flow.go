package draw

import "math"

// Flow is one good on its way: each bar begins where the last one ended, so
// that the last figure is what is left.
type Flow struct {
	ID, Title, Says string
	Head            []string // of the table: line, amount, share
	Bars            []Bar
	Decimals        int
	Whole           float64 // what shares are counted from; 0 for none
}

// Bar is one line of a flow.
type Bar struct {
	Word   string
	Amount float64 // what comes in (positive) or leaves (negative)
	Stands bool    // a store, drawn from zero: what there is, not what comes or goes
	Hatch  Hatch
}

// Heights within a row of a flow, in pixels.
const (
	flowRowPx = 36.0
	flowBarPx = 11.0
)

// Flow draws the bars.
func (p Pen) Flow(f Flow) Picture {
	hatches := []Hatch{}
	for _, b := range f.Bars {
		hatches = append(hatches, b.Hatch)
	}
	s := open(full, f.ID, f.Title, f.Says, flowRowPx*float64(len(f.Bars)), hatches...)
	t := Table{Head: f.Head}
	ends := f.ends()
	low, high := span(ends, []float64{0})
	x := scale{low, high, 0, 1}
	for i, b := range f.Bars {
		y := flowRowPx * float64(i)
		from := 0.0
		if i > 0 && !b.Stands {
			from = ends[i-1]
		}
		p.bar(s, f, b, x, y, from, ends[i])
		t.Rows = append(t.Rows, []string{b.Word, p.write(b.Amount, f.Decimals), p.share(f, b)})
		if i+1 < len(f.Bars) && !f.Bars[i+1].Stands {
			s.rule(x.at(ends[i]), y+flowRowPx-5, x.at(ends[i]), y+flowRowPx+20, "hair")
		}
	}
	return Picture{SVG: s.close(), Table: t, Says: f.Says}
}

// ends is where each bar ends.
func (f Flow) ends() []float64 {
	out := make([]float64, len(f.Bars))
	at := 0.0
	for i, b := range f.Bars {
		switch {
		case math.IsNaN(b.Amount):
		case b.Stands:
			at = b.Amount
		default:
			at += b.Amount
		}
		out[i] = at
	}
	return out
}

// bar draws one line: its word, its figure, and the bar below them.
func (p Pen) bar(s *sheet, f Flow, b Bar, x scale, y, from, to float64) {
	figure := p.write(b.Amount, f.Decimals)
	if share := p.share(f, b); share != "" {
		figure += "  (" + share + ")"
	}
	s.text(0, y+14, 0, "label", b.Word)
	s.text(1, y+14, 0, "label end num", figure)
	a, z := x.at(min(from, to)), x.at(max(from, to))
	class := "bar"
	switch {
	case b.Hatch != Plain:
		class = "bar open"
	case !b.Stands && b.Amount < 0:
		class = "bar out"
	}
	s.hatched(a, y+19, z, y+19+flowBarPx, b.Hatch)
	s.rect(a, y+19, z, y+19+flowBarPx, class)
}

// share is a bar's part of the whole.
func (p Pen) share(f Flow, b Bar) string {
	if f.Whole == 0 || math.IsNaN(b.Amount) {
		return ""
	}
	return p.write(100*math.Abs(b.Amount)/f.Whole, 1) + " %"
}
