package air

import (
	"math"

	"awn/unit"
)

// State is moist air: temperature, humidity ratio and pressure fix all else.
type State struct {
	TempC      unit.Celsius
	W          unit.HumidityRatio // kg per kg dry air
	PressurePa float64
}

// Properties are what follows from a State. A property without a value, such
// as the dew point of dry air, is NaN.
type Properties struct {
	RelHumidity  unit.RelativeHumidity
	WetBulbC     unit.Celsius
	DewPointC    unit.Celsius
	EnthalpyJKg  float64 // per kg dry air
	VolumeM3Kg   float64 // per kg dry air
	DensityKgM3  float64 // of the moist air
	VapourPa     float64
	SaturationPa float64 // at the air's temperature
}

// Properties computes everything that follows from the state.
func (s State) Properties() Properties {
	return Properties{
		RelHumidity:  RelativeHumidity(s.TempC, s.W, s.PressurePa),
		WetBulbC:     WetBulb(s.TempC, s.W, s.PressurePa),
		DewPointC:    DewPoint(s.W, s.PressurePa),
		EnthalpyJKg:  Enthalpy(s.TempC, s.W),
		VolumeM3Kg:   SpecificVolume(s.TempC, s.W, s.PressurePa),
		DensityKgM3:  Density(s.TempC, s.W, s.PressurePa),
		VapourPa:     VapourPressure(s.W, s.PressurePa),
		SaturationPa: SaturationPressure(s.TempC),
	}
}

// Mix joins two streams, given in kg of dry air, at the pressure of the first.
//
//	h = (ma ha + mb hb)/(ma + mb), W likewise
//
// Recalled: ASHRAE 2017, ch. 1, adiabatic mixing of two moist airstreams.
// Note: cold and warm air that are each nearly saturated mix to supersaturated
// air; see Settled.
func Mix(a State, aKg float64, b State, bKg float64) State {
	share := bKg / (aKg + bKg)
	w := a.W + unit.HumidityRatio(share)*(b.W-a.W)
	ha, hb := Enthalpy(a.TempC, a.W), Enthalpy(b.TempC, b.W)
	return State{TempFromEnthalpy(ha+share*(hb-ha), w), w, a.PressurePa}
}

// Settled lets supersaturated air drop its excess as fog, without heat from
// outside. It returns the saturated air and the water dropped, kg per kg dry
// air; air that is not supersaturated comes back as it is.
//
//	h(T, W) = h(t, Ws(t)) + 4186 t (W - Ws(t)), solved for t
//
// Definition.
func (s State) Settled() (State, float64) {
	if s.W <= SaturationRatio(s.TempC, s.PressurePa) {
		return s, 0
	}
	t := WetBulb(s.TempC, s.W, s.PressurePa)
	out := State{t, SaturationRatio(t, s.PressurePa), s.PressurePa}
	return out, float64(s.W - out.W)
}

// Heated adds heat, J per kg dry air, at constant humidity ratio. Taking heat
// away may leave the air supersaturated; see Settled and BroughtTo.
//
//	t = T + q/(1006 + 1860 W)
//
// Recalled: ASHRAE 2017, ch. 1, eq. 30.
func (s State) Heated(qJKg float64) State {
	s.TempC += unit.Celsius(qJKg / HeatCapacity(s.W))
	return s
}

// BroughtTo heats or cools the air to a temperature. It returns the air, the
// heat given to it (negative when taken) in J per kg dry air, and the water
// that a cold surface took out, kg per kg dry air, which leaves at that
// temperature.
//
//	q = h(t, w) - h(T, W) + 4186 t (W - w), w = min(W, Ws(t))
//
// Recalled: ASHRAE 2017, ch. 1, moist air cooling and dehumidification.
// Note: all the air reaches the surface; a coil with a bypass is this and Mix.
func (s State) BroughtTo(t unit.Celsius) (out State, qJKg, condensedKgKg float64) {
	out = State{t, min(s.W, SaturationRatio(t, s.PressurePa)), s.PressurePa}
	condensedKgKg = float64(s.W - out.W)
	qJKg = Enthalpy(t, out.W) - Enthalpy(s.TempC, s.W) + condensedKgKg*WaterJKgK*float64(t)
	return out, qJKg, condensedKgKg
}

// Humidified passes the air through sprays or a wet pad without heat from
// outside. Effectiveness is the share of the way to saturation that the air
// covers, 0 to 1; the water comes at its own temperature, 0 to 100 °C. What it
// took is the rise of W.
//
//	w = W + ε (Ws(t*) - W), h = h(T, W) + 4186 tw (w - W), t* = AdiabaticSaturation
//
// Recalled: ASHRAE 2017, ch. 1, adiabatic mixing of water injected into moist air.
// Valid: as AdiabaticSaturation; NaN outside.
// Note: no spray cools air below the wet bulb unless the water is colder than it.
func (s State) Humidified(effectiveness float64, water unit.Celsius) State {
	if !(effectiveness >= 0 && effectiveness <= 1) {
		return State{unit.Celsius(math.NaN()), unit.HumidityRatio(math.NaN()), s.PressurePa}
	}
	end := SaturationRatio(AdiabaticSaturation(s.TempC, s.W, s.PressurePa, water), s.PressurePa)
	w := s.W + unit.HumidityRatio(effectiveness)*max(end-s.W, 0)
	h := Enthalpy(s.TempC, s.W) + WaterJKgK*float64(water)*float64(w-s.W)
	return State{TempFromEnthalpy(h, w), w, s.PressurePa}
}
