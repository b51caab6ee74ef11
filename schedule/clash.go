package schedule

import (
	"cmp"
	"slices"
)

// Clash is a vessel that more pieces want at a time than it takes.
type Clash struct {
	Vessel    Vessel
	First     int // number of the run that is there first
	Second    int // and of the one that comes to it
	From, To  float64
	Certainly bool // by the middle of what is expected; otherwise where the first is late and the second early
}

// stay is a leg with the run that makes it.
type stay struct {
	run int
	Leg
}

// stays are all legs in a vessel, by when they begin.
func stays(runs []Run, v Vessel) (out []stay) {
	for i, r := range runs {
		for _, l := range r.Legs {
			if l.Road == v.Road && l.Vessel == v.Name {
				out = append(out, stay{i, l})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b stay) int { return cmp.Compare(a.From.H, b.From.H) })
	return out
}

// slackH is how long two pieces may overlap on paper: acts are entered to the
// minute, and one piece is let in as the other is let out.
const slackH = 0.25

// Clashes are the double bookings of vessels, in the order of their beginnings.
// Stays that are over are what happened, and no clash. A piece that stands in a
// vessel until nobody knows when keeps it from all that come later.
func Clashes(runs []Run, vessels []Vessel) (out []Clash) {
	for _, v := range vessels {
		if v.Road == Silo || v.Road == Store {
			continue
		}
		all := stays(runs, v)
		for k, second := range all {
			if second.Ended {
				continue
			}
			if c, found := v.taken(all[:k], second); found {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Clash) int { return cmp.Compare(a.From, b.From) })
	return out
}

// taken is the clash of a stay with those that began before: with the one that
// leaves last, once there are as many as the vessel takes.
func (v Vessel) taken(before []stay, second stay) (Clash, bool) {
	var sure, maybe []stay
	for _, b := range before {
		switch {
		case b.Ended:
		case b.Open || b.To.H > second.From.H+slackH:
			sure = append(sure, b)
		case b.To.HighH > second.From.LowH+slackH:
			maybe = append(maybe, b)
		}
	}
	room := max(v.Room, 1)
	both := append(slices.Clone(sure), maybe...)
	if len(both) < room {
		return Clash{}, false
	}
	certainly := len(sure) >= room
	among := both
	if certainly {
		among = sure
	}
	first := slices.MaxFunc(among, func(a, b stay) int { return cmp.Compare(a.last(), b.last()) })
	c := Clash{Vessel: v, First: first.run, Second: second.run, From: second.From.H, To: min(first.last(), second.To.H), Certainly: certainly}
	if !certainly {
		c.From, c.To = second.From.LowH, first.To.HighH
	}
	return c, true
}

// last is when a stay ends; never, if nobody can say.
func (s stay) last() float64 {
	if s.Open {
		return neverH
	}
	return s.To.H
}

// neverH is beyond every plan: a hundred years.
const neverH = 100 * 365.25 * 24
