package draw

// Hatch is a way of covering an area with ink. Each stage of the grain has
// its own, so that a stage is known without colour.
type Hatch string

// The hatches.
const (
	Plain   Hatch = ""
	Waves   Hatch = "waves"   // steep: wavy level lines
	Dots    Hatch = "dots"    // couch
	Strokes Hatch = "strokes" // germination: short upright strokes
	Lines   Hatch = "lines"   // kiln: fine verticals
	Cross   Hatch = "cross"   // dressing: cross strokes
	Cut     Hatch = "cut"     // what lies outside a limit
)

// tiles are the repeating pieces: width, height and strokes of each.
var tiles = map[Hatch]struct {
	w, h  float64
	marks string
}{
	Waves:   {12, 5, `<path d="M0 2.5Q3 .6 6 2.5T12 2.5" class="h"/>`},
	Dots:    {5, 5, `<circle cx="1.5" cy="1.5" r=".8" class="d"/><circle cx="4" cy="4" r=".8" class="d"/>`},
	Strokes: {6, 8, `<path d="M1.5 .5V3.6M4.5 4.5V7.6" class="h"/>`},
	Lines:   {3, 8, `<path d="M1.5 0V8" class="h"/>`},
	Cross:   {6, 6, `<path d="M0 6L6 0M0 0L6 6" class="h"/>`},
	Cut:     {5, 5, `<path d="M-1 1L1 -1M0 5L5 0M4 6L6 4" class="h"/>`},
}

// patterns defines the hatches that a picture uses.
func (s *sheet) patterns(hatches []Hatch) {
	done := map[Hatch]bool{Plain: true}
	for _, h := range hatches {
		t, known := tiles[h]
		if done[h] || !known {
			continue
		}
		if len(done) == 1 {
			s.f(`<defs>`)
		}
		done[h] = true
		s.f(`<pattern id="%s-%s" patternUnits="userSpaceOnUse" width="%s" height="%s">%s</pattern>`,
			s.id, h, px(t.w), px(t.h), t.marks)
	}
	if len(done) > 1 {
		s.f(`</defs>`)
	}
}
