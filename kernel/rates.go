package kernel

import (
	"math"

	"awn/odds"
)

const (
	gasJMolK = 8.314462618 // molar gas constant, exact by definition of the SI
	zeroC    = 273.15
	// The state at which growth and respiration run at their nominal rates.
	nominalC = 16.0
	nominalM = 45.0 // % wet basis
)

// KillC is the temperature, °C, from which growth and respiration stop for
// good. Assumed: common practice, no source.
const KillC = 50.0

// LeastGrowingWB is the moisture (wet basis) below which nothing grows.
// Assumed: common practice, no source.
const LeastGrowingWB = 0.25

// Shapes of the gates; Assumed: judgement, no source.
const (
	chitGateWidth    = 1.5  // points
	warmC            = 26.0 // chitting slows above this
	warmWidthK       = 11.0 // and would stop this much higher
	growLimitC       = 28.0
	growLimitWidthK  = 1.5
	respireGateM     = 28.0 // % wet basis
	respireGateWidth = 2.5
	deathC           = 42.0
	deathWidthK      = 2.0
	respirePerPoint  = 0.03
)

// freshAir is the share of oxygen in air by volume.
const freshAir = 0.2095

// chitByTemp is the speed of the chit clock, °C: degrees above the base, faded
// where it is too warm.
func (c *Constants) chitByTemp(tempC float64) float64 {
	above := max(0, tempC-c.ChitBaseC)
	if tempC > warmC {
		over := (tempC - warmC) / warmWidthK
		above *= max(0, 1-over*over)
	}
	return above
}

// ChitRate is the speed of the chit clock with oxygen in plenty, °C·h per hour.
//
//	dh/dt = (t - tb) g(M), times 1 - ((t - 26)/11)² above 26 °C
//
// Source: Onofri undated, for the base and the line below 26 °C.
// Valid: up to 30 °C; above, the fade is a judgement.
// Check: Onofri undated, times to half germination at nine temperatures.
// Note: g is ChitByMoisture.
func (c *Constants) ChitRate(tempC, moistureWB float64) float64 {
	return c.chitByTemp(tempC) * c.ChitByMoisture(moistureWB)
}

// GrowthByTemp is the speed of growth relative to that at 16 °C.
//
//	f = q^((t - 16)/10) (1 + e^-8)/(1 + e^((t - 28)/1.5))
//
// Assumed: a rise per 10 K with a limit near 28 °C, common practice, no source.
// Valid: 8 to 28 °C; beyond, the limit takes it to nothing and it is weak.
// Check: 1 at 16 °C.
func (c *Constants) GrowthByTemp(tempC float64) float64 {
	return growthByTemp(math.Log(c.GrowPerTenK)/10, tempC)
}

// growthByTemp is GrowthByTemp of a given rise of its logarithm per K.
func growthByTemp(perK, tempC float64) float64 {
	return rise(perK*(tempC-nominalC)) * gate(growLimitC, tempC, growLimitWidthK) * perNominalGate
}

var perNominalGate = 1 / gate(growLimitC, nominalC, growLimitWidthK)

// GrowthByMoisture is the speed of growth relative to that at 45 % wet basis.
//
//	f = e^(s (M - 45)), 0 at 25 % and below      (M in %)
//
// Assumed: slope tuned on one published pair of steeping degrees (Psota 2015).
// Valid: 38 to 50 %; beyond, weak.
// Check: Psota 2015, beta-glucan of 14 varieties steeped to 42 and 45 %.
func (c *Constants) GrowthByMoisture(moistureWB float64) float64 {
	if !(moistureWB > LeastGrowingWB) {
		return 0
	}
	return rise(c.GrowPerPoint * (100*moistureWB - nominalM))
}

// ChitByMoisture is the share of full speed at which the chit clock runs.
//
//	g = 1/(1 + e^(-(M - m)/1.5))      (M in %)
//
// Assumed: judgement, no source; barley chits from 32 to 35 % on.
func (c *Constants) ChitByMoisture(moistureWB float64) float64 {
	return gate(100*moistureWB, c.ChitMoisturePC, chitGateWidth)
}

// RespirationByTemp is respiration relative to that at 16 °C.
//
//	f = exp(-(E/R)(1/T - 1/289.15)) / (1 + e^((t - 42)/2))      (T in K)
//
// Assumed: activation energy between the 30 and 55 kJ/mol of the literature;
// death by heat around 42 °C is a judgement, no source.
// Valid: 8 to 28 °C; above 50 °C it stops for good, see Clock.
func (c *Constants) RespirationByTemp(tempC float64) float64 {
	kelvin := tempC + zeroC
	warmer := rise(-c.RespireJMol / gasJMolK * (1/kelvin - 1/(nominalC+zeroC)))
	return warmer * gate(deathC, tempC, deathWidthK)
}

// RespirationByMoisture is respiration relative to that at 45 % wet basis.
//
//	f = e^(0.03 (M - 45)) / (1 + e^(-(M - 28)/2.5))      (M in %)
//
// Assumed: judgement, no source; the gate takes it to nothing in dry corn.
// Valid: 38 to 50 %; below, weak, and grain in store has a law of its own.
func RespirationByMoisture(moistureWB float64) float64 {
	m := 100 * moistureWB
	return rise(respirePerPoint*(m-nominalM)) * gate(m, respireGateM, respireGateWidth)
}

// RespirationByAge is the dry matter that a chitted kernel burns at 16 °C and
// 45 %, g per kg dry matter and hour.
//
//	r = r0 + r1 (1 - e^(-(a/1.5)^1.5))      (a growth age in d)
//
// Assumed: set so that a pale piece of five days loses 8 to 11 % in all,
// common practice, no source.
func (c *Constants) RespirationByAge(ageD float64) float64 {
	return c.RestRate + c.PeakRate*awake(ageD/c.OnsetD)
}

// OxygenFactor is what the oxygen of the air between the kernels leaves of
// growth and respiration; 1 in fresh air.
//
//	w = (x/(x + K)) (0.2095 + K)/0.2095      (x share by volume)
//
// Assumed: judgement, no source.
// Valid: shares of 0 to 1; NaN outside.
func (c *Constants) OxygenFactor(share float64) float64 {
	if !(share >= 0 && share <= 1) {
		return math.NaN()
	}
	return min(1, share/(share+c.OxygenHalf)*(freshAir+c.OxygenHalf)/freshAir)
}

// Chitted is the share of living, waking kernels that have chitted after a
// given thermal time.
//
//	P = F(ln(h/m)/s)      (F the normal distribution, m the median, s the spread)
//
// Source: Onofri undated, the form of whose germination counts this is.
// Valid: h of 0 or more.
// Check: Onofri undated, times to half germination at nine temperatures.
func (c *Constants) Chitted(thermalTimeCH, medianCH float64) float64 {
	if thermalTimeCH <= 0 {
		return 0
	}
	return odds.NormalChance(math.Log(thermalTimeCH/medianCH) / c.ChitSpread)
}
