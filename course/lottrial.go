package course

import (
	"math"

	"awn/barley"
	"awn/kernel"
	"awn/lab"
	"awn/odds"
)

// lotKnown is a lot as it was measured, with what its counts tell and what had
// to be assumed.
type lotKnown struct {
	given, filled    barley.Lot
	energy4, energy8 odds.Proportion // valid where they were counted
	spread           float64         // of the chit times of its kernels, ln
}

func newLotKnown(p *Piece, c *constants) *lotKnown {
	k := &lotKnown{given: p.Lot, spread: c.kernel.ChitSpread}
	k.filled, _ = c.known(p.Lot)
	k.energy4, _ = lab.Energy(p.Lot.Counts4mL)
	k.energy8, _ = lab.Energy(p.Lot.Counts8mL)
	return k
}

// analysed is a figure that a laboratory measures.
type analysed struct {
	key      string
	of       func(*barley.Lot) *odds.Value
	analyte  string  // in the precision table; empty where nothing is published
	scale    float64 // of the figure over the analyte
	band     float64 // repeatability where nothing is published: nine times out of ten within plus and minus
	relative bool    // the band is a share of the figure
	sampling float64 // standard deviation of sampling
	least    float64
	most     float64
}

// figures are what is measured of a lot beside its counts. Bands without a
// publication and the spreads of sampling are common practice, no source.
var figures = []analysed{
	{key: "moisture", of: func(l *barley.Lot) *odds.Value { return &l.Moisture }, analyte: "moisture", scale: 1, sampling: 0.002, least: 0.04, most: 0.3},
	{key: "protein", of: func(l *barley.Lot) *odds.Value { return &l.Protein }, analyte: "nitrogen", scale: lab.ProteinPerNitrogen, sampling: 0.0015, least: 0.04, most: 0.25},
	{key: "kernel-mass", of: func(l *barley.Lot) *odds.Value { return &l.KernelMassMg }, band: 0.03, relative: true, least: 10, most: 90},
	{key: "test-weight", of: func(l *barley.Lot) *odds.Value { return &l.TestWeightKgHL }, band: 0.8, least: 35, most: 90},
	{key: "beta-glucan", of: func(l *barley.Lot) *odds.Value { return &l.BetaGlucan }, band: 0.08, relative: true, sampling: 0.0008, least: 0.005, most: 0.12},
	{key: "green-smm", of: func(l *barley.Lot) *odds.Value { return &l.GreenSMM }, band: 0.15, relative: true, least: 0, most: math.Inf(1)},
}

// precision is the standard deviations of one result: of the laboratory against
// others, and of the result against its laboratory's next one. Outside the range
// of figures that the precision was found on, that at the nearer end is taken.
//
// Assumed: the nearer end; common practice, no source.
func (f *analysed) precision(x float64) (between, within float64) {
	p, ok := lab.FindPrecision(f.analyte, "barley", methods[f.analyte])
	if !ok {
		within = lab.Deviation(math.Sqrt2 * f.band * odds.NormalQuantile(0.975) / odds.NormalQuantile(0.95))
		if f.relative {
			within *= x
		}
		return 0, within
	}
	x = min(max(x/f.scale, p.From), p.To)
	all := lab.Deviation(p.Reproducibility(x)) * f.scale
	within = lab.Deviation(p.Repeatability(x)) * f.scale
	return math.Sqrt(max(0, all*all-within*within)), within
}

// methods are those that the precision of a lot's figures is taken of.
var methods = map[string]string{"moisture": "near infrared", "nitrogen": "combustion"}

// measured says whether the figure is a result without a band of its own.
func (f *analysed) measured(k *lotKnown) bool {
	v := f.of(&k.filled)
	return v.Known() && v.Standing == odds.Measured && !v.Banded()
}

// laboratoryInputs are how far the laboratory stands from the mean of all, one
// for each thing it measures, in all its results alike.
func laboratoryInputs(k *lotKnown) []unsure {
	var out []unsure
	for i := range figures {
		f := &figures[i]
		if f.analyte == "" || !f.measured(k) {
			continue
		}
		x := f.of(&k.filled).Mid
		between, _ := f.precision(x)
		out = append(out, unsure{
			Input: Input{Key: "laboratory." + f.analyte, Group: OfLaboratory}, at: odds.WithDeviation(0, between, odds.Measured).At,
			put: func(t *trial, bias float64) { t.lot.add[i] -= bias },
		})
	}
	return out
}

// lotInputs are the errors of what was measured of the lot, and the ranges of
// what was assumed.
func lotInputs(k *lotKnown) []unsure {
	var out []unsure
	add := func(key string, at func(float64) float64, put func(*lotTrial, float64)) {
		out = append(out, unsure{
			Input: Input{Key: "lot." + key, Group: OfLot, Lot: k.given.Code}, at: at,
			put: func(t *trial, x float64) { put(&t.lot, x) },
		})
	}
	for i := range figures {
		f := &figures[i]
		v := *f.of(&k.filled)
		if !v.Known() {
			continue
		}
		if f.measured(k) {
			_, within := f.precision(v.Mid)
			v = odds.WithDeviation(v.Mid, math.Hypot(within, f.sampling), odds.Measured)
		}
		add(f.key, v.At, func(t *lotTrial, x float64) { t.set[i] = x })
	}
	add("sieve", sieveShift(k).At, func(t *lotTrial, x float64) { t.sieve = x })
	add("uptake", uptakeFactor(k).At, func(t *lotTrial, x float64) { t.uptake = x })
	add("vigour", vigour(k).At, func(t *lotTrial, x float64) { t.vigour = x })
	countInputs(k, add)
	if f := k.given.FirstImmersion; f != nil {
		v := odds.WithDeviation(f.Moisture, immersionDeviation, odds.Measured)
		add("first-immersion", v.At, func(t *lotTrial, x float64) { t.immersed = x })
	}
	return out
}

// Errors of lots for which nothing is published.
//
// Assumed: common practice, no source.
const (
	immersionDeviation = 0.005 // moisture of a weighed handful, drained by hand
	countedKernels     = 200   // laid out where a lot gives a share without its count
	sieveDeviation     = 0.01  // of the coarsest fraction, to the next
	sieveAssumed       = 0.10  // the same where nobody sieved
	vigourDeviation    = 0.025 // of the chit time, ln: half a degree in the test
	uptakeDeviation    = 0.05  // of an uptake that was given
)

// counted is a share as if it had been counted.
func counted(share float64) odds.Proportion {
	return odds.Proportion{Hits: int(math.Round(min(max(share, 0), 1) * countedKernels)), Of: countedKernels}
}

// countInputs are the shares by number, each by the statistics of its count.
func countInputs(k *lotKnown, add func(string, func(float64) float64, func(*lotTrial, float64))) {
	share := func(v odds.Value) func(float64) float64 {
		if v.Standing == odds.Measured && !v.Banded() {
			return counted(v.Mid).At
		}
		return v.At
	}
	countedDormant := k.energy4.Valid() && k.given.Capacity.Known() && !k.given.Dormant.Known()
	countedSensitive := k.energy4.Valid() && k.energy8.Valid() && !k.given.WaterSensitivity.Known()
	if k.energy4.Valid() && (countedDormant || countedSensitive || !k.given.Capacity.Known()) {
		add("energy-4ml", k.energy4.At, func(t *lotTrial, x float64) { t.energy4 = x })
	}
	if k.given.Capacity.Known() || !k.energy4.Valid() {
		add("capacity", share(k.filled.Capacity), func(t *lotTrial, x float64) { t.capacity = x })
	}
	if !countedDormant && (k.given.Dormant.Known() || !k.energy4.Valid()) {
		add("dormancy", share(k.filled.Dormant), func(t *lotTrial, x float64) { t.dormant = x })
	}
	if countedSensitive {
		add("energy-8ml", k.energy8.At, func(t *lotTrial, x float64) { t.energy8 = x })
	} else {
		add("water-sensitivity", share(k.filled.WaterSensitivity), func(t *lotTrial, x float64) { t.sensitivity = x })
	}
}

// sieveShift is how much of the lot lies in the coarsest fraction in place of
// the next.
func sieveShift(k *lotKnown) odds.Value {
	if k.given.Sieve == ([barley.SieveClasses]float64{}) {
		return odds.WithDeviation(0, sieveAssumed, odds.Weak)
	}
	return odds.WithDeviation(0, sieveDeviation, odds.Measured)
}

// uptakeFactor is the lot's own speed of uptake over what its protein tells, or
// over what was given.
func uptakeFactor(k *lotKnown) odds.Value {
	switch {
	case k.given.FirstImmersion != nil:
		return odds.Exact(1, odds.Measured)
	case k.given.Uptake.Known():
		return odds.WithDeviation(1, uptakeDeviation, odds.Measured)
	}
	v := k.filled.Uptake
	return odds.Value{Mid: 1, Low: v.Low, High: v.High, Standing: odds.Weak}
}

// vigour is the median thermal time to chit. Of a count, its standard deviation
// is that of the median of so many kernels, and of the test's temperature.
func vigour(k *lotKnown) odds.Value {
	v := k.filled.ChitThermalTimeCH
	if v.Banded() {
		return v
	}
	of := float64(countedKernels)
	if k.energy4.Valid() {
		of = float64(k.energy4.Of)
	}
	log := odds.WithDeviation(math.Log(v.Mid), math.Hypot(k.spread*math.Sqrt(math.Pi/2/of), vigourDeviation), odds.Measured)
	return log.Map(math.Exp)
}

// lotTrial is a lot as it may truly be; NaN where nothing was drawn.
type lotTrial struct {
	set, add                                         [6]float64 // by figures
	sieve, uptake, vigour, immersed                  float64
	energy4, energy8, capacity, dormant, sensitivity float64
}

func newLotTrial() lotTrial {
	t := lotTrial{uptake: 1, vigour: nan, immersed: nan, energy4: nan, energy8: nan, capacity: nan, dormant: nan, sensitivity: nan}
	for i := range t.set {
		t.set[i] = nan
	}
	return t
}

// settle is the lot with what was drawn, consistent in itself: what is dormant
// is alive, and what shuns water is what the one test had and the other had not.
func (t *lotTrial) settle(k *lotKnown) barley.Lot {
	l := k.filled
	for i := range figures {
		f := &figures[i]
		if x := t.set[i] + t.add[i]; !math.IsNaN(x) {
			*f.of(&l) = odds.Alone(min(max(x, f.least), f.most), odds.Measured)
		}
	}
	t.counts(&l)
	shift := min(max(t.sieve, -l.Sieve[0]), l.Sieve[1])
	l.Sieve[0] += shift
	l.Sieve[1] -= shift
	l.ChitThermalTimeCH = odds.Alone(t.vigour, odds.Measured)
	switch {
	case k.given.FirstImmersion != nil:
		first := *k.given.FirstImmersion
		first.Moisture = t.immersed
		l.FirstImmersion = &first
	case k.given.Uptake.Known():
		l.Uptake = odds.Alone(k.given.Uptake.Mid*t.uptake, odds.Measured)
	default:
		l.Uptake = odds.Alone(kernel.UptakeOfProtein(l.Protein.Mid)*t.uptake, odds.Measured)
	}
	return l
}

// counts sets the shares by number.
func (t *lotTrial) counts(l *barley.Lot) {
	fraction := func(x float64) odds.Value { return odds.Alone(min(max(x, 0), 1), odds.Measured) }
	switch {
	case !math.IsNaN(t.capacity):
		l.Capacity = fraction(t.capacity)
	case !math.IsNaN(t.energy4):
		l.Capacity = fraction(t.energy4)
	}
	switch {
	case !math.IsNaN(t.dormant):
		l.Dormant = fraction(min(t.dormant, l.Capacity.Mid))
	case !math.IsNaN(t.energy4) && !math.IsNaN(t.capacity):
		l.Dormant = fraction(t.capacity - t.energy4)
	}
	switch {
	case !math.IsNaN(t.energy8):
		l.WaterSensitivity = fraction(t.energy4 - t.energy8)
	case !math.IsNaN(t.sensitivity):
		l.WaterSensitivity = fraction(t.sensitivity)
	}
	l.Counts4mL, l.Counts8mL = nil, nil
}
