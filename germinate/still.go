package germinate

import (
	"math"

	"awn/programme"
)

// suffocatesBelow is the supply of oxygen below which life is harmed and not
// only slowed. Assumed: common practice, no source.
const suffocatesBelow = 0.5

// suffocate counts the time that the corns of a layer are without oxygen.
func (r *Run) suffocate(c *cell, supply, dtH float64) {
	if supply < suffocatesBelow {
		c.breathlessH += dtH * (1 - supply/suffocatesBelow)
		c.vigour = r.setup.Constants.Vigour(c.breathlessH)
	}
}

// Vigour is what corns have left of their pace of life after hours without
// oxygen.
//
//	v = exp(-h/h0)      (h0 the parameter germinate.breathless.vigour)
//
// Assumed: common practice, no source: green malt that stood a night without
// air grows on, slower.
// Valid: hours of 0 and more; NaN outside.
func (c *Constants) Vigour(breathlessH float64) float64 {
	if !(breathlessH >= 0) {
		return math.NaN()
	}
	return math.Exp(-breathlessH / c.BreathlessH)
}

// WetCastPace is what grain cast in water has of its pace of life, hours after
// it was cast.
//
//	p = 1 - d max(0, 1 - h/H)      (d and H the parameters germinate.wet-cast.dip and .hours)
//
// Source: Davidson 1978, abstract: 26 % less respiration at once, recovered within 28 h.
// Assumed: the recovery is straight, and growth slows as respiration does.
// Valid: hours of 0 and more; NaN outside.
// Note: the abstract has the peak of respiration a day later; here it comes some four hours later.
func (c *Constants) WetCastPace(h float64) float64 {
	if !(h >= 0) {
		return math.NaN()
	}
	return 1 - c.WetCastDip*max(0, 1-h/c.WetCastH)
}

// cast is what the way of casting leaves of the pace of life now.
func (r *Run) cast() float64 {
	if !r.setup.WetCast {
		return 1
	}
	return r.setup.Constants.WetCastPace(r.now.atH)
}

// VigourLost is what the growing bed has lost of its pace of life, a mean by
// dry matter.
//
// Definition.
func (r *Run) VigourLost() float64 {
	lost, dry := 0.0, 0.0
	for i := range r.cells {
		lost += r.cells[i].dryKg * (1 - r.cells[i].vigour)
		dry += r.cells[i].dryKg
	}
	return lost / dry
}

// draught is the air that warmth draws through the bed, m³/(h t K).
func (c *Constants) draught(shut bool) float64 {
	if shut {
		return c.DraughtShut
	}
	return c.DraughtM3HTK
}

// Still is what a stop of the fan does to the bed under one draught.
type Still struct {
	DraughtM3HTK float64
	OxygenMin    float64 // minutes until a layer has no oxygen to speak of; NaN if none comes to that
	HotMin       float64 // minutes until a layer is too hot to grow; NaN if none comes to that
	MeanC        float64 // at the end
	HottestC     float64
	OxygenLeast  float64 // at its least, share by volume
	DioxideMost  float64 // at its most, in bed or room
}

// Stop is a stop of the fan with what may come of it: under the draught that
// is computed, the least and the most that are likely.
type Stop struct {
	Hours              float64
	DampersShut        bool
	Usual, Least, Most Still
}

// stillLookH is how closely a limit is found while the fan stands, h.
const stillLookH = stillStepS / 3600

// Hour is the time since the start of germination, h.
//
// Definition.
func (r *Run) Hour() float64 { return r.now.atH }

// Foresee tells what a step with the fan off that begins now would do. The run
// stays where it is.
func (r *Run) Foresee(step programme.GerminateStep) (Stop, error) {
	s := Stop{Hours: step.Until.LatestH, DampersShut: step.DampersShut}
	usual := r.setup.Constants.draught(step.DampersShut)
	key := "germinate.draught"
	if step.DampersShut {
		key = "germinate.draught.shut"
	}
	low, high := usual, usual
	for _, p := range Parameters {
		if p.Key == key {
			low, high = min(low, p.Low), max(high, p.High)
		}
	}
	for _, b := range []struct {
		of      *Still
		draught float64
	}{{&s.Usual, usual}, {&s.Least, low}, {&s.Most, high}} {
		var err error
		if *b.of, err = r.still(step, b.draught); err != nil {
			return s, err
		}
	}
	return s, nil
}

// still takes a copy of the run through the step under a draught.
func (r *Run) still(step programme.GerminateStep, draughtM3HTK float64) (Still, error) {
	c := r.Clone()
	setup, constants := *r.setup, *r.setup.Constants
	constants.DraughtM3HTK, constants.DraughtShut = draughtM3HTK, draughtM3HTK
	setup.Constants, c.setup = &constants, &setup
	out := Still{DraughtM3HTK: draughtM3HTK, OxygenMin: math.NaN(), HotMin: math.NaN(), OxygenLeast: 1}
	if err := c.Begin(step); err != nil {
		return out, err
	}
	fromH := c.now.atH
	for h := 0.0; h < step.Until.LatestH; {
		h = min(h+stillLookH, step.Until.LatestH)
		if err := c.To(fromH + h); err != nil {
			return out, err
		}
		out.look(c, 60*h)
	}
	out.MeanC, _, out.HottestC = c.temps()
	return out, nil
}

// look notes the limits that the bed has met some minutes after the stop.
func (s *Still) look(r *Run, min float64) {
	var v programme.Values
	r.readGas(&v)
	s.OxygenLeast = math.Min(s.OxygenLeast, v[programme.OxygenLeast])
	s.DioxideMost = math.Max(s.DioxideMost, v[programme.CarbonDioxideMost])
	if math.IsNaN(s.OxygenMin) && v[programme.OxygenLeast] < r.setup.Kernel.OxygenHalf {
		s.OxygenMin = min
	}
	if _, _, hottest := r.temps(); math.IsNaN(s.HotMin) && hottest > hottestC {
		s.HotMin = min
	}
}
