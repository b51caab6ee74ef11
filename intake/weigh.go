package intake

import (
	"math"

	"awn/barley"
	"awn/unit"
)

// DockageRule says how dockage is taken off.
type DockageRule int

// The rules.
const (
	DockageExact    DockageRule = iota // as read
	DockageHalfDown                    // recorded in whole and half per cent, the rest dropped
)

// Shrink says how mass is brought from the moisture of the load to the basis
// of the contract.
type Shrink struct {
	Basis    float64 // wet basis
	PerPoint float64 // share of the mass for each point above the basis; NaN: by dry matter
	Handling float64 // share of the mass before shrink, taken off a load that is dried
	Credit   bool    // a drier load is paid as if it held the basis
}

// Mass is what of a load is paid for, step by step, kg.
type Mass struct {
	NetKg      float64 // gross less tare
	Dockage    float64 // share taken off, as recorded
	CleanKg    float64 // net less dockage
	ShrinkKg   float64 // taken off for moisture
	HandlingKg float64 // taken off for drying it
	PayableKg  float64
	ByDryKg    float64 // what the dry matter alone would give at the basis: a check on the rule
}

// PostedShrink is the share of its mass that a posted rule takes off grain for
// the points of moisture above the basis.
//
//	s = 100 r (w - b)      (r the share for each point)
//
// Assumed: common practice; posted rules take 1.2 to 1.5 % a point.
// Check: 2.5 points at 1.4 % are 3.50 %.
// Note: by dry matter a point takes 1/(1 - b) per cent, 1.1561 at 13.5 %; what a rule takes beyond stands for handling.
func PostedShrink(perPoint, moisture, basis float64) float64 {
	return perPoint * 100 * (moisture - basis)
}

// Weigh works out what of a load is paid for; NaN where a figure is missing.
func Weigh(netKg, dockage, moisture float64, rule DockageRule, s Shrink) Mass {
	m := Mass{NetKg: netKg, Dockage: dockage}
	if rule == DockageHalfDown {
		m.Dockage = HalfPercentDown(dockage)
	}
	m.CleanKg = netKg * (1 - m.Dockage)
	if math.IsNaN(s.Basis) { // nothing is taken off for moisture
		m.PayableKg, m.ByDryKg = m.CleanKg, m.CleanKg
		return m
	}
	m.ByDryKg = barley.WeightAt(m.CleanKg, unit.WetBasis(moisture), unit.WetBasis(s.Basis))
	wetter := moisture > s.Basis
	switch {
	case !wetter && !s.Credit && !math.IsNaN(moisture):
	case math.IsNaN(s.PerPoint):
		m.ShrinkKg = m.CleanKg - m.ByDryKg
	default:
		m.ShrinkKg = m.CleanKg * PostedShrink(s.PerPoint, moisture, s.Basis)
	}
	if wetter {
		m.HandlingKg = m.CleanKg * s.Handling
	}
	m.PayableKg = m.CleanKg - m.ShrinkKg - m.HandlingKg
	return m
}
