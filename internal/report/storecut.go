package report

import (
	"math"
	"strconv"

	"awn/internal/draw"
	"awn/internal/words"
	"awn/silo"
)

// shownLayers is how many layers of a silo to come are written.
const shownLayers = 5

// cutPicture is the silo cut through: as it was read last, and as it will lie after
// the time to come without and with the fan. It reports false where nothing of it
// has a depth.
func (a StoreAccount) cutPicture(number int) (draw.Picture, bool) {
	u := a.Units
	c := draw.Sections{ID: "cut-" + strconv.Itoa(number+1), Title: u.Say("store.cut"), Says: u.Say("store.cut.says"), Depth: a.depthUnit(),
		Head: []string{u.Say("store.when"), u.Say("store.depth"), u.Say("store.temperature.short"), u.Say("store.moisture")}}
	if cut, ok := a.readCut(); ok {
		c.Cuts = append(c.Cuts, cut)
	}
	for _, ahead := range []struct {
		run  *silo.Run
		word string
	}{{a.Account.Still, "store.cut.still"}, {a.Account.Aired, "store.cut.aired"}} {
		if ahead.run != nil && len(ahead.run.Days()) > 0 {
			c.Cuts = append(c.Cuts, a.aheadCut(ahead.run, u.Say(ahead.word, "days", strconv.Itoa(len(ahead.run.Days())))))
		}
	}
	return draw.Pen{Number: u.Number}.Sections(c), len(c.Cuts) > 0
}

// depthUnit is the unit of the depths: a length where the silo's build is known,
// else the share of its depth.
func (a StoreAccount) depthUnit() string {
	if a.Store.Geometry == nil {
		return "%"
	}
	return words.Symbol("m", a.Units)
}

// depth writes a depth below the top of the grain.
func (a StoreAccount) depth(share float64) string {
	if a.Store.Geometry == nil {
		return a.Units.Number(100*share, 0)
	}
	return a.Units.Number(words.Value("m", share*a.Store.Geometry.DepthM, a.Units), 1)
}

// readCut is the silo as its sensors read it last.
func (a StoreAccount) readCut() (draw.Section, bool) {
	var read []silo.Reading
	for _, r := range a.Store.Readings {
		if !(r.Day <= a.Store.Today) || math.IsNaN(r.TempC) || math.IsNaN(r.Height) {
			continue
		}
		if len(read) > 0 && r.Day > read[0].Day {
			read = read[:0]
		}
		if len(read) == 0 || r.Day == read[0].Day {
			read = append(read, r)
		}
	}
	if len(read) == 0 {
		return draw.Section{}, false
	}
	cut := draw.Section{Word: a.Units.Say("store.cut.read", "day", a.Units.Number(read[0].Day, 0))}
	for _, r := range read {
		cut.Marks = append(cut.Marks, a.mark(1-r.Height, r.TempC, r.Moisture))
	}
	warmest(cut.Marks, func(i int) float64 { return read[i].TempC })
	return cut, true
}

// aheadCut is the silo at the end of a run, some of its layers.
func (a StoreAccount) aheadCut(r *silo.Run, word string) draw.Section {
	layers := r.Layers()
	cut := draw.Section{Word: word}
	n := min(shownLayers, len(layers))
	at := func(i int) int { return (2*i + 1) * len(layers) / (2 * n) }
	for i := range n {
		l := layers[at(i)]
		cut.Marks = append(cut.Marks, a.mark(1-(float64(at(i))+0.5)/float64(len(layers)), l.TempC, l.Moisture))
	}
	warmest(cut.Marks, func(i int) float64 { return layers[at(i)].TempC })
	return cut
}

// mark writes what is known at a depth; a moisture that was not read is left out.
func (a StoreAccount) mark(share, tempC, moisture float64) draw.DepthMark {
	word := words.Figure("c", tempC, a.Units)
	return draw.DepthMark{Share: share, Depth: a.depth(share), Word: word, Cells: []string{word, words.Figure("wb", moisture, a.Units)}}
}

// warmest sets off the warmest of several marks.
func warmest(marks []draw.DepthMark, tempC func(i int) float64) {
	most := -1
	for i := range marks {
		if most < 0 || tempC(i) > tempC(most) {
			most = i
		}
	}
	if len(marks) > 1 {
		marks[most].Accent = true
	}
}
