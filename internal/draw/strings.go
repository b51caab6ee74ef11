package draw

import (
	"cmp"
	"math"
	"slices"
)

// Strings is a string diagram, as printed timetables draw trains: time across,
// the road that the grain takes down, one track for each vessel, each piece a
// stepped line. What was measured is inked, what is expected is broken and has a
// hem; a transfer that cannot wait is a vertical.
type Strings struct {
	ID, Title, Says  string
	FromH, ToH, NowH float64
	NowWord          string
	Ticks            []Moment
	Tracks           []Track
	Pieces           []Strung
	Aims             []Aim
	Doubles          []Double
	Table            Table
}

// Track is a vessel. Head, if any, is written over it: the part of the road that
// begins with it.
type Track struct{ Head, Name string }

// Strung is a piece on its tracks, in the order in which it takes them.
type Strung struct {
	Name string
	Legs []StrungLeg
}

// StrungLeg is a stay on a track. Its hem is the tenths on both sides of when it
// ends; Inked is until when it was measured.
type StrungLeg struct {
	Track              int
	FromH, ToH, InkedH float64
	ToHem              [2]float64
	Hatch              Hatch
}

// Aim is what pieces are for: when it is ready and when it is due; NaN where
// that is not known.
type Aim struct {
	Name               string
	ReadyH             float64
	ReadyHem           [2]float64
	DueH               float64
	ReadyWord, DueWord string
}

// Double is a stretch in which a track is taken twice.
type Double struct {
	Track    int
	FromH    float64
	ToH      float64
	Word     string
	Possible bool // only where one is late and the other early
}

// Sizes of a string diagram, in pixels.
const (
	trackPx     = 28.0 // from one track to the next
	trackHeadPx = 22.0
	trackLinePx = 20.0 // from the top of a track to its line
	lanePx      = 6.0  // between two lines on one track
	aimPx       = 44.0
	stringsTop  = 20.0
)

// strung is a diagram being laid out.
type strung struct {
	*sheet
	Strings
	hours scale
	lanes [][]int // of each leg of each piece
	lines []float64
}

// Strings draws the diagram.
func (p Pen) Strings(d Strings) Picture {
	t := &strung{Strings: d, hours: scale{d.FromH, d.ToH, 0, 1}}
	count := t.lay()
	y := stringsTop
	tops := make([]float64, len(d.Tracks))
	for i, track := range d.Tracks {
		if track.Head != "" {
			y += trackHeadPx
		}
		tops[i] = y
		t.lines = append(t.lines, y+trackLinePx)
		y += trackPx + lanePx*float64(max(count[i]-1, 0))
	}
	aims := y
	y += aimPx * float64(len(d.Aims))
	var hatches []Hatch
	for _, piece := range d.Pieces {
		for _, l := range piece.Legs {
			hatches = append(hatches, l.Hatch)
		}
	}
	t.sheet = open(withAxis, d.ID, d.Title, d.Says, y+axisPx, hatches...)
	t.grid(tops, count, y)
	for i, piece := range d.Pieces {
		t.piece(i, piece)
	}
	for i, piece := range d.Pieces {
		t.named(i, piece)
	}
	for _, x := range d.Doubles {
		t.double(x, count[x.Track])
	}
	for i, a := range d.Aims {
		t.aim(a, aims+aimPx*float64(i))
	}
	return Picture{SVG: t.close(), Table: d.Table, Says: d.Says}
}

// lay gives each leg a lane of its track, and counts the lanes of each.
func (t *strung) lay() []int {
	type stay struct{ piece, leg int }
	byTrack := make([][]stay, len(t.Tracks))
	t.lanes = make([][]int, len(t.Pieces))
	for i, p := range t.Pieces {
		t.lanes[i] = make([]int, len(p.Legs))
		for k, l := range p.Legs {
			byTrack[l.Track] = append(byTrack[l.Track], stay{i, k})
		}
	}
	count := make([]int, len(t.Tracks))
	at := func(s stay) StrungLeg { return t.Pieces[s.piece].Legs[s.leg] }
	for track, all := range byTrack {
		slices.SortStableFunc(all, func(a, b stay) int { return cmp.Compare(at(a).FromH, at(b).FromH) })
		var ends []float64
		for _, s := range all {
			lane := slices.IndexFunc(ends, func(end float64) bool { return end <= at(s).FromH+0.25 })
			if lane < 0 {
				lane, ends = len(ends), append(ends, 0)
			}
			ends[lane], t.lanes[s.piece][s.leg] = at(s).ToH, lane
		}
		count[track] = len(ends)
	}
	return count
}

// grid draws days, tracks and now.
func (t *strung) grid(tops []float64, count []int, bottom float64) {
	for i, tick := range t.Ticks {
		x := t.hours.at(tick.AtH)
		class := "tick"
		if i%2 == 1 {
			class += " wide-only"
		}
		t.rule(x, stringsTop-6, x, bottom, "hair")
		t.text(x, bottom+17, 2, class, tick.Word)
	}
	for i, track := range t.Tracks {
		if track.Head != "" {
			t.rule(0, tops[i]-trackHeadPx+5, 1, tops[i]-trackHeadPx+5, "hair")
			t.text(0, tops[i]-4, -gutterPx, "stage", track.Head)
		}
		for lane := range max(count[i], 1) {
			y := t.lines[i] + lanePx*float64(lane)
			t.rule(0, y, 1, y, "seam track")
		}
		t.text(0, t.lines[i]+4, -gutterPx, "tick", track.Name)
	}
	t.rule(0, bottom, 1, bottom, "frame")
	if t.NowH >= t.FromH && t.NowH <= t.ToH {
		x := t.hours.at(t.NowH)
		t.rule(x, stringsTop-6, x, bottom, "moment")
		t.sided(x, stringsTop-8, 4, "label moment-word", t.NowWord)
	}
}

// within is an hour as a share of the width, no farther than its ends.
func (t *strung) within(h float64) float64 { return min(max(t.hours.at(h), 0), 1) }

// piece draws one line.
func (t *strung) piece(n int, p Strung) {
	for i, l := range p.Legs {
		y := t.lines[l.Track] + lanePx*float64(t.lanes[n][i])
		if i+1 < len(p.Legs) {
			next := p.Legs[i+1]
			t.step(l, y, t.lines[next.Track]+lanePx*float64(t.lanes[n][i+1]))
		}
		if l.ToH < t.FromH || l.FromH > t.ToH {
			continue
		}
		if t.hatched(t.within(l.FromH), y-4, t.within(l.ToH), y+4, l.Hatch); l.InkedH > l.FromH && l.InkedH > t.FromH {
			t.rule(t.within(l.FromH), y, t.within(l.InkedH), y, "strung")
		}
		if from := max(l.FromH, l.InkedH); from < l.ToH {
			t.rule(t.within(from), y, t.within(l.ToH), y, "strung ahead")
		}
	}
}

// named writes the name of a piece over the stay that shows most of itself
// before the last one, which is the store.
func (t *strung) named(n int, p Strung) {
	best, most := 0, 0.0
	for i, l := range p.Legs[:min(max(len(p.Legs)-1, 1), len(p.Legs))] {
		if wide := t.within(l.ToH) - t.within(l.FromH); wide > most {
			best, most = i, wide
		}
	}
	if most > 0 {
		l := p.Legs[best]
		y := t.lines[l.Track] + lanePx*float64(t.lanes[n][best])
		t.text((t.within(l.FromH)+t.within(l.ToH))/2, y-7, 0, "tick mid", p.Name)
	}
}

// step draws the transfer at the end of a leg, with its hem where it is still
// expected.
func (t *strung) step(l StrungLeg, from, to float64) {
	if l.ToH < t.FromH || l.ToH > t.ToH {
		return
	}
	x, class := t.hours.at(l.ToH), "strung"
	if l.InkedH < l.ToH {
		class += " ahead"
		if l.ToHem[1] > l.ToHem[0] {
			t.rect(t.within(l.ToHem[0]), min(from, to), t.within(l.ToHem[1]), max(from, to), "hem")
		}
	}
	t.rule(x, from, x, to, class)
}

// double marks a track that is taken twice: two strokes in the margin, or one
// where it is only possible, and the stretch itself between two bars.
func (t *strung) double(d Double, lanes int) {
	y := t.lines[d.Track]
	low := y + lanePx*float64(max(lanes-1, 0))
	t.f(`<path d="M%s %sV%s`, px(-gutterPx-5), px(y-9), px(low+9))
	if !d.Possible {
		t.f(`M%s %sV%s`, px(-gutterPx-9), px(y-9), px(low+9))
	}
	t.f(`" class="frame"/>`)
	if d.ToH < t.FromH || d.FromH > t.ToH {
		return
	}
	for _, h := range []float64{d.FromH, d.ToH} {
		t.rule(t.within(h), y-6, t.within(h), low+6, "limit")
	}
	t.text(1, low+11, 0, "tick end", d.Word)
}

// aim draws what pieces are for: ready with its hem, and the day it is due.
func (t *strung) aim(a Aim, y float64) {
	line := y + aimPx - 22
	t.text(0, y+13, -gutterPx, "label", a.Name)
	t.rule(0, line, 1, line, "seam track")
	if a.ReadyH <= t.ToH {
		t.rect(t.within(a.ReadyHem[0]), line-5, t.within(a.ReadyHem[1]), line+5, "hem")
		x := t.within(a.ReadyH)
		t.f(`<circle cx="%s" cy="%s" r="4" class="mark"/>`, percent(x), px(line))
	}
	if a.DueH <= t.ToH {
		x := t.within(a.DueH)
		t.rule(x, line-9, x, line+9, "limit")
	}
	for _, w := range []struct {
		h, y float64
		word string
	}{{a.ReadyH, line - 8, a.ReadyWord}, {a.DueH, line + 19, a.DueWord}} {
		if x := t.within(w.h); w.h > t.ToH {
			t.text(1, w.y, 0, "tick end", w.word+" →")
		} else if !math.IsNaN(w.h) {
			t.text(x, w.y, 0, anchored("tick", x), w.word)
		}
	}
}
