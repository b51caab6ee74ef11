package steep

import (
	"math"

	"awn/programme"
	"awn/unit"
)

// watch is what a run has noticed, for its findings.
type watch struct {
	gainedCH, lostWetCH, lostDrainedCH float64 // of the chit clock, with and for want of oxygen

	leastOxygen float64 // share of its demand that life got
	leastAtH    float64

	coldestC, coldestAtH    float64
	hottestC, hottestAtH    float64 // drained
	dioxide, dioxideAtH     float64 // most, share by volume
	warmestWater, warmAtH   float64
	fullestM3, fullestAtH   float64
	suctionLack, aerLack    float64 // asked over what the vessel has, m³/h
	suctionAtH, aerationAtH float64
	casting                 bool    // the most carbon dioxide stood there while the grain was cast out
	unfilled, unfilledAtH   float64 // grain that an immersion never reached, share
}

// watchFilling notes an immersion that ends before the vessel is full.
func (r *Run) watchFilling() {
	n, w := &r.now, &r.now.watch
	if dry := 1 - n.level; n.step.Kind == programme.Immersion && n.atH > 0 && dry > max(w.unfilled, sliver) {
		w.unfilled, w.unfilledAtH = dry, n.atH
	}
}

// sliver is a share of the grain that is none.
const sliver = 1e-9

// watchWater notes the warmest water that was asked for.
func (r *Run) watchWater(tempC float64) {
	w := &r.now.watch
	if tempC > w.warmestWater {
		w.warmestWater, w.warmAtH = tempC, r.now.atH
	}
}

// watchMeans notes air that was asked for and is not to be had.
func (r *Run) watchMeans(step programme.SteepStep) {
	w, v := &r.now.watch, &r.setup.Vessel
	switch {
	case step.Kind == programme.Immersion:
		if lack := step.AerationM3HT*r.setup.CastT - v.AerationM3H; lack > w.aerLack {
			w.aerLack, w.aerationAtH = lack, r.now.atH
		}
	case step.Kind != programme.Couch && !step.UnderWater():
		if lack := step.SuctionM3HT*r.setup.CastT - v.SuctionM3H; lack > w.suctionLack {
			w.suctionLack, w.suctionAtH = lack, r.now.atH
		}
	}
}

// watchSupply counts the thermal time that want of oxygen has cost, until most
// kernels that will have chitted.
func (r *Run) watchSupply(dtH, wet, drained float64) {
	n, k := &r.now, r.setup.Kernel
	w := &n.watch
	if r.grain.ThermalTimeCH[0] > r.setup.ChitCH*math.Exp(k.ChitSpread) {
		return
	}
	mean := unit.DryBasis(r.kernelWaterKg() / n.dryKg).WetBasis()
	full := dtH * k.ChitRate(n.tempC, float64(mean))
	w.lostWetCH += full * n.level * (1 - wet)
	w.lostDrainedCH += full * (1 - n.level) * (1 - drained)
	supply := n.level*wet + (1-n.level)*drained
	w.gainedCH += full * supply
	if supply < w.leastOxygen {
		w.leastOxygen, w.leastAtH = supply, n.atH
	}
}

// observe notes the extremes of the moment.
func (r *Run) observe(dtH float64) {
	n := &r.now
	w := &n.watch
	at := n.atH + dtH
	if n.tempC < w.coldestC {
		w.coldestC, w.coldestAtH = n.tempC, at
	}
	if n.level == 0 && n.tempC > w.hottestC {
		w.hottestC, w.hottestAtH = n.tempC, at
	}
	if _, dioxide := r.shares(); n.level < 1 && dioxide > w.dioxide {
		w.dioxide, w.dioxideAtH, w.casting = dioxide, at, n.step.Kind == programme.Transfer
	}
	if m3 := r.heldM3(); m3 > w.fullestM3 {
		w.fullestM3, w.fullestAtH = m3, at
	}
}

// heldM3 is the volume that grain and water take in the vessel: the bed, or
// the kernels and the water if that is more.
func (r *Run) heldM3() float64 {
	n := &r.now
	return max(n.bulkM3, (1-voidShare)*n.bulkM3+n.level*r.fullM3())
}
