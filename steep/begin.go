package steep

import (
	"fmt"
	"math"

	"awn/programme"
)

// mostSuctionM3HT is the most suction air that a step may ask for.
const mostSuctionM3HT = 3000.0

// Begin sets what is done from now on. An immersion fills the vessel over its
// hours of filling; every other step lets the water run off over its hours of
// draining.
func (r *Run) Begin(step programme.SteepStep) error {
	n, v := &r.now, &r.setup.Vessel
	water, airC := r.setup.WaterC, r.setup.AirC
	if !math.IsNaN(step.WaterC) {
		water = step.WaterC
	}
	if !math.IsNaN(step.AirC) {
		airC = step.AirC
	}
	if err := checkWater(water); err != nil {
		return err
	}
	if !(airC >= -60 && airC <= 60) {
		return fmt.Errorf("steep: air of %g °C, and it must lie between -60 and 60", airC)
	}
	if !(step.AerationM3HT >= 0 && step.SuctionM3HT >= 0 && step.SuctionM3HT <= mostSuctionM3HT && isNumber(step.AerationM3HT)) {
		return fmt.Errorf("steep: aeration %g and suction %g m³/(h t), and they must lie between 0 and %g",
			step.AerationM3HT, step.SuctionM3HT, mostSuctionM3HT)
	}
	if !(step.SprayKgT >= 0 && isNumber(step.SprayKgT)) || (step.SprayKgT > 0 && !(step.Until.LatestH > 0)) {
		return fmt.Errorf("steep: a spray of %g kg/t over %g h", step.SprayKgT, step.Until.LatestH)
	}
	if !(step.Reused >= 0 && step.Reused <= 1) {
		return fmt.Errorf("steep: %g of the water is to have been used before", step.Reused)
	}
	r.watchFilling()
	n.step, n.beganH, n.airC, n.stepWaterC = step, n.atH, airC, water
	n.aerationM3H, n.suctionM3H = 0, 0
	switch {
	case step.UnderWater():
		if n.level == 0 {
			n.immersedH, n.waterC, n.dissolvedKg = 0, water, 0
		}
		n.aerationM3H = min(step.AerationM3HT, v.AerationM3H/r.setup.CastT)
		r.watchWater(water)
	case step.Kind != programme.Couch:
		n.suctionM3H = min(step.SuctionM3HT*r.setup.CastT, v.SuctionM3H)
	}
	r.watchMeans(step)
	return nil
}

// flood moves the water level on by dtH.
func (r *Run) flood(dtH float64) {
	n := &r.now
	if n.step.UnderWater() {
		if n.level < 1 {
			r.rise(min(1, n.level+part(dtH, r.setup.Vessel.FillH)))
		}
	} else if n.level > 0 {
		r.fall(max(0, n.level-part(dtH, r.setup.Vessel.DrainH)))
	}
}

// part is the share of a vessel that fills or drains in dtH.
func part(dtH, wholeH float64) float64 {
	if wholeH <= dtH {
		return 1
	}
	return dtH / wholeH
}

// rise lets the water up to a level: it reaches drained grain, whose air it
// drives out and whose film and caps it fills.
func (r *Run) rise(level float64) {
	n := &r.now
	reached := (level - n.level) / (1 - n.level) // of the drained grain
	full := r.setup.Kernel.FilmDB * n.dryKg
	r.takeWater((level-n.level)*full-reached*n.filmKg, n.stepWaterC)
	n.filmKg -= reached * n.filmKg

	newKg, oldKg := (level-n.level)*r.fullM3()*waterKgM3, n.level*r.fullM3()*waterKgM3
	n.waterC = (oldKg*n.waterC + newKg*n.stepWaterC) / (oldKg + newKg)
	n.dissolvedKg += (level - n.level) * (1 - n.step.Reused) * r.fullM3() * DissolvedOxygen(n.stepWaterC, r.setup.PressurePa)
	n.sums.usedM3 += (level - n.level) * r.fullM3()

	n.sums.airOxygenKg -= reached * n.gas.oxygenKg
	n.sums.airDioxideKg -= reached * n.gas.dioxideKg
	n.gas.oxygenKg -= reached * n.gas.oxygenKg
	n.gas.dioxideKg -= reached * n.gas.dioxideKg
	n.level = level
	if missing := r.setup.Kernel.CapDB*level - n.capDB; missing > 0 {
		n.capDB += missing
		r.takeWater(missing*n.dryKg, n.waterC)
	}
}

// fall lets the water down to a level: the grain it leaves is drained, keeps
// its film and draws in fresh air.
func (r *Run) fall(level float64) {
	n := &r.now
	left := n.level - level
	n.filmKg += left * r.setup.Kernel.FilmDB * n.dryKg
	n.dissolvedKg *= level / n.level
	before := r.voidM3()
	n.level = level
	drawn := r.fresh(r.voidM3() - before)
	n.gas.oxygenKg += drawn.oxygenKg
	n.gas.dioxideKg += drawn.dioxideKg
	n.sums.airOxygenKg += drawn.oxygenKg
	n.sums.airDioxideKg += drawn.dioxideKg
}

// takeWater counts water that the grain takes from the vessel.
func (r *Run) takeWater(kg, tempC float64) {
	r.now.sums.absorbedKg += kg
	r.now.sums.absorbedJ += kg * waterJKgK * tempC
}
