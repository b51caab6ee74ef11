package steep

import (
	"fmt"
	"math"

	"awn/barley"
	"awn/kernel"
	"awn/unit"
)

// waterKgM3 is the mass of water per volume; waterJKgK its heat capacity, the
// one that the enthalpy of grain counts with.
const (
	waterKgM3      = 1000.0
	waterJKgK      = 4186.0
	secondsPerHour = 3600.0
)

// To advances the piece to tH hours since Start.
func (r *Run) To(tH float64) error {
	n := &r.now
	stepS := r.setup.StepS
	if stepS == 0 {
		stepS = UsualStepS
	}
	if !(tH >= n.atH) || math.IsInf(tH, 1) {
		return fmt.Errorf("steep: asked for %g h at %g h", tH, n.atH)
	}
	steps := math.Ceil((tH - n.atH) * secondsPerHour / stepS * (1 - 1e-12))
	if steps == 0 {
		return nil
	}
	from := n.atH
	for i := 1.0; i <= steps; i++ {
		next := from + (tH-from)*i/steps
		r.advance(next - n.atH)
		n.atH = next
	}
	if !(n.dryKg > 0) || !isNumber(n.tempC) || !isNumber(n.filmKg) {
		return fmt.Errorf("steep: at %g h: dry matter %g kg, temperature %g °C, film %g kg", tH, n.dryKg, n.tempC, n.filmKg)
	}
	return nil
}

// advance is one time step. The water level moves half before and half after,
// so that what happens meanwhile sees its middle.
func (r *Run) advance(dtH float64) {
	n := &r.now
	heatJ := r.heatJ()
	before := n.sums.heatJ()

	r.flood(dtH / 2)
	r.drown(dtH)
	r.absorb(dtH)
	r.spray(dtH)
	r.ventilate(dtH)
	r.live(dtH)
	r.leach(dtH)
	r.warm(dtH)
	r.flood(dtH / 2)

	heatJ += n.sums.heatJ() - before
	x := unit.DryBasis(r.waterKg() / n.dryKg)
	n.tempC = float64(barley.TempFromEnthalpy(heatJ/n.dryKg, x))
	r.observe(dtH)
}

// heatJ is the heat content of the grain.
func (r *Run) heatJ() float64 {
	n := &r.now
	return n.dryKg * barley.GrainEnthalpy(unit.Celsius(n.tempC), unit.DryBasis(r.waterKg()/n.dryKg))
}

// demandKgH is the oxygen that life would take with plenty of it.
func (r *Run) demandKgH(w kernel.Warmth) float64 {
	g, sum := r.grain, 0.0
	for i, f := range r.fractions {
		sum += f.clock.DemandAt(w, r.kernelWB(i), g.DryKg[f.lo:f.hi], g.ThermalTimeCH[f.lo:f.hi], g.AgeD[f.lo:f.hi])
	}
	return sum * kernel.OxygenPerKg
}

// kernelWB is the bulk moisture of a sieve fraction, wet basis.
func (r *Run) kernelWB(i int) float64 {
	return float64(unit.DryBasis(r.kernelDB(i)).WetBasis())
}

// live lets the kernels breathe, chit and grow.
func (r *Run) live(dtH float64) {
	n, g := &r.now, r.grain
	w := r.fractions[0].clock.Warmth(n.tempC)
	wet, drained := r.supply(dtH, r.demandKgH(w)*dtH)
	supply := n.level*wet + (1-n.level)*drained
	var burn kernel.Burn
	for i, f := range r.fractions {
		b := f.clock.StepAt(dtH, w, r.kernelWB(i), supply, g.DryKg[f.lo:f.hi], g.ThermalTimeCH[f.lo:f.hi], g.AgeD[f.lo:f.hi])
		r.shrink(i, n.partKg[i]-b.DryKg, b.WaterKg)
		burn.Add(b)
	}
	r.shed(burn.DryKg)
	r.weigh()
	n.burnKgH = burn.DryKg / dtH
	n.sums.burned.Add(burn)
	underWater := n.level
	if supply > 0 {
		underWater = n.level * wet / supply
	}
	r.breathe(dtH, burn.OxygenKg*underWater, burn.OxygenKg*(1-underWater), burn.CO2Kg*n.level, burn.CO2Kg*(1-n.level))
	r.watchSupply(dtH, wet, drained)
}

// shrink leaves a fraction with less dry matter and all its water, and adds
// what water it made.
func (r *Run) shrink(i int, dryKg, madeKg float64) {
	n := &r.now
	if n.partKg[i] == 0 {
		return
	}
	by := n.partKg[i] / dryKg
	n.soak[i].Scale(by)
	n.soak[i].Add(n.capDB*(by-1) + madeKg/dryKg)
	n.partKg[i] = dryKg
}
