package draw

import (
	"math"
	"slices"
	"unicode/utf8"
)

// Places at which the word of a line may stand, and how much of the width a
// letter takes on a narrow page.
const (
	wordPlaces  = 24
	letterShare = 0.021
	wordRisePx  = 5.0
	lettersPx   = 14.0 // height of a line of letters
)

// placed is a word that stands already: its stretch of the width and its
// height.
type placed struct{ from, to, y float64 }

// lineWords writes the word of each line of a panel where the other lines
// leave it most room.
func (s *sheet) lineWords(timeH []float64, panel Panel, sx, sy scale, y float64) {
	if len(panel.Lines)+len(panel.Bands) < 2 {
		return
	}
	curves := make([][]float64, 0, len(panel.Lines)+2*len(panel.Bands))
	for _, l := range panel.Lines {
		curves = append(curves, l.Values)
	}
	for _, b := range panel.Bands {
		curves = append(curves, b.High, b.Low)
	}
	var taken []placed
	write := func(word string, own []float64, class string) {
		if word == "" {
			return
		}
		length := float64(utf8.RuneCountInString(word)) * letterShare
		share, value, ok := roomiest(timeH, own, curves, sx, sy, length, taken)
		if !ok {
			return
		}
		taken = append(taken, placed{share, share + length, sy.at(value)})
		s.text(share, y+sy.at(value)-wordRisePx, 0, class, word)
	}
	for _, l := range panel.Lines {
		class := "label"
		if l.Stroke == Accent {
			class = "label warm"
		}
		write(l.Word, l.Values, class)
	}
	for _, b := range panel.Bands {
		write(b.Word, b.High, "label faint")
	}
}

// roomiest finds the place along a line where the nearest other line above
// it, or word already written, is farthest away.
func roomiest(timeH, own []float64, curves [][]float64, sx, sy scale, length float64, taken []placed) (share, value float64, ok bool) {
	best := math.Inf(-1)
	for k := range wordPlaces {
		at := float64(k) / wordPlaces
		if at+length > 1 {
			break
		}
		room, v := roomAt(timeH, own, curves, sx, sy, at, at+length)
		for _, t := range taken {
			if t.from < at+length && at < t.to {
				room = min(room, math.Abs(t.y-sy.at(v))-lettersPx)
			}
		}
		if room > best { // never if the line is not known all along
			best, share, value, ok = room, at, v, true
		}
	}
	return share, value, ok
}

// roomAt is how far the nearest other line stands from a word written above a
// line between two shares of the width, and the highest value of the line
// there. Both are NaN where the line is not known all along.
func roomAt(timeH, own []float64, curves [][]float64, sx, sy scale, from, to float64) (room, value float64) {
	a, _ := slices.BinarySearch(timeH, sx.from+from*(sx.to-sx.from))
	b, _ := slices.BinarySearch(timeH, sx.from+to*(sx.to-sx.from))
	b = min(b, len(timeH)-1)
	if a >= b {
		return math.NaN(), math.NaN()
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i := a; i <= b; i++ {
		if math.IsNaN(own[i]) {
			return math.NaN(), math.NaN()
		}
		low, high = min(low, own[i]), max(high, own[i])
	}
	const enough = 40
	room = enough
	word := sy.at(high) - wordRisePx - 4 // the middle of the letters
	for _, c := range curves {
		if &c[0] == &own[0] {
			continue
		}
		for i := a; i <= b; i++ {
			if !math.IsNaN(c[i]) {
				room = min(room, math.Abs(sy.at(c[i])-word))
			}
		}
	}
	return room - 0.5*math.Abs(sy.at(low)-sy.at(high)), high
}
