package dress

import (
	"fmt"

	"awn/barley"
	"awn/finding"
	"awn/plant"
	"awn/unit"
)

// Cleaned is barley on its way from the pit to the steep, reckoned back from
// what was steeped.
type Cleaned struct {
	Received Stream
	Dust     Stream // drawn off by air
	Foreign  Stream // straw, stones and other seeds
	Cleaned  Stream // without these two
	Screened Stream // through the screen, to feed
	Second   Stream // kept apart by the grading slot
	Steeped  Stream
	DriedKg  float64 // water that was dried off before the steep; less than nothing if it was taken up
	For      float64 // what screenings and second grade fetch
	Lot      barley.Lot
}

// Clean says what has to be received for so much barley to be steeped, as-is,
// and what it is then: a lot whose sieving was that of the barley as received
// is left with what the screens leave. Barley is cleaned at the moisture at
// which it was received and dried after that.
func Clean(c *Constants, p plant.Cleaning, lot barley.Lot, received unit.WetBasis, steepedKg float64) (Cleaned, error) {
	steeped := unit.WetBasis(lot.Moisture.Mid)
	if !(steepedKg > 0 && dry(steeped) > 0 && dry(received) > 0) {
		return Cleaned{}, fmt.Errorf("clean: %g kg steeped at %g, received at %g", steepedKg, steeped, received)
	}
	screened, second := c.screens(p, lot.Sieving)
	out := Cleaned{Lot: lot.Less(bothOf(screened, second))}
	feed, apart, whole := 0.0, 0.0, 0.0
	for i, share := range lot.Sieve {
		feed += share * screened[i]
		apart += share * second[i]
		whole += share
	}
	feed, apart = feed/whole, apart/whole
	left, cleanedShare := 1-feed-apart, 1-p.DustShare-p.ForeignShare
	if !(left > 0 && cleanedShare > 0) {
		return Cleaned{}, fmt.Errorf("clean: the screens and the air leave nothing of the barley")
	}
	steepedDry := steepedKg * dry(steeped)
	cleaned := steepedDry / left
	pit := cleaned / cleanedShare
	at := func(dryKg float64) Stream { return Stream{dryKg, received} }
	out.Received, out.Cleaned = at(pit), at(cleaned)
	out.Dust, out.Foreign = at(pit*p.DustShare), at(pit*p.ForeignShare)
	out.Screened, out.Second = at(cleaned*feed), at(cleaned*apart)
	out.Steeped = Stream{steepedDry, steeped}
	if received != steeped {
		out.DriedKg = at(steepedDry).Kg() - steepedKg
	}
	out.For = (out.Screened.Kg()*p.FeedPriceT + out.Second.Kg()*p.SecondPriceT) / kgPerT
	return out, nil
}

// screens are the parts of each sieve fraction that the screen takes out, and
// that the grading slot then keeps apart. A screen misses some of what could
// pass it, the grading slot as much.
func (c *Constants) screens(p plant.Cleaning, s barley.Sieving) (screened, second [barley.SieveClasses]float64) {
	thin, fine := s.Through(p.ScreenMM), s.Through(p.GradeMM)
	for i := range thin {
		screened[i] = c.Screens * thin[i]
		second[i] = c.Screens * max(0, fine[i]-screened[i])
	}
	return screened, second
}

func bothOf(a, b [barley.SieveClasses]float64) (sum [barley.SieveClasses]float64) {
	for i := range sum {
		sum[i] = a[i] + b[i]
	}
	return sum
}

// muchScreened is the share of barley as received, lost to screenings, dust and
// foreign matter, from which something is said.
//
// Assumed: common practice, no source.
const muchScreened = 0.08

// Findings appends what cleaning has to say.
func (c *Cleaned) Findings(dst []finding.Finding) []finding.Finding {
	lost := (c.Screened.DryKg + c.Dust.DryKg + c.Foreign.DryKg) / c.Received.DryKg
	if !(lost > muchScreened) {
		return dst
	}
	f := finding.New("lot.screenings.high", finding.Caution, "lot",
		finding.Figure{Name: "lost_tenths", Value: lost},
		finding.Figure{Name: "screenings_kg", Value: c.Screened.Kg()},
		finding.Figure{Name: "received_t", Value: c.Received.Kg() / kgPerT})
	f.Act, f.Chance, f.Cost, f.Source = "act.lot.plumper-or-narrower-slot", 0.8, lost-muchScreened/2, practice
	return append(dst, f)
}
