package report

import (
	"math"
	"strconv"
	"strings"

	"awn/course"
	"awn/internal/draw"
	"awn/internal/words"
	"awn/programme"
)

// Levels of the isolines of a bed in the reader's unit: those of the map that
// are known by heart, unless so few of them are crossed that even steps say
// more.
var knownLevels = map[string][]float64{
	"% wb": {5, 8, 12, 20, 30, 40, 44},
	"°C":   {12, 16, 20, 24, 28, 35, 45, 55, 65, 75, 85, 100},
	"°F":   {54, 60, 68, 75, 82, 95, 110, 130, 150, 170, 185, 210},
}

// fewLevels is how many of the known levels must be crossed, and evenSteps are
// the steps that stand in for them, in the reader's unit.
const fewLevels = 3

var evenSteps = []float64{2, 1, 0.5, 0.2}

// mostLevels is how many isolines a bed is drawn with.
const mostLevels = 8

// bedPictures are the beds as contours, moisture and temperature of each.
func (r Report) bedPictures(s course.Stage) []draw.Picture {
	stage, ok := r.stage(s)
	if !ok {
		return nil
	}
	var out []draw.Picture
	columns := 0
	for _, f := range r.Outcome.Bed {
		if f.Stage == s {
			columns++
		}
	}
	for _, f := range r.Outcome.Bed {
		if f.Stage != s || len(f.TimeH) < 2 || f.Layers == 0 {
			continue
		}
		out = append(out,
			r.bed(stage, f, columns, "moisture", "wb", f.Moisture, false),
			r.bed(stage, f, columns, "temperature", "c", f.TempC, true))
	}
	return out
}

// bed is one quantity of one column. Times of a field count from cast-in.
func (r Report) bed(s *course.StageOutcome, f course.Field, columns int, what, unit string, values []float64, warm bool) draw.Picture {
	u := r.Units
	b := draw.Bed{
		ID:       what + "-" + f.Stage.String() + "-" + strconv.Itoa(f.Column),
		Title:    u.Say("picture.bed-"+what, "stage", u.Stage(f.Stage.String())),
		HourWord: u.Say("axis.hours"), TopWord: u.Say("bed.top"), FloorWord: u.Say("bed.floor"),
		FromH: s.FromH, ToH: s.ToH, TimeH: f.TimeH, Layers: f.Layers, Decimals: 1,
		Break: math.NaN(), BreakWord: u.Reading(programme.Break), TurnWord: u.Say("bed.turned"), Warm: warm,
	}
	if columns > 1 && f.Column < len(r.Outcome.Spots) {
		b.Title += u.Say("bed.column", "spot", u.Say("spot."+r.Outcome.Spots[f.Column].Name))
	}
	if f.Stage == course.Kiln {
		b.Break = s.FromH + r.Outcome.Kilned.BreakH
	}
	b.Turns = r.turns(f.Stage, s)
	b.Values = make([]float64, len(values))
	low, high := math.Inf(1), math.Inf(-1)
	for i, v := range values {
		b.Values[i] = words.Value(unit, v, u)
		low, high = min(low, v), max(high, v)
	}
	b.Levels = levels(strings.ReplaceAll(words.Symbol(unit, u), "\u00a0", " "), words.Value(unit, low, u), words.Value(unit, high, u))
	b.Says = u.Say("says.bed-"+what, "title", b.Title, "low", r.figure(unit, low), "high", r.figure(unit, high))
	return r.pen().Bed(b)
}

// levels are the isolines that a bed between low and high is drawn with.
func levels(symbol string, low, high float64) []float64 {
	out := crossed(knownLevels[symbol], low, high)
	for _, step := range evenSteps {
		if len(out) >= fewLevels {
			break
		}
		var even []float64
		for k := math.Ceil(low / step); k*step < high; k++ {
			even = append(even, k*step)
		}
		out = crossed(even, low, high)
	}
	return out
}

// crossed are the levels between low and high, every other one left out as
// long as there are too many.
func crossed(levels []float64, low, high float64) []float64 {
	var out []float64
	for _, l := range levels {
		if l > low && l < high {
			out = append(out, l)
		}
	}
	for len(out) > mostLevels {
		half := out[:0:0]
		for i := 0; i < len(out); i += 2 {
			half = append(half, out[i])
		}
		out = half
	}
	return out
}

// turns are the hours at which the programme turned the bed.
func (r Report) turns(stage course.Stage, s *course.StageOutcome) []float64 {
	if stage != course.Germinate {
		return nil
	}
	var out []float64
	steps := r.Outcome.Piece.Programme.Germinate
	for i, done := range s.Steps {
		if i >= len(steps) || !(steps[i].TurnEvH > 0) {
			continue
		}
		for t := done.FromH + steps[i].TurnEvH; t < done.ToH; t += steps[i].TurnEvH {
			out = append(out, t)
		}
	}
	return out
}
