package draw

// Origin is what one thing was made of, or where it went: an arm for each part,
// between its row and the stem that stands for the whole. An arm is as thick as
// its share: a dark core for the least that it can be, two edges for the
// likeliest, a pale hem for the most.
type Origin struct {
	ID, Title, Says string
	Head            []string // of the table: part, share, least, most, amount
	Away            bool     // the arms lead from the stem to their rows
	Arms            []Arm
}

// Arm is one part of a whole. Share, Least and Most are of the whole.
type Arm struct {
	Word, Figure       string // over its row
	Amount             string
	Share, Least, Most float64
}

// Sizes of a picture of origins, in pixels; across in shares of the width.
const (
	armRowPx   = 54.0
	armThickPx = 44.0 // of a share of one
	armWordPx  = 15.0 // from the top of a row to the foot of its words
	armMidPx   = 34.0 // from the top of a row to the middle of its arm
	armFoot    = 8.0  // below the last row
	armBend    = 0.34 // where an arm leaves its row
	armStem    = 0.92 // where it meets the stem
	armEdgePx  = 1.4  // the thinnest that is seen
)

// Origin draws the arms.
func (p Pen) Origin(o Origin) Picture {
	height := armRowPx*float64(len(o.Arms)) + armFoot
	s := open(full, o.ID, o.Title, o.Says, height)
	sum := 0.0
	for _, a := range o.Arms {
		sum += a.Share
	}
	s.plot(0, height)
	at := height/2 - armThickPx*sum/2 // where the next arm meets the stem
	for i, a := range o.Arms {
		row, stem := armRowPx*float64(i)+armMidPx, at+armThickPx*a.Share/2
		at += armThickPx * a.Share
		s.arm(o.Away, row, stem, a.Most, "hem")
		if a.Least > 0 {
			s.arm(o.Away, row, stem, a.Least, "bar")
		}
		for _, side := range []float64{-1, 1} {
			off := side * max(armThickPx*a.Share, armEdgePx) / 2
			s.f(`<path d="%s" class="line fine"/>`, bent(o.Away, row+off, stem+off))
		}
	}
	s.endPlot()
	stem, words, class := armStem, 0.0, "label"
	if o.Away {
		stem, words, class = 1-armStem, 1, "label end"
	}
	s.rule(stem, height/2-armThickPx*sum/2, stem, height/2+armThickPx*sum/2, "limit")
	t := Table{Head: o.Head}
	for i, a := range o.Arms {
		s.text(words, armRowPx*float64(i)+armWordPx, 0, class, a.Word+"\u2002"+a.Figure)
		t.Rows = append(t.Rows, []string{a.Word, p.percent(a.Share), p.percent(a.Least), p.percent(a.Most), a.Amount})
	}
	return Picture{SVG: s.close(), Table: t, Says: o.Says}
}

func (p Pen) percent(x float64) string { return p.write(100*x, 1) + " %" }

// arm draws one tone of an arm, as thick as a share.
func (s *sheet) arm(away bool, row, stem, share float64, class string) {
	half := max(armThickPx*min(share, 1), armEdgePx) / 2
	s.f(`<path d="%sL%s" class="%s"/>`, bent(away, row-half, stem-half), back(away, row+half, stem+half), class)
}

// reach carries a share of the way from row to stem to a place in the plot.
func reach(away bool, x float64) float64 {
	if away {
		x = 1 - x
	}
	return wide * x
}

// bent is the path of one edge of an arm, from its row to the stem.
func bent(away bool, row, stem float64) string {
	mid := (armBend + armStem) / 2
	return "M" + px(reach(away, 0)) + " " + px(row) + "L" + px(reach(away, armBend)) + " " + px(row) +
		"C" + px(reach(away, mid)) + " " + px(row) + " " + px(reach(away, mid)) + " " + px(stem) + " " + px(reach(away, armStem)) + " " + px(stem)
}

// back is the other edge, from the stem to its row.
func back(away bool, row, stem float64) string {
	mid := (armBend + armStem) / 2
	return px(reach(away, armStem)) + " " + px(stem) +
		"C" + px(reach(away, mid)) + " " + px(stem) + " " + px(reach(away, mid)) + " " + px(row) + " " + px(reach(away, armBend)) + " " + px(row) +
		"L" + px(reach(away, 0)) + " " + px(row) + "Z"
}
