package report

import (
	"math"

	"awn/barley"
	"awn/internal/draw"
	"awn/internal/words"
	"awn/programme"
)

// flowPictures are dry matter, water and heat on their way.
func (r Report) flowPictures() []draw.Picture {
	u := r.Units
	var out []draw.Picture
	for _, f := range []struct {
		good     barley.Good
		id, unit string
		least    float64
	}{
		{barley.Dry, "dry", "kg", leastShown},
		{barley.Water, "water", "kg", leastWater},
		{barley.HeatJ, "heat", "j", leastWater},
	} {
		flow := draw.Flow{
			ID: "flow-" + f.id, Title: u.Say("picture.flow-"+f.id, "unit", words.Symbol(f.unit, u)),
			Says: u.Say("says.flow-" + f.id), Head: []string{u.Say("head.line"), words.Symbol(f.unit, u), u.Say("head.share")},
		}
		flow.Bars, flow.Whole = r.bars(f.good, f.unit, f.least)
		if len(flow.Bars) > 0 {
			out = append(out, r.pen().Flow(flow))
		}
	}
	return out
}

// leastWater is the share of what passes below which a line of water or heat
// is drawn with the others.
const leastWater = 0.01

// bars are the lines of one good over all stages, from what was cast to what
// is left. Small lines are drawn together.
func (r Report) bars(g barley.Good, unit string, least float64) ([]draw.Bar, float64) {
	u := r.Units
	lines := r.balanceLines(g)
	passed := 0.0
	for _, l := range lines {
		passed += math.Abs(l.Amount)
	}
	if passed == 0 || math.IsNaN(passed) {
		return nil, 0
	}
	start, whole := r.stored(g), 0.0
	if math.IsNaN(start) {
		start = 0
	}
	if g == barley.Dry {
		whole = start // only of dry matter is a line a share of what was cast
	}
	in := func(x float64) float64 { return words.Value(unit, x, u) }
	var bars []draw.Bar
	if start != 0 {
		bars = append(bars, draw.Bar{Word: u.Say("flow.cast"), Amount: in(start), Stands: true})
	}
	left, others := start, 0.0
	for _, l := range lines {
		left += l.Amount
		if math.Abs(l.Amount) < least*max(start, passed/2) {
			others += l.Amount
			continue
		}
		bars = append(bars, draw.Bar{Word: r.lineName(l), Amount: in(l.Amount)})
	}
	if others != 0 {
		bars = append(bars, draw.Bar{Word: u.Say("flow.others"), Amount: in(others)})
	}
	last := u.Say("flow.left")
	if g == barley.Dry && r.dressed() {
		last = u.Say("flow.malt")
	}
	bars = append(bars, draw.Bar{Word: last, Amount: in(left), Stands: true, Hatch: draw.Cross})
	return bars, words.Value(unit, whole, u)
}

// stored is what the grain held of a good when the course began; NaN for heat
// and gases, which are counted from there.
func (r Report) stored(g barley.Good) float64 {
	if len(r.Outcome.Stages) == 0 {
		return math.NaN()
	}
	start := r.Outcome.Stages[0].Start
	switch dry, wet := start[programme.DryMatter], start[programme.Moisture]; g {
	case barley.Dry:
		return dry
	case barley.Water:
		return dry * wet / (1 - wet)
	}
	return math.NaN()
}

// balanceLine is one line of a stage's account in the reader's words.
type balanceLine struct {
	Name, Stage string
	Amount      float64
}

// balanceLines are the lines of a good in grain order, those of nothing left
// out.
func (r Report) balanceLines(g barley.Good) []balanceLine {
	var out []balanceLine
	for _, s := range r.Outcome.Stages {
		for _, l := range s.Balance.Lines {
			if l.Good == g && l.Amount != 0 {
				out = append(out, balanceLine{r.Units.Line(l.Code), r.Units.Stage(s.Stage.String()), l.Amount})
			}
		}
	}
	return append(out, r.dressLines(g)...)
}

// lineName is a line's name with its stage.
func (r Report) lineName(l balanceLine) string {
	return r.Units.Say("line.of", "name", l.Name, "stage", l.Stage)
}
