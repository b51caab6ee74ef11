package germinate

import (
	"awn/finding"
	"awn/plant"
	"awn/programme"
)

// The limits at which germination has something to say. Assumed: common
// practice, no source, unless a publication is named.
const (
	warmerK    = 0.5   // air-on above what was asked
	colderK    = 1.0   // air-on below it
	drierRH    = 0.03  // air-on humidity below it
	shortFlow  = 0.02  // airflow below it, share
	tooLongH   = 1.0   // of any of these in all
	widestK    = 4.0   // between the coldest and the warmest layer of the bed
	hottestC   = 26.0  // growth fades above
	driedWB    = 0.015 // mean moisture below what it began with, wet basis
	feltingH   = 24.0  // without a turn once rootlets grow
	feltingAge = 0.5   // growth age from which rootlets hold on to each other, d
	// roomCO2 is the limit of carbon dioxide at the workplace over 8 h, share by
	// volume. Source: 29 CFR 1910.1000, table Z-1, 5000 ppm.
	roomCO2 = 0.005
)

// mark keeps one thing worth saying: since when, for how long, and the worst.
type mark struct {
	sinceH float64
	hours  float64
	worst  float64
	cell   int // where it was worst; Nowhere if that is the whole bed
}

// note counts a stretch of dtH that ends at atH in which by, the measure of
// the thing, was above limit.
func (m *mark) note(by, limit, atH, dtH float64, cell int) {
	if !(by > limit) {
		return
	}
	if m.hours == 0 {
		m.sinceH = atH - dtH
	}
	m.hours += dtH
	if by > m.worst {
		m.worst, m.cell = by, cell
	}
}

// watch is what has been seen since the start.
type watch struct {
	warm, cold, dry, short    mark // the air under the bed
	gap, hot, dried, unturned mark // the bed
	breathless, room          mark // its gases
	warmWantC, warmGotC       float64
	unheld                    mark // a reading that a setting could not hold
	unheldBy                  programme.Hold
	unheldAt                  float64
}

// see takes note of the stretch of dtH that has just ended.
func (r *Run) see(dtH float64) {
	n := &r.now
	w := &n.watch
	if n.moving {
		got := float64(n.plenum.on.TempC)
		if got-n.step.AirOnC > max(w.warm.worst, warmerK) {
			w.warmWantC, w.warmGotC = n.step.AirOnC, got
		}
		w.warm.note(got-n.step.AirOnC, warmerK, n.atH, dtH, finding.Nowhere)
		w.cold.note(n.step.AirOnC-got, colderK, n.atH, dtH, finding.Nowhere)
		w.dry.note(n.step.AirOnRH-humidity(n.plenum.on), drierRH, n.atH, dtH, finding.Nowhere)
		w.short.note(1-n.airKgS/n.askedKgS, shortFlow, n.atH, dtH, finding.Nowhere)
	}
	held := n.startWB // a programme may ask for less than it began with
	if n.step.SprayToWB > 0 {
		held = min(held, n.step.SprayToWB)
	}
	w.dried.note(held-r.moisture(), driedWB, n.atH, dtH, finding.Nowhere)
	w.room.note(dioxideShare(n.roomCO2), roomCO2, n.atH, dtH, finding.Nowhere)
	r.seeLayers(dtH)
	if still := n.atH - n.turnedH; still > feltingH && r.setup.Vessel.Kind != plant.Drum && r.meanAge() > feltingAge {
		w.unturned.note(still, feltingH, n.atH, dtH, finding.Nowhere)
	}
}

// seeLayers notes what is wrong in single layers.
func (r *Run) seeLayers(dtH float64) {
	n := &r.now
	var hottest, least int
	low := r.cells[0].tempC
	for i := range r.cells {
		c := &r.cells[i]
		low = min(low, c.tempC)
		if c.tempC > r.cells[hottest].tempC {
			hottest = i
		}
		if c.oxygen < r.cells[least].oxygen {
			least = i
		}
	}
	high := r.cells[hottest].tempC
	n.watch.gap.note(high-low, widestK, n.atH, dtH, hottest)
	n.watch.hot.note(high, hottestC, n.atH, dtH, hottest)
	spent := 1 - oxygenShare(r.cells[least].oxygen)
	n.watch.breathless.note(spent, 1-r.setup.Kernel.OxygenHalf, n.atH, dtH, least)
}

// meanAge is the growth age of the piece by dry matter, d.
func (r *Run) meanAge() float64 {
	age, dry := 0.0, 0.0
	for i, m := range r.grain.DryKg {
		age += m * r.grain.AgeD[i]
		dry += m
	}
	return age / dry
}
