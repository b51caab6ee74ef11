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

// weigh works out what of a load is paid for; NaN where a figure is missing.
func (c *Contract) weigh(netKg, dockage, moisture float64) Mass {
	m := Mass{NetKg: netKg, Dockage: dockage}
	if c.Dockage == DockageHalfDown {
		m.Dockage = HalfPercentDown(dockage)
	}
	m.CleanKg = netKg * (1 - m.Dockage)
	s := c.Shrink
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
		m.ShrinkKg = m.CleanKg * s.PerPoint * 100 * (moisture - s.Basis)
	}
	if wetter {
		m.HandlingKg = m.CleanKg * s.Handling
	}
	m.PayableKg = m.CleanKg - m.ShrinkKg - m.HandlingKg
	return m
}
