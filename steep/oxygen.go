package steep

import "math"

// DissolvedOxygen is the oxygen of water at rest with air, kg/m³.
//
//	c = 0.468/(31.6 + t) p/101325      (t in °C)
//
// Recalled: Truesdale 1955, in the form that textbooks of water treatment give.
// Valid: 0 to 45 °C; NaN outside.
// Check: 14.6, 11.3, 9.1 and 7.6 g/m³ at 0, 10, 20 and 30 °C (recalled, any table).
func DissolvedOxygen(tempC, pressurePa float64) float64 {
	if !(tempC >= 0 && tempC <= 45) {
		return math.NaN()
	}
	return 0.468 / (31.6 + tempC) * pressurePa / standardPa
}

// Gases in the air between the kernels.
const (
	standardPa    = 101325.0
	gasJMolK      = 8.314462618
	zeroC         = 273.15
	oxygenKgMol   = 0.031998
	dioxideKgMol  = 0.044009
	freshOxygen   = 0.2095 // share of air by volume
	freshDioxide  = 0.0004
	voidShare     = 0.45 // of the bulk volume; common practice, no source
	fullAerationM = 1.95 // m³/(h t) at which the transfer parameter holds
	// sureSupply is how much of the oxygen at hand a step may take: life
	// quickens within a step, and what it takes must not pass what there is.
	sureSupply = 0.99
)

// gas is the air between the drained kernels.
type gas struct{ oxygenKg, dioxideKg float64 }

// gasKgM3 is the mass of a gas that fills a volume alone.
func (r *Run) gasKgM3(kgMol float64) float64 {
	return kgMol * r.setup.PressurePa / (gasJMolK * (r.now.tempC + zeroC))
}

// voidM3 is the volume of the air between the drained kernels.
func (r *Run) voidM3() float64 { return voidShare * r.now.bulkM3 * (1 - r.now.level) }

// fresh is outside air of a volume.
func (r *Run) fresh(m3 float64) gas {
	return gas{m3 * freshOxygen * r.gasKgM3(oxygenKgMol), m3 * freshDioxide * r.gasKgM3(dioxideKgMol)}
}

// shares are those of oxygen and carbon dioxide by volume.
func (r *Run) shares() (oxygen, dioxide float64) {
	v := r.voidM3()
	if v <= 0 {
		return math.NaN(), math.NaN()
	}
	g := &r.now.gas
	return g.oxygenKg / (v * r.gasKgM3(oxygenKgMol)), g.dioxideKg / (v * r.gasKgM3(dioxideKgMol))
}

// airM3H is the air that passes the drained grain: drawn by the fan, and the
// little that moves by itself.
func (r *Run) airM3H() float64 {
	return (r.now.suctionM3H + r.setup.Constants.DraughtM3HT*r.setup.CastT) * (1 - r.now.level)
}

// transferKgH is the oxygen that blown air dissolves in the water.
func (r *Run) transferKgH() float64 {
	aeration := r.now.aerationM3H / fullAerationM
	return r.setup.Constants.TransferKgHT * aeration * r.setup.CastT * r.now.level
}

// supply is what oxygen leaves of life to the grain under water and to the
// drained grain, 0 to 1. Under water it is the lesser of demand and supply;
// drained, that and what the air between the kernels allows.
func (r *Run) supply(dtH, demandKg float64) (wet, drained float64) {
	n := &r.now
	wet, drained = 1, 1
	if n.level > 0 {
		wet = lesser(n.dissolvedKg+r.transferKgH()*dtH, demandKg*n.level)
	}
	if n.level < 1 {
		oxygen, dioxide := r.shares()
		breath := r.setup.Constants.DioxideHalf
		drained = r.setup.Kernel.OxygenFactor(min(max(oxygen, 0), 1)) * breath / (breath + max(0, dioxide-freshDioxide))
		at := n.gas.oxygenKg + r.fresh(r.airM3H()*dtH).oxygenKg
		turnover := r.airM3H() * dtH / r.voidM3()
		drained = min(drained, lesser(sureSupply*at/(1+turnover), demandKg*(1-n.level)))
	}
	return wet, drained
}

// lesser is the share of the demand that the supply meets, at most 1.
func lesser(supply, demand float64) float64 {
	if demand <= supply {
		return 1
	}
	return max(0, supply/demand)
}

// breathe takes what life has used and given from water and air, and lets the
// air between the kernels be renewed.
func (r *Run) breathe(dtH, usedWetKg, usedDrainedKg, madeWetKg, madeDrainedKg float64) {
	n := &r.now
	n.dissolvedKg = max(0, n.dissolvedKg+r.transferKgH()*dtH-usedWetKg)
	if n.level > 0 {
		n.dissolvedKg = min(n.dissolvedKg, r.saturatedKg(n.level))
	} else {
		n.dissolvedKg = 0
	}
	n.sums.waterOxygenKg += usedWetKg
	n.sums.waterDioxideKg += madeWetKg
	v := r.voidM3()
	if v <= 0 {
		return
	}
	passed := r.fresh(r.airM3H() * dtH)
	renewed := 1 + r.airM3H()*dtH/v
	after := gas{
		(n.gas.oxygenKg + passed.oxygenKg - usedDrainedKg) / renewed,
		(n.gas.dioxideKg + passed.dioxideKg + madeDrainedKg) / renewed,
	}
	n.sums.airOxygenKg += after.oxygenKg - n.gas.oxygenKg + usedDrainedKg
	n.sums.airDioxideKg += after.dioxideKg - n.gas.dioxideKg - madeDrainedKg
	n.gas = after
}

// saturatedKg is the oxygen that the water in the vessel can hold.
func (r *Run) saturatedKg(level float64) float64 {
	tempC := min(max(r.now.waterC, coldestWaterC), hottestWaterC)
	return level * r.fullM3() * DissolvedOxygen(tempC, r.setup.PressurePa)
}
