package lab

import "awn/odds"

// EnergyH is the hour at which a germinative energy test is read.
const EnergyH = 72

// Energy is the germinative energy: the share germinated at 72 h. It reports
// false if the counts cannot be or none was made at 72 h. The test in 4 mL of
// water gives GE4, that in 8 mL GE8.
func Energy(counts []Count) (odds.Proportion, bool) {
	if CheckCounts(counts) != nil {
		return odds.Proportion{}, false
	}
	n, ok := totalAt(counts, EnergyH)
	return odds.Proportion{Hits: n, Of: counts[0].Of}, ok
}

// totalAt is the running total at a look made at the given hour.
func totalAt(counts []Count, atH float64) (int, bool) {
	for _, c := range counts {
		if c.AtH == atH {
			return c.Germinated, true
		}
	}
	return 0, false
}

// WaterSensitivity is the share that germinates in 4 mL of water but not in
// 8 mL, two samples of the lot. Sampling alone can make it negative.
//
//	WS = GE4 - GE8
//
// Definition.
// Check: CGC 2021, CDC Copeland: 99 and 91 % give 8 points.
func WaterSensitivity(energy4mL, energy8mL odds.Proportion) odds.Value {
	return odds.Difference(energy4mL, energy8mL, odds.Measured)
}

// Dormant is the share alive but not germinating, from an energy and a
// capacity counted on separate samples. Sampling alone can make it negative.
//
//	dormant = GC - GE
//
// Definition.
func Dormant(capacity, energy odds.Proportion) odds.Value {
	return odds.Difference(capacity, energy, odds.Measured)
}

// DormantOfSame is the count of dormant kernels where the peroxide was added to
// those that the energy test left: both counts are of the same kernels, so
// that the difference is itself a count, with narrower limits than Dormant. It
// reports false where the two counts cannot be of the same kernels.
func DormantOfSame(capacity, energy odds.Proportion) (odds.Proportion, bool) {
	d := odds.Proportion{Hits: capacity.Hits - energy.Hits, Of: capacity.Of}
	return d, capacity.Of == energy.Of && capacity.Valid() && d.Valid()
}

// Dead is the count of kernels that no test woke: 100 % less the capacity.
func Dead(capacity odds.Proportion) odds.Proportion { return capacity.Rest() }
