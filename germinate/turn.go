package germinate

import "awn/air"

// turn takes the turner through the bed once, spraying before it as the step
// says.
func (r *Run) turn() {
	n := &r.now
	if n.step.SprayKgT > 0 && n.turnsN > 0 {
		r.spray(n.step.SprayKgT * r.setup.CastT / n.turnsN)
	}
	if n.step.SprayToWB > 0 {
		r.spray(r.shortOf(n.step.SprayToWB))
	}
	r.mix(r.setup.Vessel.MixesTurn)
	n.turnedH = n.atH
	for i := range r.cells {
		r.ask(i)
	}
}

// shortOf is the water that brings the mean of the piece up to a moisture, kg.
func (r *Run) shortOf(wb float64) float64 {
	dry, water := r.totals()
	return max(0, wb/(1-wb)*dry-water)
}

// spray puts water on all the grain alike, by dry matter.
func (r *Run) spray(kg float64) {
	dry, _ := r.totals()
	for i := range r.cells {
		c := &r.cells[i]
		share := kg * c.dryKg / dry
		c.waterKg += share
		c.heatJ += share * air.WaterJKgK * r.setup.WaterC
		c.settle()
	}
	s := &r.now.sums
	s.sprayedKg += kg
	s.sprayedJ += kg * air.WaterJKgK * r.setup.WaterC
}

// mix moves each layer a share of the way to the mean of its column; a drum is
// all one. Dry matter, water and heat are shared out, age and thermal time go
// with the dry matter.
func (r *Run) mix(share float64) {
	if share <= 0 {
		return
	}
	for col := range r.grain.Columns {
		r.mixCells(r.grain.Cell(col, 0), r.grain.Cell(col+1, 0), share)
	}
}

func (r *Run) mixCells(from, to int, share float64) {
	n := 1 / float64(to-from)
	water, heat, breathless := 0.0, 0.0, 0.0
	for _, c := range r.cells[from:to] {
		water += c.waterKg * n
		heat += c.heatJ * n
		breathless += c.breathlessH * n
	}
	classes := len(r.grain.Classes)
	for class := range classes {
		r.mixClass(class, from, to, share)
	}
	for i := from; i < to; i++ {
		c := &r.cells[i]
		c.dryKg = r.grain.CellDryKg(i)
		c.waterKg += share * (water - c.waterKg)
		c.heatJ += share * (heat - c.heatJ)
		if breathless > 0 {
			c.breathlessH += share * (breathless - c.breathlessH)
			c.vigour = r.setup.Constants.Vigour(c.breathlessH)
		}
		c.settle()
	}
}

// mixClass mixes one kernel class over the cells of a column.
func (r *Run) mixClass(class, from, to int, share float64) {
	g, stride := r.grain, len(r.grain.Classes)
	var dry, chit, age float64
	for i := from; i < to; i++ {
		at := i*stride + class
		dry += g.DryKg[at]
		chit += g.DryKg[at] * g.ThermalTimeCH[at]
		age += g.DryKg[at] * g.AgeD[at]
	}
	if dry == 0 {
		return
	}
	chit, age = chit/dry, age/dry
	dry /= float64(to - from)
	for i := from; i < to; i++ {
		at := i*stride + class
		stays, comes := (1-share)*g.DryKg[at], share*dry
		g.DryKg[at] = stays + comes
		if comes+stays > 0 {
			g.ThermalTimeCH[at] += (chit - g.ThermalTimeCH[at]) * comes / (stays + comes)
			g.AgeD[at] += (age - g.AgeD[at]) * comes / (stays + comes)
		}
	}
}
