package silo

// Aeration says when a fan may run. The zero value never runs it.
type Aeration struct {
	Allowed   bool
	ColderByK float64 // air-on at least so much colder than the grain's mean
	MostRH    float64 // of air-on
	TargetC   float64 // the grain's mean is not cooled below this
	// While dormancy lasts the mean is not cooled below HoldC.
	HoldC       float64
	DormantDays float64 // from the start of the run
}

// UsualAeration cools malting barley to 12 °C with air of 70 % at most that is
// 4 K colder, and holds 15 °C for five weeks where the lot is dormant.
//
// Assumed: common practice; the difference lies between the 2 and 6 K of Woods 2000.
func UsualAeration(dormant bool) Aeration {
	a := Aeration{Allowed: true, ColderByK: 4, MostRH: 0.70, TargetC: 12, HoldC: ReleaseC}
	if dormant {
		a.DormantDays = 35
	}
	return a
}

// Helps reports whether air-on of this state does the grain good: it cools it,
// does not wet it, and does not cool it further than it should be.
func (a Aeration) Helps(airOnC, airOnRH, grainMeanC, day float64) bool {
	least := a.TargetC
	if day < a.DormantDays {
		least = max(least, a.HoldC)
	}
	return a.Allowed && grainMeanC > least && airOnC <= grainMeanC-a.ColderByK && airOnRH <= a.MostRH
}
