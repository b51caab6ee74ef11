package germinate

import (
	"math"

	"awn/barley"
)

// BetaGlucan is the beta-glucan left in a corn of a growth age, kg per kg dry
// matter, where its barley had atStart.
//
//	B = B0 exp(-k L), L = 0.3 ln(1 + exp((θ - θL)/0.3))
//
// Assumed: the shape; rate and lag are fitted to Lee 2008.
// Valid: age of 0 or more; NaN below.
// Check: testdata/glucan.csv, two points through which it was fitted.
// Note: nothing is dissolved before the lag; then a fixed share a day.
func (c *Constants) BetaGlucan(atStart, ageD float64) float64 {
	if !(ageD >= 0) {
		return math.NaN()
	}
	past := glucanEaseD * math.Log1p(math.Exp((ageD-c.GlucanLagD)/glucanEaseD))
	return atStart * math.Exp(-c.GlucanRate*past)
}

// glucanEaseD is how gently the lag of BetaGlucan ends.
const glucanEaseD = 0.3

// WortBetaGlucan is what the beta-glucan of a malt comes to in its laboratory
// wort, mg/L.
//
//	b = 111 000 B f        (B in kg/kg; f the share that a mash dissolves)
//
// Assumed: 111 g of malt dry matter behind a litre of Congress wort, and half of it dissolved.
// Check: Psota 2015, difference between two degrees of steep.
func (c *Constants) WortBetaGlucan(betaGlucan float64) float64 {
	return congressDryG * 1000 * betaGlucan * c.GlucanInWort
}

// congressDryG is the malt dry matter behind a litre of Congress wort, g.
const congressDryG = 111

// Friability is the share of a corn that a friabilimeter would break away.
//
//	F = 1 - (B/B0)^n
//
// Assumed: cell walls gone are walls that break; common practice, no source.
// Check: Psota 2015, cell wall degradation between two degrees of steep.
func (c *Constants) Friability(betaGlucan, atStart float64) float64 {
	return 1 - math.Pow(betaGlucan/atStart, c.FriablePower)
}

// Kolbach is the share of protein that a mash dissolves from a corn of a growth
// age; the S/T ratio is the same figure.
//
//	K = K∞ - (K∞ - K0) exp(-θ/2.7)
//
// Assumed: the shape and its days; K∞ belongs to the variety.
// Valid: age of 0 or more; NaN below.
// Check: AMBA 2002, Harrington; Psota 2015, difference between two degrees of steep.
func (c *Constants) Kolbach(ageD float64) float64 {
	return c.KolbachEnd - (c.KolbachEnd-c.KolbachBarley)*stillToGo(ageD, c.KolbachDays)
}

// FAN is free amino nitrogen, mg per 100 g of malt dry matter.
//
//	N = 10⁵ f K P/6.25        (P protein in kg/kg dry matter)
//
// Recalled: Kunze 2010, about a fifth of soluble nitrogen is free amino nitrogen.
// Note: no table was at hand to check it; above 20 °C it is less.
func (c *Constants) FAN(kolbach, protein float64) float64 {
	return 1e5 * c.AminoShare * kolbach * protein / proteinPerNitrogen
}

// proteinPerNitrogen is the conversion of the trade.
const proteinPerNitrogen = 6.25

// AlphaAmylase is the alpha-amylase of finished pale malt of a growth age, DU.
//
//	a = A∞ (1 - exp(-(θ/3.3)²))
//
// Assumed: the shape; A∞ is set from AMBA 2002, Harrington.
// Valid: age of 0 or more; NaN below.
func (c *Constants) AlphaAmylase(ageD float64) float64 {
	if !(ageD >= 0) {
		return math.NaN()
	}
	x := ageD / c.AlphaDays
	return c.AlphaEnd * -math.Expm1(-x*x)
}

// DiastaticPower is the diastatic power of finished pale malt of a growth age,
// degrees of the ASBC.
//
//	D = D0 + (D∞ - D0)(1 - exp(-θ/2.2)), D0 = 0.4 D∞
//
// Assumed: common practice, no source; D∞ belongs to the variety.
// Valid: age of 0 or more; NaN below.
// Check: AMBA 2002, Harrington.
func (c *Constants) DiastaticPower(ageD float64) float64 {
	return c.PowerEnd * (1 - (1-c.PowerBarley)*stillToGo(ageD, c.PowerDays))
}

// LimitDextrinase is the limit dextrinase of a corn of a growth age as a share
// of what long growth gives.
//
//	l = 1/(1 + exp(-(θ - 4.5)/0.7))
//
// Assumed: common practice, no source.
// Valid: age of 0 or more; NaN below.
// Note: publications contradict each other on when it rises; orientation only.
func (c *Constants) LimitDextrinase(ageD float64) float64 {
	if !(ageD >= 0) {
		return math.NaN()
	}
	return 1 / (1 + math.Exp((c.DextrinaseMid-ageD)/dextrinaseRiseD))
}

// dextrinaseRiseD is how long the rise of limit dextrinase takes.
const dextrinaseRiseD = 0.7

// Viscosity is that of laboratory wort of 8.6 °P, mPa·s.
//
//	v = 1.43 + 0.00055 b        (b in mg/L)
//
// Assumed: common practice, no source.
func (c *Constants) Viscosity(wortBetaGlucanMgL float64) float64 {
	return c.WortThickness + viscosityPerMgL*wortBetaGlucanMgL
}

// viscosityPerMgL is what beta-glucan adds to the viscosity of wort, mPa·s L/mg.
const viscosityPerMgL = 0.00055

// ExtractFine is the extract of the fine grist on dry matter, kg/kg, of a corn
// of a growth age from barley of that protein and kernel dry matter.
//
//	E = E∞ (1 - 0.10 exp(-θ/1.3)), E∞ = 0.845 - 0.85 P + 0.0015 m        (m in mg)
//
// Recalled: Bishop 1948, the rule of extract, nitrogen and kernel weight, in the
// form that the trade uses; the loss of short growth is common practice.
// Valid: age of 0 or more; NaN below.
// Check: AMBA 2002, Harrington.
func (c *Constants) ExtractFine(ageD, protein, kernelDryMg float64) float64 {
	end := c.ExtractBase - extractPerProtein*protein + extractPerMg*kernelDryMg
	return end * (1 - c.ExtractShort*stillToGo(ageD, c.ExtractDays))
}

// What protein takes from extract and what a heavy kernel adds, per kg/kg and
// per mg.
const (
	extractPerProtein = 0.85
	extractPerMg      = 0.0015
)

// CoarseFineGap is what the coarse grist yields less than the fine, kg/kg dry
// matter.
//
//	d = 0.01 + 0.06 B/B0
//
// Assumed: common practice, no source.
func (c *Constants) CoarseFineGap(betaGlucan, atStart float64) float64 {
	return coarseLeast + c.CoarseGap*betaGlucan/atStart
}

// coarseLeast is the difference that is left in fully modified malt.
const coarseLeast = 0.01

// Acrospire is the length of the shoot under the husk over that of the kernel.
//
//	a = 0.16 (θ - 0.2), at least 0, at most 1.2
//
// Assumed: three quarters of the kernel after five days at 16 °C; common practice, no source.
// Valid: age of 0 or more; NaN below.
func (c *Constants) Acrospire(ageD float64) float64 {
	switch length := c.AcrospireRate * (ageD - c.AcrospireLagD); {
	case !(ageD >= 0):
		return math.NaN()
	case length <= 0:
		return 0
	case length >= longestAcrospire:
		return longestAcrospire
	default:
		return length
	}
}

// longestAcrospire is where a shoot that has left the kernel is told no longer.
const longestAcrospire = 1.2

// Survival scales a figure of finished pale malt to what this kiln left: the
// curves of AlphaAmylase and DiastaticPower already hold the loss of a pale
// kiln, so only the difference from it counts.
//
//	s = left / 0.93 for alpha-amylase, left / 0.60 for diastatic power
//
// Assumed: a pale kiln of 4 h at 84 °C leaves those shares, by the kiln's own rates.
// Note: green malt stands above 1, as it has lost nothing yet.
func Survival(h barley.Heat) (alpha, power float64) {
	return h.AlphaAmylase / paleAlphaLeft, h.BetaAmylase / palePowerLeft
}

// What a pale kiln leaves of alpha-amylase and of diastatic power.
const (
	paleAlphaLeft = 0.93
	palePowerLeft = 0.60
)

// stillToGo is the share of a change that is still to come at an age.
func stillToGo(ageD, days float64) float64 {
	if !(ageD >= 0) {
		return math.NaN()
	}
	return math.Exp(-ageD / days)
}
