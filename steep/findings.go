package steep

import (
	"awn/finding"
)

// The limits from which something is said. Assumed: common practice, no source,
// except the carbon dioxide limits for people (OSHA 1910.1000, NIOSH 1976).
const (
	shortOxygenShare = 0.45 // of the chit clock lost for want of oxygen
	fewChitted       = 0.80 // with more than this, the loss no longer matters
	leastDrainedWB   = 0.43
	mostDrainedWB    = 0.47
	hotRestC         = 22.0
	frozenC          = 0.0
	highDioxide      = 0.05  // chit is slowed
	peopleDioxide    = 0.005 // mean of a working day
	heldShare        = 0.03
)

// weight is the chance that a finding matters and what it costs then, as a
// share of the value of the piece; rough figures of practice, no source.
type weight struct{ chance, cost float64 }

var weights = map[string]weight{
	"steep.oxygen.short":     {0.7, 0.04},
	"steep.chit.held":        {0.6, 0.03},
	"steep.moisture.low":     {0.6, 0.03},
	"steep.moisture.high":    {0.5, 0.02},
	"steep.rest.hot":         {0.5, 0.03},
	"steep.co2.high":         {0.6, 0.02},
	"steep.grain.frozen":     {0.5, 0.05},
	"steep.water.warm":       {0.4, 0.03},
	"steep.vessel.overfull":  {0.9, 0.02},
	"steep.suction.short":    {0.5, 0.01},
	"steep.aeration.short":   {0.4, 0.01},
	"steep.chit.impossible":  {1.0, 0.50},
	"steep.water.too-little": {0.5, 0.01},
	"steep.immersion.short":  {0.8, 0.03},
}

func figure(name string, value float64) finding.Figure {
	return finding.Figure{Name: name, Value: value}
}

func add(dst []finding.Finding, code string, severity finding.Severity, atH float64, act string, figures ...finding.Figure) []finding.Finding {
	f := finding.New(code, severity, "steep", figures...)
	f.AtH, f.Act, f.Source = atH, act, practice
	f.Chance, f.Cost = weights[code].chance, weights[code].cost
	return append(dst, f)
}

// Findings appends what the steep has to say of the piece as it is now; at the
// end of the steep that is what is cast.
func (r *Run) Findings(dst []finding.Finding) []finding.Finding {
	dst = r.lifeFindings(dst)
	dst = r.moistureFindings(dst)
	dst = r.climateFindings(dst)
	return r.vesselFindings(dst)
}

// lifeFindings are those of chit: want of oxygen, kernels held back, and lots
// that cannot chit.
func (r *Run) lifeFindings(dst []finding.Finding) []finding.Finding {
	w, n := &r.now.watch, &r.now
	growing, chit := r.growing(), r.chits.Share(r.grain)
	if growing < 0.5 {
		dst = add(dst, "steep.chit.impossible", finding.Alarm, finding.Nowhere, "act.lot.do-not-malt", figure("growing", growing))
	}
	lost := w.lostWetCH + w.lostDrainedCH
	if share := lost / (lost + w.gainedCH); share > shortOxygenShare && chit < fewChitted*growing {
		act := "act.steep.shorter-immersion-longer-rest"
		if w.lostDrainedCH > w.lostWetCH {
			act = "act.steep.more-suction"
		}
		dst = add(dst, "steep.oxygen.short", finding.Caution, w.leastAtH, act,
			figure("lost", share), figure("least", w.leastOxygen), figure("chit", chit),
			figure("moisture_wb", wetBasis(r.kernelWaterKg(), n.dryKg)))
	}
	if n.held > heldShare {
		dst = add(dst, "steep.chit.held", finding.Caution, finding.Nowhere, "act.steep.shorter-immersion-longer-rest",
			figure("held", n.held), figure("immersed_h", n.longestH), figure("free_h", r.setup.Constants.SensitivityFree))
	}
	return dst
}

// growing is the share of kernels, by number, that will grow, those held back
// by the water among them.
func (r *Run) growing() float64 {
	sum := 0.0
	for _, c := range r.grain.Classes {
		if !c.Idle {
			sum += c.Number
		}
	}
	return sum / (1 - r.now.held)
}

func (r *Run) moistureFindings(dst []finding.Finding) []finding.Finding {
	n := &r.now
	drained := wetBasis(r.waterKg(), n.dryKg)
	driest := r.kernelWB(r.coarsest())
	switch {
	case drained < leastDrainedWB:
		dst = add(dst, "steep.moisture.low", finding.Caution, n.atH, "act.steep.longer-immersion-or-spray",
			figure("drained_wb", drained), figure("least_wb", leastDrainedWB), figure("driest_wb", driest))
	case drained > mostDrainedWB:
		dst = add(dst, "steep.moisture.high", finding.Caution, n.atH, "act.steep.shorter-last-immersion",
			figure("drained_wb", drained), figure("most_wb", mostDrainedWB), figure("driest_wb", driest))
	}
	return dst
}

// coarsest is the fraction that holds least water.
func (r *Run) coarsest() int {
	driest := 0
	for i := range r.fractions {
		if r.kernelDB(i) < r.kernelDB(driest) {
			driest = i
		}
	}
	return driest
}

// climateFindings are those of temperature and gas.
func (r *Run) climateFindings(dst []finding.Finding) []finding.Finding {
	w := &r.now.watch
	if w.hottestC > hotRestC {
		dst = add(dst, "steep.rest.hot", finding.Caution, w.hottestAtH, "act.steep.more-suction-or-cast",
			figure("temp_c", w.hottestC), figure("limit_c", hotRestC))
	}
	if w.dioxide > highDioxide {
		severity := finding.Caution
		if w.dioxide > 2*highDioxide {
			severity = finding.Alarm
		}
		act := "act.steep.more-suction"
		if w.casting {
			act = "act.steep.draw-while-casting"
		}
		dst = add(dst, "steep.co2.high", severity, w.dioxideAtH, act,
			figure("co2", w.dioxide), figure("limit", highDioxide), figure("people_limit", peopleDioxide))
	}
	if w.coldestC < frozenC && r.kernelWaterKg()/r.now.dryKg > capFromDB {
		dst = add(dst, "steep.grain.frozen", finding.Alarm, w.coldestAtH, "act.steep.warmer-air-or-water",
			figure("temp_c", w.coldestC))
	}
	if w.warmestWater > warmWaterC {
		dst = add(dst, "steep.water.warm", finding.Caution, w.warmAtH, "act.steep.colder-water",
			figure("water_c", w.warmestWater), figure("limit_c", warmWaterC))
	}
	return dst
}

// vesselFindings are those of what the vessel cannot do.
func (r *Run) vesselFindings(dst []finding.Finding) []finding.Finding {
	w, v := &r.now.watch, &r.setup.Vessel
	if w.fullestM3 > v.VolumeM3 {
		dst = add(dst, "steep.vessel.overfull", finding.Alarm, w.fullestAtH, "act.steep.smaller-piece",
			figure("volume_m3", w.fullestM3), figure("vessel_m3", v.VolumeM3))
	}
	if w.suctionLack > 0 {
		dst = add(dst, "steep.suction.short", finding.Caution, w.suctionAtH, "act.plant.more-suction",
			figure("lack_m3_h", w.suctionLack), figure("vessel_m3_h", v.SuctionM3H))
	}
	if w.aerLack > 0 {
		dst = add(dst, "steep.aeration.short", finding.Caution, w.aerationAtH, "act.plant.more-aeration",
			figure("lack_m3_h", w.aerLack), figure("vessel_m3_h", v.AerationM3H))
	}
	if w.unfilled > 0 {
		dst = add(dst, "steep.immersion.short", finding.Caution, w.unfilledAtH, "act.steep.immerse-for-filling",
			figure("unreached", w.unfilled), figure("fill_h", v.FillH))
	}
	if s := &r.now.sums; s.usedM3*waterKgM3 < s.absorbedKg+s.sprayedKg {
		dst = add(dst, "steep.water.too-little", finding.Note, finding.Nowhere, "act.plant.more-steep-water",
			figure("used_m3", s.usedM3), figure("absorbed_m3", (s.absorbedKg+s.sprayedKg)/waterKgM3))
	}
	return dst
}
