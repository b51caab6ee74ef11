package dress

import (
	"fmt"
	"math"

	"awn/air"
	"awn/barley"
	"awn/finding"
	"awn/plant"
	"awn/programme"
	"awn/unit"
)

// Keeping is malt on its way to a silo and the time that it rests there.
type Keeping struct {
	Store      plant.MaltStore
	Isotherm   barley.GAB
	PressurePa float64
	Days       float64
	Moisture   unit.WetBasis // as stripped
	TempC      float64       // as stripped
	// Outside is the air at an hour of the rest: what a ventilated silo draws,
	// and a closed one breathes.
	Outside func(atH float64) (tempC, rh float64)
}

// Rested is malt as it is sent out.
type Rested struct {
	Days     float64
	Store    plant.MaltStore
	Moisture unit.WetBasis
	Gained   float64 // water per dry matter
	TempC    float64
	// Outer is where malt settles that lies open to the outside air: what the
	// outermost of it comes to.
	Outer unit.WetBasis
	// DewC is the dew point of the air between the corns as stripped, WallC the
	// outside air at the silo's wall then.
	DewC, WallC float64
}

// restStepH is how finely the rest is cut, h; a month is not felt in an hour.
const restStepH = 1.0

// maltJKgK is the heat capacity of malt per kg of dry matter, with the little
// water that it holds.
const maltJKgK = barley.DryJKgK + 0.05*air.WaterJKgK

// Rest lets malt rest in its silo. The malt of the whole silo is at one moisture
// and lets the air go at rest with it; it cools to the outside through the walls
// and by the air.
//
//	dX/dt = G (W_out - W(X, T)), dT/dt = (1/τ + G ca/c) (T_out - T)      (G kg of air per kg of dry malt and s)
//
// X never passes where malt settles in that air.
func Rest(c *Constants, k Keeping) (Rested, error) {
	x := k.Moisture.DryBasis()
	if !(k.Days >= 0 && k.Days <= 366) || !(x >= 0) || math.IsNaN(k.TempC) {
		return Rested{}, fmt.Errorf("rest: %g days of malt of %g at %g °C", k.Days, k.Moisture, k.TempC)
	}
	outC, rh := k.Outside(0)
	out := Rested{Days: k.Days, Store: k.Store, TempC: k.TempC, WallC: outC}
	out.Outer = k.Isotherm.Moisture(unit.Celsius(outC), unit.RelativeHumidity(rh)).WetBasis()
	out.DewC = k.dewC(x)
	m3ht := k.Store.AirM3HT
	if !(m3ht > 0) {
		m3ht = c.StoreBreath
	}
	airKgH := m3ht * programme.ReferenceAirKgM3 / (kgPerT * float64(1-k.Moisture))
	cools := 1/(24*c.StoreCools) + airKgH*air.DryAirJKgK/maltJKgK
	first := x
	for at := 0.0; at < 24*k.Days; at += restStepH {
		dtH := min(restStepH, 24*k.Days-at)
		outC, rh = k.Outside(at)
		out.TempC += (outC - out.TempC) * -math.Expm1(-cools*dtH)
		x = k.breathe(x, out.TempC, outC, rh, airKgH*dtH)
	}
	if math.IsNaN(float64(x)) || math.IsNaN(out.DewC) {
		return Rested{}, fmt.Errorf("rest: malt of %g at %g °C is beyond its isotherm", k.Moisture, k.TempC)
	}
	out.Moisture, out.Gained = x.WetBasis(), float64(x-first)
	return out, nil
}

// breathe is the moisture of malt after so much air has passed it, per dry matter.
func (k *Keeping) breathe(x unit.DryBasis, tempC, outC, rh, airKg float64) unit.DryBasis {
	t := unit.Celsius(tempC)
	in := air.HumidityRatio(unit.Celsius(outC), unit.RelativeHumidity(rh), k.PressurePa)
	over := air.HumidityRatio(t, k.Isotherm.Humidity(t, x), k.PressurePa)
	settles := k.Isotherm.Moisture(t, min(1, air.RelativeHumidity(t, in, k.PressurePa)))
	moved := unit.DryBasis(airKg * float64(in-over))
	if moved > 0 {
		return x + min(moved, max(0, settles-x))
	}
	return x + max(moved, min(0, settles-x))
}

// dewC is the dew point of the air between the corns of malt as it is stripped.
func (k *Keeping) dewC(x unit.DryBasis) float64 {
	t := unit.Celsius(k.TempC)
	w := air.HumidityRatio(t, k.Isotherm.Humidity(t, x), k.PressurePa)
	return float64(air.DewPoint(w, k.PressurePa))
}

// Limits from which something is said of the rest.
//
// Assumed: common practice, no source.
const (
	UsualRestD = 21.0
	gainCounts = 0.003 // of moisture, wet basis
)

// Findings appends what the rest has to say; from is the moisture as stripped.
func (r *Rested) Findings(dst []finding.Finding, from unit.WetBasis) []finding.Finding {
	tell := func(code string, severity finding.Severity, act string, chance, cost float64, figures ...finding.Figure) {
		f := finding.New(code, severity, "malt", figures...)
		f.Act, f.Chance, f.Cost, f.Source = act, chance, cost, practice
		dst = append(dst, f)
	}
	if r.Days < UsualRestD {
		tell("malt.rest.short", finding.Note, "act.malt.rest-longer", 0.4, 0.02,
			finding.Figure{Name: "rest_d", Value: r.Days}, finding.Figure{Name: "usual_d", Value: UsualRestD})
	}
	if gain := float64(r.Moisture - from); gain > gainCounts {
		tell("malt.store.damp", finding.Caution, "act.malt.close-store", 0.7, 0.03,
			finding.Figure{Name: "stripped_wb", Value: float64(from)}, finding.Figure{Name: "sent_wb", Value: float64(r.Moisture)},
			finding.Figure{Name: "rest_d", Value: r.Days}, finding.Figure{Name: "outer_wb", Value: float64(r.Outer)})
	}
	if r.DewC > r.WallC {
		tell("malt.store.sweats", finding.Caution, "act.kiln.cool-longer", 0.6, 0.05,
			finding.Figure{Name: "dew_c", Value: r.DewC}, finding.Figure{Name: "wall_c", Value: r.WallC})
	}
	return dst
}
