package course

import (
	"math"

	"awn/barley"
	"awn/finding"
	"awn/lab"
	"awn/odds"

	"awn/kernel"
)

// known reads what the lot's own counts and measurements say, and gives what
// nobody measured its usual value, each with a finding.
func (c *constants) known(lot barley.Lot) (barley.Lot, []finding.Finding) {
	readCounts(&lot, &c.kernel)
	lot, assumed := lot.Complete()
	if lot.FirstImmersion != nil {
		lot.Uptake = odds.Alone(c.kernel.UptakeOfImmersion(&lot), odds.Measured)
		assumed = without(assumed, "lot.uptake.assumed")
	} else if lot.Uptake.Standing != odds.Measured {
		lot.Uptake.Mid = kernel.UptakeOfProtein(lot.Protein.Mid)
	}
	return lot, assumed
}

// readCounts fills what the germination tests tell of dormancy, water
// sensitivity and vigour. A sampling difference below nothing counts as none.
func readCounts(lot *barley.Lot, k *kernel.Constants) {
	energy4, has4 := lab.Energy(lot.Counts4mL)
	energy8, has8 := lab.Energy(lot.Counts8mL)
	if has4 && lot.Capacity.Known() && !lot.Dormant.Known() {
		lot.Dormant = odds.Alone(max(0, lot.Capacity.Mid-energy4.Fraction()), odds.Measured)
	}
	if has4 && !lot.Capacity.Known() {
		// What does not germinate in three days may be dead or asleep; without a
		// capacity it is taken for dead.
		lot.Capacity = energy4.Value(odds.Measured)
		lot.Dormant = odds.Alone(0, odds.Weak)
	}
	if has4 && has8 && !lot.WaterSensitivity.Known() {
		lot.WaterSensitivity = lab.WaterSensitivity(energy4, energy8)
		s := &lot.WaterSensitivity
		s.Mid, s.Low, s.High = max(0, s.Mid), max(0, s.Low), max(0, s.High)
	}
	if median := k.MedianOfCounts(lot.Counts4mL); !math.IsNaN(median) && !lot.ChitThermalTimeCH.Known() {
		lot.ChitThermalTimeCH = odds.Alone(median, odds.Measured)
	}
}

// without drops the findings of one code.
func without(all []finding.Finding, code string) []finding.Finding {
	kept := all[:0]
	for _, f := range all {
		if f.Code != code {
			kept = append(kept, f)
		}
	}
	return kept
}
