package draw

// Rules is several rules side by side on which the same things are marked, each
// with its interval; what they are compared with is zero on all.
type Rules struct {
	ID, Title, Says string
	Words           []string // over each rule
	Zero            string   // what lies at zero
	Head            []string // of the table: what, then figure, low and high on each rule
	Rows            []Ruled
	Decimals        int
}

// Ruled is one thing on all rules.
type Ruled struct {
	Name  string
	Marks []RuleMark // by rule
}

// RuleMark is a place on a rule; NaN where there is none. Out is drawn open.
type RuleMark struct {
	Mid, Low, High float64
	Out            bool
}

// Sizes of the parts of a picture of rules, in pixels, and the share of a rule's
// width that is kept free towards the next.
const (
	rulesHeadPx = 42.0
	rulesRowPx  = 34.0
	rulesLinePx = 24.0 // from the top of a row to its marks
	rulesFootPx = 24.0
	rulesGap    = 0.12
)

// Rules draws the rules, a row for each thing.
func (p Pen) Rules(r Rules) Picture {
	n := len(r.Words)
	bottom := rulesHeadPx + rulesRowPx*float64(len(r.Rows))
	s := open(full, r.ID, r.Title, r.Says, bottom+rulesFootPx)
	scales := make([]scale, n)
	for k := range scales {
		scales[k] = r.scale(k)
		from, to := scales[k].placeFrom, scales[k].placeTo
		s.text(from, 14, 0, "title", r.Words[k])
		zero := scales[k].at(0)
		s.rule(zero, rulesHeadPx-12, zero, bottom, "frame")
		s.text(zero, rulesHeadPx-16, 0, "tick mid", r.Zero)
		s.rule(from, bottom, to, bottom, "hair")
		at, decimals := ticks(scales[k].from, scales[k].to, 3)
		for _, v := range at {
			s.rule(scales[k].at(v), bottom, scales[k].at(v), bottom+4, "frame")
			s.text(scales[k].at(v), bottom+17, 0, "tick mid", p.write(v, decimals))
		}
	}
	t := Table{Head: r.Head}
	for i, row := range r.Rows {
		y := rulesHeadPx + rulesRowPx*float64(i)
		s.text(0, y+13, 0, "label", row.Name)
		cells := []string{row.Name}
		for k, m := range row.Marks {
			if k < n {
				s.ruleMark(scales[k], m, y+rulesLinePx)
			}
			cells = append(cells, p.write(m.Mid, r.Decimals), p.write(m.Low, r.Decimals), p.write(m.High, r.Decimals))
		}
		t.Rows = append(t.Rows, cells)
	}
	return Picture{SVG: s.close(), Table: t, Says: r.Says}
}

// scale of rule k over all its marks and zero.
func (r Rules) scale(k int) scale {
	values := []float64{0}
	for _, row := range r.Rows {
		if k < len(row.Marks) {
			values = append(values, row.Marks[k].Low, row.Marks[k].High, row.Marks[k].Mid)
		}
	}
	low, high := span(values)
	if low == high {
		low, high = low-1, high+1
	}
	each := 1 / float64(len(r.Words))
	return scale{low, high, each * (float64(k) + rulesGap/2), each * (float64(k) + 1 - rulesGap/2)}
}

func (s *sheet) ruleMark(x scale, m RuleMark, y float64) {
	if low, _ := span([]float64{m.Mid}); low != m.Mid {
		return
	}
	if low, high := span([]float64{m.Low, m.High}); low < high {
		s.rule(x.at(low), y, x.at(high), y, "hem-line")
	}
	class := "mark"
	if m.Out {
		class = "mark out"
	}
	s.f(`<circle cx="%s" cy="%s" r="4.5" class="%s"/>`, percent(x.at(m.Mid)), px(y), class)
}
