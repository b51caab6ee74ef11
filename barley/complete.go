package barley

import (
	"math"

	"awn/finding"
	"awn/odds"
)

// The figures that stand in for what nobody measured, each with a wide range.
// They describe an ordinary two-row malting lot.
//
// Assumed: common practice, no source, except the range of beta-glucan, which
// follows the published survey cited in SOURCES.md.
var (
	usualMoisture    = odds.Value{Mid: 0.120, Low: 0.100, High: 0.145, Standing: odds.Practice}
	usualProtein     = odds.Value{Mid: 0.110, Low: 0.095, High: 0.130, Standing: odds.Practice}
	usualKernelMg    = odds.Value{Mid: 45, Low: 36, High: 52, Standing: odds.Practice}
	usualTestWeight  = odds.Value{Mid: 66, Low: 62, High: 70, Standing: odds.Practice}
	usualCapacity    = odds.Value{Mid: 0.98, Low: 0.95, High: 0.995, Standing: odds.Practice}
	usualDormant     = odds.Value{Mid: 0.01, Low: 0, High: 0.05, Standing: odds.Practice}
	usualSensitivity = odds.Value{Mid: 0.10, Low: 0, High: 0.30, Standing: odds.Weak}
	usualThermalTime = odds.Value{Mid: 380, Low: 300, High: 700, Standing: odds.Weak}
	usualBetaGlucan  = odds.Value{Mid: 0.039, Low: 0.027, High: 0.044, Standing: odds.Weak}
	usualUptake      = odds.Value{Mid: 1, Low: 0.6, High: 1.4, Standing: odds.Weak}
	usualSieve       = [SieveClasses]float64{0.60, 0.30, 0.08, 0.02}
)

// Complete returns the lot with every unknown figure at its usual value and
// wide range, and one finding for each that had to be assumed. What the lot's
// own germination counts say about dormancy, water sensitivity and vigour is
// read from them elsewhere, before this.
func (l Lot) Complete() (Lot, []finding.Finding) {
	var assumed []finding.Finding
	usual := func(v *odds.Value, to odds.Value, thing string, chance, cost float64) {
		if v.Known() {
			return
		}
		*v = to
		f := finding.New("lot."+thing+".assumed", finding.Note, "lot",
			finding.Figure{Name: "value", Value: to.Mid},
			finding.Figure{Name: "low", Value: to.Low},
			finding.Figure{Name: "high", Value: to.High})
		f.Act, f.Chance, f.Cost = "act.lot.measure-"+thing, chance, cost
		assumed = append(assumed, f)
	}
	usual(&l.Moisture, usualMoisture, "moisture", 0.3, 0.01)
	usual(&l.Protein, usualProtein, "protein", 0.3, 0.02)
	usual(&l.KernelMassMg, usualKernelMg, "kernel-mass", 0.3, 0.005)
	usual(&l.TestWeightKgHL, usualTestWeight, "test-weight", 0.1, 0.001)
	usual(&l.Capacity, usualCapacity, "capacity", 0.2, 0.03)
	usual(&l.Dormant, usualDormant, "dormancy", 0.2, 0.03)
	usual(&l.WaterSensitivity, usualSensitivity, "water-sensitivity", 0.2, 0.02)
	usual(&l.ChitThermalTimeCH, usualThermalTime, "vigour", 0.3, 0.02)
	usual(&l.BetaGlucan, usualBetaGlucan, "beta-glucan", 0.3, 0.01)
	usual(&l.Uptake, usualUptake, "uptake", 0.3, 0.01)

	if sum := l.Sieve[0] + l.Sieve[1] + l.Sieve[2] + l.Sieve[3]; sum == 0 {
		l.Sieve = usualSieve
		f := finding.New("lot.sieve.assumed", finding.Note, "lot")
		f.Act, f.Chance, f.Cost = "act.lot.measure-sieve", 0.2, 0.005
		assumed = append(assumed, f)
	}
	return l, assumed
}

// Unknown is a figure that nobody measured.
func Unknown() odds.Value { return odds.Alone(math.NaN(), odds.Weak) }
