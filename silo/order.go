package silo

import (
	"cmp"
	"math"
	"slices"
)

// Stock is a silo as it competes for the next steep.
type Stock struct {
	Name     string
	To95     Days    // from today
	ReadyIn  float64 // days until dormancy is gone; 0 if it is not dormant
	Sprouted bool
	Heating  bool
	Falling  bool // a fall of germination is shown, not only forecast
}

// Reason is why a silo stands where it does in the order.
type Reason string

// The reasons.
const (
	BecauseSprouted Reason = "sprouted"    // does not keep
	BecauseHeating  Reason = "heating"     // is losing life now
	BecauseFalling  Reason = "falling"     // its counts fall
	BecauseSooner   Reason = "sooner"      // reaches 95 % before those after it
	BecauseDormant  Reason = "dormant"     // not ready yet
	BecauseNoRest   Reason = "cannot-wait" // dormant, and its days run out before it wakes
	BecauseUnknown  Reason = "not-known"   // nothing was counted
)

// Place is one silo in the order of use.
type Place struct {
	Stock   int // index
	Reasons []Reason
}

// Order puts silos in the order of use: sprouted, heating, then by the days
// that they have left, and what is dormant last unless it cannot wait.
func Order(stocks []Stock) []Place {
	out := make([]Place, len(stocks))
	for i, s := range stocks {
		out[i] = Place{i, s.reasons()}
	}
	slices.SortStableFunc(out, func(a, b Place) int {
		x, y := stocks[a.Stock], stocks[b.Stock]
		return cmp.Or(cmp.Compare(x.class(), y.class()), cmp.Compare(x.days(), y.days()))
	})
	return out
}

// days is what a silo has left, endless where no end is seen.
func (s Stock) days() float64 {
	if math.IsNaN(s.To95.Mid) {
		return math.Inf(1)
	}
	return s.To95.Mid
}

func (s Stock) waits() bool { return s.ReadyIn > 0 && s.ReadyIn <= s.days() }

func (s Stock) class() int {
	switch {
	case s.Sprouted:
		return 0
	case s.Heating:
		return 1
	case !s.waits():
		return 2
	}
	return 3
}

func (s Stock) reasons() (out []Reason) {
	for _, r := range []struct {
		is  bool
		why Reason
	}{
		{s.Sprouted, BecauseSprouted}, {s.Heating, BecauseHeating}, {s.Falling, BecauseFalling},
		{s.waits(), BecauseDormant}, {s.ReadyIn > 0 && !s.waits(), BecauseNoRest}, {math.IsNaN(s.To95.Mid), BecauseUnknown},
	} {
		if r.is {
			out = append(out, r.why)
		}
	}
	if len(out) == 0 {
		out = append(out, BecauseSooner)
	}
	return out
}

// Stock is how the store competes for the next steep.
func (a *Account) Stock(s *Store) Stock {
	out := Stock{Name: s.Name, To95: a.To95, Sprouted: s.Sprouted, Falling: a.Capacity != nil && a.Capacity.Going() == Falling}
	for _, f := range a.Findings {
		out.Heating = out.Heating || f.Code == "silo.temperature.rising"
	}
	if a.Dormant.Known() && a.Dormant.Mid > 1-energyLimit {
		// Evenly gone by the middle of the range, less what is gone by now.
		weeks := s.Constants.DormancyWeeks
		if weeks == 0 {
			weeks = Defaults().DormancyWeeks
		}
		warm := 0.0
		if ge := last(s.Energy, s.Today); ge != nil {
			scratch := *a
			warm = WarmDays(since(s.spells(&scratch), ge.Day), ReleaseC)
		}
		out.ReadyIn = max(0, 7*weeks-warm)
	}
	return out
}
