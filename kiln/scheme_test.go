package kiln

import (
	"fmt"
	"math"
	"testing"

	"awn/programme"
)

// A layer's answers are the differences of what the march makes of it, in wet
// grain, in malt, under dew and where fog falls. Within 5 % of the vapour or heat
// that passes: the answers leave out how the film follows the vapour, some of the
// isotherm's slope with temperature, and under dew what the inside takes up.
func TestAnswersAreDifferences(t *testing.T) {
	const flow = 0.5
	for name, c := range map[string]struct{ x, tempC, onC, onW float64 }{
		"wet grain":  {0.8, 25, 55, 0.008},
		"half dry":   {0.3, 45, 60, 0.02},
		"malt":       {0.06, 80, 84, 0.03},
		"moist malt": {0.12, 60, 65, 0.05},
		"dew":        {0.8, 18, 40, 0.040},
		"fog":        {0.8, 18, 26, 0.021},
	} {
		s := paleSetup(t)
		s.Layers = 1
		r := start(t, s, greenMalt(5.5, c.x, c.tempC))
		bed := &r.columns[0]
		off := func(onC, onW, warmer float64) (stream, float64) {
			setLayer(bed, 0, c.tempC+warmer, c.x)
			out := r.law.march(bed, streamOf(onC, onW), flow, 0)
			return out, bed.sides[0].tempC
		}
		base, _ := off(c.onC, c.onW, 0)
		r.law.answers(bed, flow, 0)
		a := bed.answers[0]

		const dW, dK = 1e-6, 1e-3
		byHeat, _ := off(c.onC+dK, c.onW, 0)
		heat := enthalpy(c.onC+dK, c.onW) - enthalpy(c.onC, c.onW)
		// The same heat with more vapour: cooler air.
		cooler := streamOfHeat(enthalpy(c.onC, c.onW), c.onW+dW).tempC
		byVapour, _ := off(cooler, c.onW+dW, 0)
		byWarmth, _ := off(c.onC, c.onW, dK)
		latent := 2.5e6
		for what, v := range map[string]struct{ got, want, scale float64 }{
			"vapour for vapour": {a.ww, (byVapour.w - base.w) / dW, 1},
			"heat for vapour":   {a.hw, (byVapour.hJKg - base.hJKg) / dW, latent},
			"vapour for heat":   {a.wh * latent, (byHeat.w - base.w) / heat * latent, 1},
			"heat for heat":     {a.hh, (byHeat.hJKg - base.hJKg) / heat, 1},
			"vapour for warmth": {a.wT, (byWarmth.w - base.w) / dK, 1e-3},
			"heat for warmth":   {a.hT, (byWarmth.hJKg - base.hJKg) / dK, 1e3},
		} {
			near(t, name+", "+what, v.got/v.scale, v.want/v.scale, 0.05)
		}
	}
}

// Five hundred layers, each of two millimetres, answer within a second. Steps of
// the usual length stay as stable as in sixty, and drying agrees to what sixty
// layers leave out.
func TestThinLayersAreStable(t *testing.T) {
	run := func(layers int) (mean, top float64) {
		s := paleSetup(t)
		s.Layers = layers
		r := start(t, s, greenMalt(330, 0.8182, 18))
		kilned(t, r, paleSteps())
		var v programme.Values
		r.Read(&v)
		return 100 * v[programme.Moisture], 100 * v[programme.WorstLayer]
	}
	mean, top := run(60)
	thin, thinTop := run(500)
	near(t, "mean", thin, mean, 0.05)
	near(t, "top", thinTop, top, 0.05)
}

// The air that is told at the end of a step is that of the bed as it is then,
// within 0.02 K and 2e-5 kg of vapour: the square of what a step may be off.
func TestAirOffIsThatOfTheBed(t *testing.T) {
	r := start(t, paleSetup(t), greenMalt(330, 0.8182, 18))
	atHours(t, r, paleSteps(), tenths(19), func(k int) {
		told := r.view.off
		again := r.Clone()
		plant := again.maker(0)
		var sum tally
		seen, _ := again.stage(&plant, &sum, 0, again.offs)
		where := fmt.Sprintf("%.1f h", r.hour)
		near(t, where+", °C", told.tempC, seen.off.tempC, 0.02)
		near(t, where+", vapour", told.w, seen.off.w, 2e-5)
	})
}

// Half the step leaves a quarter of the error: the scheme is of second order, in
// layers that dry while return air comes in. Measured against steps a tenth as
// long; two fifths or less are asked, for the error of single layers changes sign.
func TestSecondOrder(t *testing.T) {
	run := func(stepS float64) []float64 {
		s := paleSetup(t)
		s.StepS = stepS
		r := start(t, s, greenMalt(330, 0.5, 30))
		kilned(t, r, []programme.KilnStep{
			{AirOnC: 50, Flow: programme.Airflow{Value: 0.4}, Recirculation: 0.3, Until: programme.Until{LatestH: 1}},
			{AirOnC: 60, Flow: programme.Airflow{Value: 0.4}, Recirculation: 0.3, RampH: 4, Until: programme.Until{LatestH: 4}},
		})
		var out []float64
		for i := range r.columns[0].water {
			out = append(out, 100*r.columns[0].moistureWB(i))
		}
		return out
	}
	exact := run(12)
	off := func(stepS float64) float64 {
		sum := 0.0
		for i, m := range run(stepS) {
			sum += math.Abs(m - exact[i])
		}
		return sum / float64(len(exact))
	}
	whole, half := off(240), off(120)
	t.Logf("mean error %.5f points, %.5f at half the step", whole, half)
	if !(half < 0.4*whole) {
		t.Errorf("mean error %.5f points, and %.5f at half the step", whole, half)
	}
}
