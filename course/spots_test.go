package course_test

import (
	"math"
	"testing"

	"awn/course"
	"awn/plant"
)

// A bed of three spots on one plenum pressure, run from the documents that a
// user can run, against testdata/uneven.csv.
func TestUnevenKilning(t *testing.T) {
	o := run(t, load(t, "checks/case-p-uneven.yaml"))
	got := map[string]float64{}
	for _, s := range o.Spots {
		got[s.Name+" mean"], got[s.Name+" top"] = 100*s.Kilned.MoistureMean, 100*s.Kilned.MoistureWettest
		got[s.Name+" break"], got[s.Name+" air"] = s.Kilned.BreakH, s.AirKilned/o.Spots[1].AirKilned
	}
	for _, r := range published(t, "testdata/uneven.csv") {
		x, ok := got[r.figure]
		if !ok {
			t.Fatalf("nothing is compared with %s", r.figure)
		}
		t.Logf("%-11s %7.3f %s, elsewhere %7.3f", r.figure, x, r.unit, r.value)
		near(t, r.figure, x, r.value, r.tolerance)
	}
	if b := got["thick break"]; !(b > got["mean break"] && b < 9.7+0.3) {
		t.Errorf("the thick spot breaks after %.2f h", b)
	}
}

// On a level bed the old side of the house makes what the new side makes.
func TestLevelBedIsTheSamePiece(t *testing.T) {
	a, b := load(t, "piece.yaml"), load(t, "piece-uneven.yaml")
	b.Level, b.Programme = true, a.Programme
	level, new := run(t, b), run(t, a)
	if len(level.Spots) != 0 {
		t.Errorf("a level bed has %d spots", len(level.Spots))
	}
	if level.Kilned != new.Kilned || level.Growth.Mean != new.Growth.Mean {
		t.Errorf("%+v\nand\n%+v", level.Kilned, new.Kilned)
	}
}

// The spots are the piece: their dry matter is all of it, and its figures are
// their means. Their stages close as those of a level bed do.
func TestSpotsAreThePiece(t *testing.T) {
	o := run(t, load(t, "piece-uneven.yaml"))
	var dry, floor, water, colour, age, air float64
	for _, s := range o.Spots {
		dry, floor, air = dry+s.DryShare, floor+s.Share, air+s.Share*s.AirKilned
		water += s.DryShare * dryBasis(s.Kilned.MoistureMean)
		colour += s.DryShare * s.Kilned.ColourMean
		age += s.DryShare * s.Growth.Mean.AgeD
	}
	const rounding = 1e-9
	near(t, "dry matter", dry, 1, rounding)
	near(t, "floor", floor, 1, rounding)
	near(t, "air", air, 1, rounding)
	near(t, "moisture", water, dryBasis(o.Kilned.MoistureMean), rounding)
	near(t, "colour", colour, o.Kilned.ColourMean, rounding)
	near(t, "age", age, o.Growth.Mean.AgeD, rounding)
	for _, s := range o.Stages {
		for good, off := range s.Balance.Closure {
			if !(off <= closure) {
				t.Errorf("%s: good %d is off by %.3g", s.Stage, good, off)
			}
		}
	}
}

// Spots are cut into four fifths of the layers of a level bed. Cut as finely, no
// spot moves by 0.05 points of moisture or a tenth of an hour.
func TestSpotsAreCutFinelyEnough(t *testing.T) {
	p := load(t, "piece-uneven.yaml")
	usual := run(t, p)
	p.Grid = course.Grid{GerminateLayers: 20, KilnLayers: 60}
	p = timed(p, usual)
	fine := run(t, p)
	for i, s := range usual.Spots {
		f := fine.Spots[i]
		near(t, s.Name+", mean", 100*s.Kilned.MoistureMean, 100*f.Kilned.MoistureMean, 0.05)
		near(t, s.Name+", break", s.Kilned.BreakH, f.Kilned.BreakH, 0.1)
		near(t, s.Name+", Kolbach", 100*s.Growth.Mean.Kolbach, 100*f.Growth.Mean.Kolbach, 0.1)
	}
}

// A clock that recirculates before the thick spot has broken makes malt that
// passes as a whole and is not safe to strip. Level, or with return air once the
// last spot has broken and an hour more, it is.
func TestWholePassesOverASpotThatFails(t *testing.T) {
	p := load(t, "piece-uneven.yaml")
	o := run(t, p)
	for _, v := range o.Judged {
		if v.Word != "passes" {
			t.Errorf("%s %s as a whole", v.Limit.Parameter, v.Word)
		}
	}
	for _, code := range []string{"malt.smm.spot-above", "kiln.strip.wet", "kiln.recirculation.early"} {
		f, ok := told(o, code)
		if !ok || f.Spot != "thick" {
			t.Fatalf("%s is not told of the thick spot: %v", code, f)
		}
	}
	f, _ := told(o, "malt.smm.spot-above")
	if !(figure(f, "recirculated_h") < figure(f, "spot_break_h")) || f.Act != "act.kiln.recirculate-after-last-break" {
		t.Errorf("the cause is not told: %+v", f)
	}
	gone := func(what string, q course.Piece, codes ...string) {
		o := run(t, &q)
		for _, code := range codes {
			if f, ok := told(o, code); ok {
				t.Errorf("%s, and still %+v", what, f)
			}
		}
	}
	level := *p
	level.Level = true
	gone("the bed is level", level, "malt.smm.spot-above", "kiln.strip.wet", "kiln.recirculation.early")
	late := *p
	late.Programme.Kiln = append(late.Programme.Kiln[:0:0], late.Programme.Kiln...)
	late.Programme.Kiln[0].Until.LatestH = 12.5
	gone("return air waits for the last spot", late, "malt.smm.spot-above", "kiln.strip.wet", "kiln.recirculation.early")
}

// A combined vessel keeps its layers on the way to its kilning, whatever the
// programme says of mixing; a vessel of its own does not.
func TestCombinedVesselKeepsItsLayers(t *testing.T) {
	p := load(t, "piece.yaml")
	p.House.Germinators = append([]plant.Germinator(nil), p.House.Germinators...)
	spread := func(kind plant.GerminatorKind) float64 {
		p.House.Germinators[p.Germinator].Kind = kind
		o := run(t, p)
		first := o.Bed[1]
		return first.TempC[first.Layers-1] - first.TempC[0]
	}
	if combined, box := spread(plant.Combined), spread(plant.Box); !(combined > 1 && math.Abs(box) < 1e-6) {
		t.Errorf("onto the kiln goes a bed with %.2f K between floor and top from a combined vessel, %.2f K from a box", combined, box)
	}
}
