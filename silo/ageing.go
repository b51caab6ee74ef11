package silo

import (
	"math"

	"awn/odds"
	"awn/unit"
)

// Ageing is the law by which the life of a lot falls: probits of germination
// fall evenly with time.
type Ageing struct{ KE, CW, CH, CQ float64 }

// EllisRoberts is the law with the constants of the first paper on barley.
// Recalled: Ellis and Roberts 1980.
var EllisRoberts = Ageing{KE: 9.983, CW: 5.896, CH: 0.040, CQ: 0.000428}

// EllisRobertsCompiled is the law with the constants of a later table of many
// species. Source: Viability metrics undated.
var EllisRobertsCompiled = Ageing{KE: 9.144, CW: 5.342, CH: 0.0329, CQ: 0.000478}

// The range that the law was fitted over.
const (
	ageingLeastC, ageingMostC   = 3, 90
	ageingLeastWB, ageingMostWB = 0.055, 0.246
)

// ProbitDays is the time in which germination falls by one probit, days.
//
//	σ = 10^(KE - CW log10 m - CH t - CQ t²)      (m per cent wet basis, t in °C)
//
// Recalled: Ellis and Roberts 1980; the compiled constants read in Viability metrics undated.
// Valid: 3 to 90 °C, 5.5 to 24.6 %; NaN outside.
// Check: values computed by hand from both sets, in testdata/probit_days.csv.
// Note: for living kernels without dormancy, in closed vessels; likely too short for a good store.
func (a Ageing) ProbitDays(w unit.WetBasis, t unit.Celsius) float64 {
	if !(w >= ageingLeastWB && w <= ageingMostWB && t >= ageingLeastC && t <= ageingMostC) {
		return math.NaN()
	}
	return math.Pow(10, a.log(100*float64(w), float64(t)))
}

func (a Ageing) log(points, tempC float64) float64 {
	return a.KE - a.CW*math.Log10(points) - a.CH*tempC - a.CQ*tempC*tempC
}

// Lost is by how many probits spells have lowered germination.
//
//	Σ days/σ
//
// Recalled: Ellis and Roberts 1980.
// Valid: as ProbitDays; NaN outside.
func (a Ageing) Lost(spells []Spell) float64 {
	lost := 0.0
	for _, s := range spells {
		lost += s.Days / a.ProbitDays(unit.WetBasis(s.Moisture), unit.Celsius(s.TempC))
	}
	return lost
}

// Probits is a share of living kernels as a deviate of the normal
// distribution; infinite where all live or none does.
//
//	v = F⁻¹(p)
//
// Definition.
// Check: 99 % is 2.326.
func Probits(living float64) float64 {
	switch living {
	case 0:
		return math.Inf(-1)
	case 1:
		return math.Inf(1)
	}
	return odds.NormalQuantile(living)
}

// Forecast is the share that will germinate after spells, from a count made
// before them: by the law, with the band of the count and of the law. A count
// made later overrides it.
//
//	p = F(Ki - f Σ days/σ)      (Ki probits of the count, half a kernel off its ends)
//
// Recalled: Ellis and Roberts 1980.
func Forecast(a Ageing, count odds.Proportion, spells []Spell) odds.Value {
	factor := odds.Default(Parameters[ageingFactor])
	factor.Low, factor.High = 1/factor.High, 1/factor.Low // on the time lost
	lost := a.Lost(spells)
	return odds.Combine(func(x []float64) float64 { return odds.NormalChance(x[0] - x[1]*lost) }, start(count), factor)
}

// ageingFactor is the place of its line in Parameters.
const ageingFactor = 1

// start is the count as probits with its band. A count of all or none is
// moved in by half a kernel, so that it does not pass for certainty.
func start(count odds.Proportion) odds.Value {
	if !count.Valid() {
		return odds.Alone(math.NaN(), odds.Weak)
	}
	n := float64(count.Of)
	inside := func(p float64) float64 { return odds.NormalQuantile(min(max(p, 0.5/n), 1-0.5/n)) }
	return count.Value(odds.Measured).Map(inside)
}
