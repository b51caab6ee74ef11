package course

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"awn/lab"
	"awn/malt"
	"awn/odds"
	"awn/programme"
)

// Measuring is what one more measurement would do to the chance of a wrong
// release.
//
// It is valued for whoever hesitates: the stakes are taken such that, as things
// stand, letting the piece go and holding it weigh the same. A measurement then
// has it held where it makes a fault likelier than before. What counts is how
// much more often that holds a piece out of specification than one within it: a
// reading that tells nothing brings nothing, one that tells all brings the whole
// chance down to none.
type Measuring struct {
	Key       string  // lot.THING, STAGE.end.READING or malt.FIGURE
	Hours     float64 // what it takes
	Now       float64 // chance of a wrong release without it: that the malt is out of specification
	Fall      float64 // by how much that chance is expected to fall
	Deviation float64 // standard error of the fall
}

// measurement is something that can be measured, and how well.
type measurement struct {
	key       string
	hours     float64
	deviation float64 // standard deviation of a result
	relative  bool    // deviation is a share of the figure
}

// measurements are what a house can measure of a lot and of a piece on its way.
// Hours and deviations are common practice, no source; where precision is
// published it takes the place of the deviation.
var measurements = []measurement{
	{"lot.moisture", 3, 0.005, false},
	{"lot.protein", 1, 0.0027, false},
	{"lot.kernel-mass", 1, 0.018, true},
	{"lot.sieve", 0.5, sieveDeviation, false},
	{"lot.uptake", 7, 0.05, true},
	{"lot.vigour", 72, 0.04, true},
	{"lot.capacity", 48, 0.008, false},
	{"lot.energy-4ml", 72, 0.01, false},
	{"lot.beta-glucan", 3, 0.05, true},
	{"lot.green-smm", 6, 0.09, true},
	{endKey(Steep, programme.Drained), 0.3, 0.004, false},
	{endKey(Steep, programme.Chit), 0.3, 0.04, false},
	{endKey(Germinate, programme.Moisture), 3, 0.005, false},
	{endKey(Germinate, programme.Acrospire), 0.7, 0.04, false},
}

// maltHours and maltDeviations are what a figure of malt takes, and how far a
// result stands from the truth where no precision is published.
var maltMeasurements = map[malt.Parameter]measurement{
	malt.Moisture:         {"", 3, 0.002, false},
	malt.ExtractFine:      {"", 4, 0.003, false},
	malt.ExtractCoarse:    {"", 4, 0.003, false},
	malt.ExtractGap:       {"", 6, 0.004, false},
	malt.Colour:           {"", 4, 0.07, true},
	malt.Protein:          {"", 1, 0.0027, false},
	malt.SolubleProtein:   {"", 5, 0.003, false},
	malt.KolbachIndex:     {"", 5, 0.03, false},
	malt.FAN:              {"", 5, 0.06, true},
	malt.DiastaticPower:   {"", 3, 0.08, true},
	malt.AlphaAmylase:     {"", 3, 0.06, true},
	malt.WortBetaGlucan:   {"", 5, 0.09, true},
	malt.Viscosity:        {"", 4, 0.015, false},
	malt.Friability:       {"", 0.3, 0.015, false},
	malt.PartlyUnmodified: {"", 0.5, 0.01, false},
	malt.WhollyUnmodified: {"", 0.5, 0.007, false},
	malt.DMSPrecursor:     {"", 6, 0.09, true},
}

// candidate is a measurement with its truth in each draw.
type candidate struct {
	measurement
	truth []float64
}

// mostMeasurings is how many measurements are ranked.
const mostMeasurings = 5

// measureNext ranks what to measure next by how far it is expected to bring down
// the chance of a wrong release, the five best of those that are beyond chance.
// A measurement is tried in each draw: its truth is read with an error as large
// as the method's, and a logistic curve through all draws says how likely a
// fault is at each reading.
func (e *Ensemble) measureNext() []Measuring {
	out := e.outs()
	var all []Measuring
	noise, err := odds.NewPoints(odds.MostDimensions, e.Seed+2)
	if err != nil || len(out) < leastDraws || len(e.Lines) == 0 {
		return nil
	}
	u := make([]float64, odds.MostDimensions)
	for k, c := range e.candidates() {
		read := make([]float64, len(out))
		for i, x := range c.truth {
			noise.At(i, u)
			read[i] = x + c.error(x)*odds.NormalQuantile(u[k%len(u)])
		}
		if now, fall, deviation, told := caught(out, read); told > beyondChance {
			all = append(all, Measuring{c.key, c.hours, now, fall, deviation})
		}
	}
	slices.SortStableFunc(all, func(a, b Measuring) int {
		return cmp.Or(cmp.Compare(b.Fall, a.Fall), cmp.Compare(a.Hours, b.Hours))
	})
	return all[:min(len(all), mostMeasurings)]
}

func (m *measurement) error(x float64) float64 {
	if m.relative {
		return m.deviation * math.Abs(x)
	}
	return m.deviation
}

// outs says of each draw whether the malt is out of specification.
func (e *Ensemble) outs() []bool {
	out := make([]bool, len(e.drawn))
	for i := range e.drawn {
		out[i] = !e.drawn[i].meets
	}
	return out
}

// candidates are what can be measured and is not known.
func (e *Ensemble) candidates() []candidate {
	var out []candidate
	inputs := e.inputs()
	for _, m := range measurements {
		of := func(s *sample) float64 { return nan }
		if strings.HasPrefix(m.key, "lot.") {
			j := slices.IndexFunc(inputs, func(in Input) bool { return in.Key == m.key })
			if j < 0 {
				continue
			}
			of = func(s *sample) float64 { return s.inputs[j] }
		} else if k := slices.IndexFunc(e.Bands, func(b Band) bool { return b.Key == m.key }); k >= 0 {
			n := slices.Index(e.keys(), m.key)
			of = func(s *sample) float64 { return s.numbers[n] }
		}
		if truth := e.column(of); !slices.ContainsFunc(truth, math.IsNaN) {
			out = append(out, candidate{m, truth})
		}
	}
	for i, line := range e.Lines {
		if m, ok := e.ofMalt(i); ok && line.Unsaid == 0 {
			out = append(out, candidate{m, e.column(func(s *sample) float64 { return s.limits[i] })})
		}
	}
	return out
}

// ofMalt is the measurement of the figure of a line. The precision of the method
// is the published one, where there is one at that figure.
func (e *Ensemble) ofMalt(line int) (measurement, bool) {
	v := e.Outcome.Judged[line]
	m, ok := maltMeasurements[v.Limit.Parameter]
	m.key = "malt." + v.Limit.Parameter.Key(v.Limit.Basis)
	if !math.IsNaN(v.Guard) {
		m.deviation, m.relative = lab.Deviation(v.Guard), false
	}
	return m, ok
}

const (
	// leastDraws is how many draws a ranking needs.
	leastDraws = 50
	// beyondChance is the deviance above which a reading tells something: chi-square
	// of two degrees of freedom lies above it once in 200.
	//
	// Recalled: the printed table of chi-square.
	beyondChance = 10.60
)

// caught is the chance that a piece is out of specification, and how much of it a
// reading catches, with its standard error; told is the deviance that the reading
// takes away.
//
//	fall = E[max(0, p(reading) - now)] / (1 - now)
func caught(out []bool, read []float64) (now, fall, deviation, told float64) {
	n := float64(len(out))
	for _, o := range out {
		if o {
			now += 1 / n
		}
	}
	chance, told := odds.Logistic(out, read)
	if math.IsNaN(told) {
		return now, 0, 0, 0
	}
	var held [2]float64 // of those within specification, and of those out of it
	for i, p := range chance {
		if p > now {
			fall += (p - now) / (1 - now) / n
			held[one(out[i])]++
		}
	}
	bad, good := held[1]/(n*now), held[0]/(n*(1-now))
	deviation = now * math.Sqrt(bad*(1-bad)/(n*now)+good*(1-good)/(n*(1-now)))
	return now, fall, deviation, told
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}
