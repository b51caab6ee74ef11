package kernel

import (
	"math"

	"awn/barley"
)

// Clock advances the kernel classes of one cell at a time: chit clock, growth
// age and dry matter. It holds what the classes are, never their state, so one
// Clock serves all cells of a piece and all clones of a run.
//
// The caller keeps one flag for each cell: once it has been at KillC or above,
// life in it has ended and Step is not called for it again, also after it has
// cooled.
type Clock struct {
	c        *Constants
	chitCH   []float64 // thermal time at which a class chits; +Inf if idle
	runs     []run
	perOnset float64
	warmer   float64      // rise of the logarithm of growth per K
	wets     []wetnessFor // by moisture, from leastWet up
}

// run is a stretch of classes that are equally wet.
type run struct {
	lo, hi   int
	offsetDB float64
}

// NewClock returns the clock of a piece of the given classes. offsetDB is what
// each class holds above the moisture of its cell, kg per kg dry matter (nil:
// nothing); medianCH is the lot's median thermal time to chit, °C·h. Classes
// of equal offset should stand together: each stretch of them costs a few
// table readings per step.
func NewClock(c *Constants, classes []barley.Class, offsetDB []float64, medianCH float64) *Clock {
	k := &Clock{c: c, perOnset: 1 / c.OnsetD, warmer: math.Log(c.GrowPerTenK) / 10,
		chitCH: make([]float64, len(classes)), wets: make([]wetnessFor, wetPoints+1)}
	for i := range k.wets {
		k.wets[i] = c.wetness(leastWet + float64(i)/perWet)
	}
	for i, class := range classes {
		k.chitCH[i] = math.Inf(1)
		if !class.Idle {
			k.chitCH[i] = medianCH * math.Exp(c.ChitSpread*class.Vigour)
		}
		offset := 0.0
		if offsetDB != nil {
			offset = offsetDB[i]
		}
		if n := len(k.runs); n > 0 && k.runs[n-1].offsetDB == offset {
			k.runs[n-1].hi = i + 1
		} else {
			k.runs = append(k.runs, run{i, i + 1, offset})
		}
	}
	return k
}

// From the units of the rates to those of a step.
const (
	hoursPerDay = 24.0
	gramsPerKg  = 1000.0
)

// pace is how far classes of one moisture get in a time with oxygen in plenty.
type pace struct {
	chitCH float64 // °C·h
	ageD   float64 // days of growth of a chitted kernel
	burn   float64 // share of dry matter, per g/(kg h) of nominal respiration
}

// Warmth is what a temperature does to life, worked out once for cells that
// share it.
type Warmth struct {
	chit    float64 // °C
	grow    float64 // relative to 16 °C
	respire float64 // relative to 16 °C
}

// Warmth is what a temperature does to life; nothing lives at KillC and above.
func (k *Clock) Warmth(tempC float64) Warmth {
	if !(tempC < KillC) {
		return Warmth{}
	}
	return Warmth{k.c.chitByTemp(tempC), growthByTemp(k.warmer, tempC), k.c.RespirationByTemp(tempC)}
}

// wetnessFor is what moisture does to life, as Warmth.
type wetnessFor struct{ chit, grow, respire float64 }

// The moistures, wet basis, at which it is tabled. Straight lines between them
// are within 1e-4 of full pace, but for the tenth of a point above LeastGrowingWB
// in which growth begins at once.
const (
	leastWet  = 0.20
	perWet    = 1000.0
	wetPoints = 400
)

func (c *Constants) wetness(moistureWB float64) wetnessFor {
	return wetnessFor{c.ChitByMoisture(moistureWB), c.GrowthByMoisture(moistureWB), RespirationByMoisture(moistureWB)}
}

// wetness looks it up.
func (k *Clock) wetness(moistureWB float64) wetnessFor {
	x := (moistureWB - leastWet) * perWet
	if !(x >= 0 && x < wetPoints) {
		return k.c.wetness(moistureWB)
	}
	i := int(x)
	a, b, part := &k.wets[i], &k.wets[i+1], x-float64(i)
	return wetnessFor{a.chit + part*(b.chit-a.chit), a.grow + part*(b.grow-a.grow), a.respire + part*(b.respire-a.respire)}
}

// pace is how far classes of one moisture get in a step.
func (k *Clock) pace(dtH float64, w Warmth, moistureWB float64) pace {
	wet := k.wetness(moistureWB)
	return pace{
		chitCH: dtH * w.chit * wet.chit,
		ageD:   dtH / hoursPerDay * w.grow * wet.grow,
		burn:   dtH / gramsPerKg * w.respire * wet.respire,
	}
}

// wetBasis is the moisture of a run in a cell of moistureDB.
func (r run) wetBasis(cellDB float64) float64 {
	x := max(0, cellDB+r.offsetDB)
	return x / (1 + x)
}

// Step advances one cell by dtH hours at the given temperature and moisture
// (the mean of the cell). supply is 0 to 1: what oxygen leaves of growth and
// respiration. dry, thermalTime and age hold one value per class and are
// changed in place.
//
// It is second-order in time: the chit time within the step is exact at
// constant temperature, and respiration is taken at the age of mid-step. Half
// an hour is a fine step.
func (k *Clock) Step(dtH, tempC, moistureWB, supply float64, dry, thermalTime, age []float64) Burn {
	return k.StepAt(dtH, k.Warmth(tempC), moistureWB, supply, dry, thermalTime, age)
}

// StepAt is Step at a temperature whose Warmth is known.
func (k *Clock) StepAt(dtH float64, w Warmth, moistureWB, supply float64, dry, thermalTime, age []float64) Burn {
	cellDB := moistureWB / (1 - moistureWB)
	share := supply + (1-supply)*k.c.FermentPerUnmet // of the full rate: respired and fermented
	gone := 0.0
	for _, r := range k.runs {
		p := k.pace(dtH, w, r.wetBasis(cellDB))
		p.chitCH *= supply
		p.ageD *= supply
		gone += k.advance(r, p, share, dry, thermalTime, age)
	}
	if gone == 0 {
		return Burn{}
	}
	respired := gone * supply / share
	return burned(respired, gone-respired)
}

// advance moves one run of classes on and returns the dry matter gone.
func (k *Clock) advance(r run, p pace, share float64, dry, thermalTime, age []float64) float64 {
	rest := p.burn * share * k.c.RestRate
	peak := p.burn * share * k.c.PeakRate
	gone := 0.0
	chits := k.chitCH[r.lo:r.hi]
	dry, thermalTime, age = dry[r.lo:r.hi][:len(chits)], thermalTime[r.lo:r.hi][:len(chits)], age[r.lo:r.hi][:len(chits)]
	for i, chit := range chits {
		before := thermalTime[i]
		after := before + p.chitCH
		thermalTime[i] = after
		rate := rest
		if after > chit {
			grown := p.ageD
			if before < chit {
				grown *= (after - chit) / p.chitCH
			}
			rate += peak * awake((age[i]+grown/2)*k.perOnset)
			age[i] += grown
		}
		loss := dry[i] * rate * (1 - rate/2)
		dry[i] -= loss
		gone += loss
	}
	return gone
}

// Demand is the dry matter that one cell would burn with oxygen in plenty,
// kg/h. Times OxygenPerKg it is the oxygen it asks for.
//
//	b = Σ m f(t) f(M) (r0 + r1 (1 - e^(-(a/1.5)^1.5)))/1000      (over classes; r1 where chitted)
//
// Definition.
// Check: an independent running sum over six days, in testdata/respired.csv.
func (k *Clock) Demand(tempC, moistureWB float64, dry, thermalTime, age []float64) float64 {
	return k.DemandAt(k.Warmth(tempC), moistureWB, dry, thermalTime, age)
}

// DemandAt is Demand at a temperature whose Warmth is known.
//
// Definition.
func (k *Clock) DemandAt(w Warmth, moistureWB float64, dry, thermalTime, age []float64) float64 {
	cellDB := moistureWB / (1 - moistureWB)
	demand := 0.0
	for _, r := range k.runs {
		burn := w.respire / gramsPerKg * k.wetness(r.wetBasis(cellDB)).respire
		for i := r.lo; i < r.hi; i++ {
			rate := k.c.RestRate
			if thermalTime[i] > k.chitCH[i] {
				rate += k.c.PeakRate * awake(age[i]*k.perOnset)
			}
			demand += burn * rate * dry[i]
		}
	}
	return demand
}
