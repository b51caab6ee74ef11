package ledger

import (
	"math"
	"strconv"
)

// Amount is a mass of grain or malt with its moisture, as it was entered.
type Amount struct {
	FreshKg          Grams     `json:"fresh_kg"`
	Standing         Standing  `json:"standing"`                    // of the mass
	UFreshKg         Grams     `json:"u_fresh_kg,omitempty"`        // its standard uncertainty
	MoistureWB       *Fraction `json:"moisture_wb,omitempty"`       // water per mass as it is
	MoistureDB       *Fraction `json:"moisture_db,omitempty"`       // water per dry matter
	MoistureStanding Standing  `json:"moisture_standing,omitempty"` // "" is measured
	UMoistureWB      Fraction  `json:"u_moisture_wb,omitempty"`     // its standard uncertainty
}

// agree is how far two bases of one moisture may lie apart: the last digit of
// a moisture in per cent with two decimals, twice over.
const agree = 1e-4

func (a Amount) wet() float64 {
	switch {
	case a.MoistureWB != nil:
		return float64(*a.MoistureWB)
	case a.MoistureDB != nil:
		return float64(*a.MoistureDB) / (1 + float64(*a.MoistureDB))
	}
	return 0
}

func (a Amount) check(path string, found *Faults) {
	switch wb, db := a.MoistureWB, a.MoistureDB; {
	case wb == nil && db == nil && a.FreshKg > 0:
		found.add("record.moisture.missing", path, "")
	case wb != nil && db != nil && math.Abs(float64(*wb)-float64(*db)/(1+float64(*db))) > agree:
		found.add("record.moisture.two", path, strconv.FormatFloat(float64(*wb), 'g', -1, 64)+" and "+strconv.FormatFloat(float64(*db), 'g', -1, 64))
	}
}

// mass is the amount in the two goods. Dry matter is rounded to the gram and
// water takes the rest, so that together they are what was weighed. A moisture
// that was measured leaves the standing to the scale; one that was only worked
// out or guessed lowers it.
func (a Amount) mass() Mass {
	wet, fresh := a.wet(), float64(a.FreshKg)
	dry := Grams(math.Round(fresh * (1 - wet)))
	uMass, uWet := float64(a.UFreshKg), float64(a.UMoistureWB)*fresh
	standing := a.Standing
	if a.MoistureStanding != "" && a.MoistureStanding != Measured {
		standing = weaker(standing, a.MoistureStanding)
	}
	return Mass{
		Dry: dry, Water: a.FreshKg - dry,
		UDry:     Grams(math.Round(math.Hypot((1-wet)*uMass, uWet))),
		UWater:   Grams(math.Round(math.Hypot(wet*uMass, uWet))),
		Standing: standing,
	}
}
