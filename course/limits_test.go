package course_test

import (
	"math"
	"testing"

	"awn/course"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// acts are the changes that a malt outside its limits asks for.
var acts = map[string]func(p *course.Piece, up bool){
	"act.kiln.cure-shorter": func(p *course.Piece, _ bool) { p.Programme.Kiln[2].Until = programme.Until{LatestH: 3} },
	"act.kiln.cure-longer":  func(p *course.Piece, _ bool) { p.Programme.Kiln[2].Until = programme.Until{LatestH: 9} },
	"act.kiln.cure-hotter":  func(p *course.Piece, _ bool) { p.Programme.Kiln[2].AirOnC = 92 },
	"act.kiln.cure-cooler":  func(p *course.Piece, _ bool) { p.Programme.Kiln[2].AirOnC = 78 },
	"act.germinate.longer": func(p *course.Piece, _ bool) {
		p.Programme.Germinate[1].Until = programme.Until{LatestH: 100}
	},
	"act.germinate.shorter-or-colder": func(p *course.Piece, _ bool) {
		p.Programme.Germinate[1].Until = programme.Until{LatestH: 40}
	},
	"act.lot.choose-another": func(p *course.Piece, up bool) {
		p.Lot.Counts4mL, p.Lot.Dormant, p.Lot.ChitThermalTimeCH = nil, odds.Alone(0, odds.Measured), odds.Alone(350, odds.Measured)
		p.Lot.Protein, p.Lot.Capacity = odds.Alone(0.095, odds.Measured), odds.Alone(1, odds.Measured)
		if up {
			p.Lot.Protein = odds.Alone(0.125, odds.Measured)
		}
	},
}

// Each limit that a malt misses names a change, where there is one, and that
// change moves the figure towards the limit: a limit half way is missed before it
// and met after.
func TestLimitsMissedAreMetByTheirAct(t *testing.T) {
	t.Parallel()
	// Half grown and half cured, so that there is room on either side; partly
	// unmodified corns are only seen after a day.
	halfway := func(p *course.Piece, parameter malt.Parameter) {
		p.Programme.Kiln[2].Until = programme.Until{LatestH: 5}
		p.Programme.Germinate[1].Until = programme.Until{LatestH: 60}
		if parameter == malt.PartlyUnmodified {
			p.Programme.Germinate = []programme.GerminateStep{growth(12, 0.45), growth(12, 0.45)}
		}
	}
	for parameter := range run(t, load(t, "piece.yaml")).Malt {
		for _, below := range []bool{true, false} {
			piece := func(limit malt.Limit, change func(p *course.Piece, up bool)) *course.Outcome {
				p := load(t, "piece.yaml")
				halfway(p, parameter)
				if change != nil {
					change(p, below && parameter == malt.Protein)
				}
				p.Specification = malt.Specification{Limits: []malt.Limit{limit}}
				return run(t, p)
			}
			code, limit := "malt."+string(parameter)+".above", malt.AtMost
			if below {
				code, limit = "malt."+string(parameter)+".below", malt.AtLeast
			}
			first := piece(malt.Limit{}, nil).Malt[parameter]
			before := first.Value.Mid
			missed := before / 2
			if below {
				missed = 2 * before
			}
			f, ok := told(piece(limit(parameter, missed, first.Basis), nil), code)
			if !ok {
				t.Errorf("%s does not come", code)
				continue
			}
			if f.Act == "" {
				t.Logf("%s names no change", code)
				continue
			}
			after := piece(malt.Limit{}, acts[f.Act]).Malt[parameter].Value.Mid
			if half := limit(parameter, (before+after)/2, first.Basis); (after > before) != below {
				t.Errorf("%s: %s moves it from %.4g to %.4g", code, f.Act, before, after)
			} else if _, ok := told(piece(half, acts[f.Act]), code); ok {
				t.Errorf("%s does not go", code)
			}
		}
	}
}

// A spot that falls below a limit which the whole bed passes is told, and goes with
// a level bed.
func TestSpotBelowALimit(t *testing.T) {
	p := load(t, "piece-uneven.yaml")
	o := run(t, p)
	whole, least := o.Malt[malt.DiastaticPower], math.Inf(1)
	for i := range o.Spots {
		least = min(least, o.Spots[i].Growth.Mean.DiastaticPowerASBC)
	}
	if !(least < whole.Value.Mid) {
		t.Fatalf("no spot is below the whole, %g", whole.Value.Mid)
	}
	p.Specification = malt.Specification{Limits: []malt.Limit{malt.AtLeast(malt.DiastaticPower, (least+whole.Value.Mid)/2, whole.Basis)}}
	const code = "malt.diastatic_power.spot-below"
	if f, ok := told(run(t, p), code); !ok || f.Act == "" {
		t.Errorf("%s does not come: %+v", code, f)
	}
	p.Level = true
	if _, ok := told(run(t, p), code); ok {
		t.Errorf("%s does not go", code)
	}
}
