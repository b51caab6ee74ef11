package draw

import "fmt"

// Growth is how far the acrospires have come, corn by corn.
type Growth struct {
	ID, Title, Says string
	Head            []string // of the table: class, share
	Classes         []Grown
}

// Grown is one class of acrospire length.
type Grown struct {
	Word      string
	Share     float64 // of all corns by number
	Acrospire float64 // length over that of the corn, for the mark under the bar
}

// Heights of the parts of a growth picture, in pixels.
const (
	growthBarsPx = 120.0
	growthHeadPx = 18.0
	cornPx       = 34.0
	growthFootPx = 22.0
)

// Growth draws a bar for each class over a corn with its acrospire.
func (p Pen) Growth(g Growth) Picture {
	s := open(full, g.ID, g.Title, g.Says, growthHeadPx+growthBarsPx+cornPx+growthFootPx)
	t := Table{Head: g.Head}
	most := 0.0
	for _, c := range g.Classes {
		most = max(most, c.Share)
	}
	base := growthHeadPx + growthBarsPx
	y := scale{0, most, base, growthHeadPx}
	for i, c := range g.Classes {
		n := float64(len(g.Classes))
		from, mid, to := (float64(i)+0.18)/n, (float64(i)+0.5)/n, (float64(i)+0.82)/n
		s.rect(from, y.at(c.Share), to, base, "bar out")
		s.text(mid, y.at(c.Share)-5, 0, "label mid num", p.write(100*c.Share, 0)+" %")
		s.corn(mid, base+8, c.Acrospire)
		s.text(mid, base+cornPx+16, 0, "tick mid", c.Word)
		t.Rows = append(t.Rows, []string{c.Word, p.write(100*c.Share, 1) + " %"})
	}
	s.rule(0, base, 1, base, "frame")
	return Picture{SVG: s.close(), Table: t, Says: g.Says}
}

// The corn seen from the side: germ end left, awn end right, in a box of 44
// by 20 pixels about the middle of its place.
const (
	cornHalfPx  = 22.0
	cornOutline = "M-22 4C-20 -6 -8 -10 4 -9C14 -8 20 -3 22 1C18 6 8 9 -4 9C-13 9 -20 8 -22 4Z"
)

// corn draws a corn with its acrospire grown to a share of its length; beyond
// 1 it stands out at the tip.
func (s *sheet) corn(share, y, acrospire float64) {
	s.f(`<svg x="%s" y="%s" width="1" height="1" class="corn"><g transform="translate(0 12)">`, percent(share), px(y))
	s.f(`<path d="%s" class="husk"/>`, cornOutline)
	if acrospire > 0 {
		end := -cornHalfPx + 3 + acrospire*(2*cornHalfPx-5)
		bend := -7.0
		if acrospire > 1 {
			bend = -11
		}
		fmt.Fprintf(s, `<path d="M-19 3Q%s %s %s %s" class="shoot"/>`, px((end-19)/2), px(bend), px(end), px(-1.5))
	}
	s.f(`</g></svg>`)
}
