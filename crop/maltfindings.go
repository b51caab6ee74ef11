package crop

import (
	"math"

	"awn/finding"
)

// Changes from one season's malt to the next that ask for another programme.
// Common practice, no source.
const (
	movedSteepOut  = 0.005 // of moisture
	movedChit      = 0.03
	movedAcrospire = 0.03
	movedSensitive = 0.03
	lineMissed     = 0.2 // share of the lots
)

// findings say what to change of the programme: against the season before where
// there is one, and where lots miss a specification.
func (m *Malting) findings() []Remark {
	t := telling{}
	if len(m.Seasons) == 0 || m.Seasons[0].kept == 0 {
		return nil
	}
	now := m.Seasons[0]
	for _, met := range now.Met {
		for i, share := range met.Lines {
			if 1-share > lineMissed {
				limit := met.Specification.Limits[i]
				r := t.say("crop.malt.limit-missed", finding.Caution, 1-share, 0.1, "act.crop.try-pilot", figure("share", 1-share))
				r.Parameter, r.Contract = limit.Parameter, met.Specification.Name
			}
		}
	}
	if len(m.Seasons) > 1 && m.Seasons[1].kept > 0 {
		t.programme(now, m.Seasons[1])
	}
	return t.out
}

// programme says how steep and growth are to move.
func (t *telling) programme(now, before MaltSeason) {
	moved := func(a, b, by float64) (up, down bool) { return a-b > by, b-a > by }
	a, b := now.Steps, before.Steps
	wet, dry := moved(a.SteepOut, b.SteepOut, movedSteepOut)
	steepOut := func(code, act string) {
		t.say(code, finding.Note, 1, 0.03, act, figure("now_wb", a.SteepOut), figure("before_wb", b.SteepOut))
	}
	if wet {
		steepOut("crop.malt.steep-out-wetter", "act.crop.shorten-immersion")
	}
	if dry {
		steepOut("crop.malt.steep-out-drier", "act.crop.lengthen-immersion")
	}
	_, slow := moved(a.Chit, b.Chit, movedChit)
	sensitive, _ := moved(now.Sensitive, before.Sensitive, movedSensitive)
	switch {
	case sensitive:
		t.say("crop.malt.more-sensitive", finding.Caution, 1, 0.06, "act.crop.lengthen-rests", figure("now", now.Sensitive), figure("before", before.Sensitive))
	case slow:
		t.say("crop.malt.slower-chit", finding.Note, 1, 0.04, "act.crop.lengthen-rests", figure("now", a.Chit), figure("before", b.Chit))
	}
	t.days(a, b)
}

// days says by how much growth is to be longer or shorter to come as far as the
// season before did.
func (t *telling) days(a, b Steps) {
	longer := a.GrowthD * (b.Acrospire/a.Acrospire - 1)
	tell := func(code, act string) {
		t.say(code, finding.Note, 1, 0.04, act, figure("now_x", a.Acrospire), figure("before_x", b.Acrospire), figure("by_h", 24*math.Abs(longer)))
	}
	switch {
	case b.Acrospire-a.Acrospire > movedAcrospire:
		tell("crop.malt.grows-less", "act.crop.lengthen-growth")
	case a.Acrospire-b.Acrospire > movedAcrospire:
		tell("crop.malt.grows-more", "act.crop.shorten-growth")
	case a.GrowthD-b.GrowthD > movedDays:
		t.say("crop.malt.takes-longer", finding.Note, 1, 0.02, "act.crop.plan-vessels", figure("now_d", a.GrowthD), figure("before_d", b.GrowthD))
	}
}

// movedDays is how much longer growth must take to be told.
const movedDays = 0.25
