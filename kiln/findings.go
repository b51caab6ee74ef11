package kiln

import (
	"math"

	"awn/finding"
	"awn/programme"
)

// noted is what the plant could not do and what the programme did too soon.
type noted struct {
	recircAsked float64 // beyond what the dampers give; 0 if never
	fanAtH      float64 // when the fan gave least of what was asked
	fanShare    float64 // and that share
	fanH        float64 // for how long it was short
	coldAtH     float64 // when air-on was furthest below its set point
	coldByK     float64
	coldH       float64
	turnDownH   float64 // hours below the burner's turn-down
	earlyAtH    float64 // first return air before the break; NaN if never
	early       float64 // share of return air then, at its most
	earlyH      float64
	earlySpot   int     // the column that had not broken; Nowhere while no column had
	unheldH     float64 // hours in which a held reading was kept away by a limit
	unheld      programme.Hold
	unheldAt    float64 // where the reading stood last
	unheldAtH   float64
	stoppedH    float64
	stoppedAtH  float64 // when it was first seen; NaN if never
	heatedH     float64 // of these with the heat on
	floorC      float64 // hottest floor layer meanwhile
}

func newNoted() noted {
	nan := math.NaN()
	return noted{fanAtH: nan, fanShare: 1, coldAtH: nan, earlyAtH: nan, stoppedAtH: nan}
}

const (
	unheldCounts = 1.0  // hours that are worth a word
	shortFan     = 0.99 // of the flow asked for
	shortAirK    = 1.0  // below the set point
	earlyRecirc  = 0.05 // return air that counts
	cyclingH     = 0.5  // h; what is shorter is a burner that starts or ends
)

// note remembers what a step of dtS showed.
func (r *Run) note(dtS float64) {
	n, h := &r.noted, dtS/3600
	if r.view.flow == 0 || r.fanOff {
		n.stoppedH += h
		if math.IsNaN(n.stoppedAtH) {
			n.stoppedAtH = r.hour
		}
		if r.fanOff && !r.heaterOff && r.asked(r.hour).airOnC > heatingC {
			n.heatedH += h
			n.floorC = max(n.floorC, r.floorC())
		}
		return
	}
	if r.draught.scale < shortFan {
		n.fanH += h
		if r.draught.scale < n.fanShare {
			n.fanShare, n.fanAtH = r.draught.scale, r.hour
		}
	}
	ask := r.asked(r.hour)
	if by := ask.airOnC - r.view.on.tempC; !r.heaterOff && by > shortAirK {
		n.coldH += h
		if by > n.coldByK {
			n.coldByK, n.coldAtH = by, r.hour
		}
	}
	b := &r.setup.Kiln.Burner
	if kw := r.view.flow * r.view.heaterJKg * r.setup.Kiln.AreaM2 / 1000; kw > 0 && kw < b.TurnDown*b.MostKW {
		n.turnDownH += h
	}
	if spot, all := r.unbroken(); r.setup.Above == nil && ask.recirc > earlyRecirc && spot >= 0 && r.heating() {
		n.earlyH += h
		n.early = max(n.early, ask.recirc)
		if math.IsNaN(n.earlyAtH) {
			n.earlyAtH = r.hour
		}
		n.earlySpot = spot
		if all {
			n.earlySpot = finding.Nowhere
		}
	}
}

// unbroken returns the last column that has not broken, -1 if all have, and
// whether none has.
func (r *Run) unbroken() (spot int, all bool) {
	spot, all = -1, true
	for n := range r.columns {
		if math.IsNaN(r.watches[n].found.AtH) {
			spot = n
		} else {
			all = false
		}
	}
	return spot, all
}

// Findings appends what the kilning so far has to say. Called at its end, it
// judges whether the malt may be stripped.
func (r *Run) Findings(dst []finding.Finding) []finding.Finding {
	dst = r.stripping(dst)
	dst = r.air(dst)
	n := &r.noted
	if n.earlyH > 0 {
		f := finding.New("kiln.recirculation.early", finding.Caution, "kiln",
			finding.Figure{Name: "recirculation", Value: n.early}, finding.Figure{Name: "early_h", Value: n.earlyH})
		f.Column = n.earlySpot
		if b := r.latestBreak(); !math.IsNaN(b) {
			f.Figures = append(f.Figures, finding.Figure{Name: "break_h", Value: b})
		}
		f.AtH, f.Act, f.Source = n.earlyAtH, "act.kiln.recirculate-after-break", practice
		f.Chance, f.Cost = 0.5, 0.05
		dst = append(dst, f)
	}
	if !r.broken() {
		f := finding.New("kiln.break.none", finding.Note, "kiln")
		if plateau := r.whole().median(); !math.IsNaN(plateau) {
			f.Figures = append(f.Figures, finding.Figure{Name: "plateau_c", Value: plateau})
		}
		f.Source, f.Chance, f.Cost = practice, 1, 0.005
		dst = append(dst, f)
	} else if b := r.Break(-1); b.WorstWB > wetAtBreak {
		f := finding.New("kiln.break.top-wet", finding.Note, "kiln",
			finding.Figure{Name: "worst_layer_wb", Value: b.WorstWB}, finding.Figure{Name: "limit_wb", Value: wetAtBreak})
		f.AtH, f.Act, f.Source, f.Chance, f.Cost = b.AtH, "act.kiln.wither-cooler-longer", practice, 0.3, 0.01
		dst = append(dst, f)
	}
	return r.stops(dst)
}

// stops tells of readings that were not held and of a fan that stood.
func (r *Run) stops(dst []finding.Finding) []finding.Finding {
	n := &r.noted
	if n.unheldH > unheldCounts {
		f := finding.New("kiln.hold.missed", finding.Note, "kiln", finding.Figure{Name: n.unheld.Reading.Key(), Value: n.unheldAt},
			finding.Figure{Name: "asked", Value: n.unheld.Value}, finding.Figure{Name: "missed_h", Value: n.unheldH})
		f.AtH, f.Act, f.Source, f.Chance, f.Cost = n.unheldAtH, "act.programme.hold-wider", practice, 0.5, 0.01
		dst = append(dst, f)
	}
	if n.heatedH > 0 {
		f := finding.New("kiln.fan.stopped-heated", finding.Alarm, "kiln", finding.Figure{Name: "heated_h", Value: n.heatedH},
			finding.Figure{Name: "stopped_h", Value: n.stoppedH}, finding.Figure{Name: "floor_c", Value: n.floorC})
		f.AtH, f.Act, f.Source, f.Chance, f.Cost = n.stoppedAtH, "act.kiln.heat-off-first", practice, 0.9, 0.2
		dst = append(dst, f)
	} else if n.stoppedH > 0 {
		f := finding.New("kiln.fan.stopped", finding.Caution, "kiln", finding.Figure{Name: "stopped_h", Value: n.stoppedH})
		f.Act, f.Source, f.Chance, f.Cost = "act.kiln.keep-fan-running", practice, 0.5, 0.05
		dst = append(dst, f)
	}
	return dst
}

// floorC is the hottest layer on the floor.
func (r *Run) floorC() float64 {
	hottest := math.Inf(-1)
	for n := range r.columns {
		hottest = max(hottest, r.columns[n].tempC[0])
	}
	return hottest
}

// latestBreak is when the last column broke; NaN while one has not.
func (r *Run) latestBreak() float64 {
	latest := 0.0
	for n := range r.columns {
		latest = max(latest, r.watches[n].found.AtH)
	}
	return latest
}

// wetAtBreak is a top layer at the break that a hot ramp would stew.
const wetAtBreak = 0.40

// stripping judges whether each column may be stripped: one finding for the
// wettest layer and one for the hottest.
func (r *Run) stripping(dst []finding.Finding) []finding.Finding {
	wet := finding.New("kiln.strip.wet", finding.Alarm, "kiln")
	hot := finding.New("kiln.strip.hot", finding.Alarm, "kiln")
	worst, hottest, dry, water := 0.0, math.Inf(-1), 0.0, 0.0
	for n := range r.columns {
		c := &r.columns[n]
		for i := range c.water {
			dry, water = dry+c.dry[i]*c.areaM2, water+c.water[i]*c.areaM2
			if w := c.moistureWB(i); w > worst {
				worst, wet.Column, wet.Layer = w, n, i
			}
			if c.tempC[i] > hottest {
				hottest, hot.Column, hot.Layer = c.tempC[i], n, i
			}
		}
	}
	if worst > r.setup.StripWorst {
		wet.Figures = []finding.Figure{{Name: "worst_layer_wb", Value: worst},
			{Name: "limit_wb", Value: r.setup.StripWorst}, {Name: "mean_wb", Value: water / (water + dry)}}
		wet.AtH, wet.Act, wet.Source, wet.Chance, wet.Cost = r.hour, "act.kiln.extend-fresh-air", practice, 0.9, 0.3
		dst = append(dst, wet)
	}
	if hottest > r.setup.StripC {
		hot.Figures = []finding.Figure{{Name: "hottest_c", Value: hottest}, {Name: "limit_c", Value: r.setup.StripC}}
		hot.AtH, hot.Act, hot.Source, hot.Chance, hot.Cost = r.hour, "act.kiln.cool-longer", practice, 0.9, 0.1
		dst = append(dst, hot)
	}
	return dst
}

// air says where the plant did not give the air that was asked for.
func (r *Run) air(dst []finding.Finding) []finding.Finding {
	n := &r.noted
	if n.fanH > 0 {
		f := finding.New("kiln.fan.short", finding.Caution, "kiln",
			finding.Figure{Name: "given_share", Value: n.fanShare}, finding.Figure{Name: "short_h", Value: n.fanH},
			finding.Figure{Name: "bed_pa", Value: r.draught.dropPa})
		f.AtH, f.Act, f.Source, f.Chance, f.Cost = n.fanAtH, "act.kiln.ask-less-flow", practice, 0.8, 0.03
		dst = append(dst, f)
	}
	if n.coldH > 0 {
		f := finding.New("kiln.air-on.missed", finding.Caution, "kiln",
			finding.Figure{Name: "below_k", Value: n.coldByK}, finding.Figure{Name: "missed_h", Value: n.coldH})
		f.AtH, f.Act, f.Source, f.Chance, f.Cost = n.coldAtH, "act.kiln.ask-less-flow", practice, 0.8, 0.03
		dst = append(dst, f)
	}
	if n.turnDownH > cyclingH {
		f := finding.New("kiln.burner.cycling", finding.Note, "kiln", finding.Figure{Name: "cycling_h", Value: n.turnDownH})
		f.Act, f.Source, f.Chance, f.Cost = "act.kiln.ask-more-flow", practice, 0.5, 0.005
		dst = append(dst, f)
	}
	if n.recircAsked > 0 {
		f := finding.New("kiln.recirculation.limited", finding.Note, "kiln",
			finding.Figure{Name: "asked", Value: n.recircAsked}, finding.Figure{Name: "given", Value: r.setup.Kiln.MostRecirc})
		f.Act, f.Source, f.Chance, f.Cost = "act.kiln.ask-less-recirculation", practice, 1, 0.01
		dst = append(dst, f)
	}
	return dst
}
