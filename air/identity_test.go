package air_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"awn/air"
	"awn/unit"
)

// anyAir draws air that a malthouse may meet: -30 to 115 °C, sea level to
// 3 000 m, from nearly dry to saturated.
func anyAir(r *rand.Rand) air.State {
	t := unit.Celsius(-30 + 145*r.Float64())
	p := air.StandardPressure(3000 * r.Float64())
	most := min(1, 0.9*p/air.SaturationPressure(t))
	rh := unit.RelativeHumidity(most * (0.01 + 0.99*r.Float64()))
	return air.State{TempC: t, W: air.HumidityRatio(t, rh, p), PressurePa: p}
}

func TestSlopesAreDerivatives(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	const d = 1e-3
	for range 500 {
		c := unit.Celsius(-95 + 180*r.Float64())
		if math.Abs(float64(c)-air.TripleC) < 2*d {
			continue // the slope jumps from ice to water
		}
		// The error of a central difference is d²/6 of the third derivative, below 1e-8 here;
		// rounding adds 1e-16/d of the value, times some 10 for the smallest relative slope.
		slope := (air.SaturationPressure(c+d) - air.SaturationPressure(c-d)) / (2 * d)
		near(t, "dps/dT", air.SaturationSlope(c), slope, 1e-6*slope)
		wSlope := float64(air.SaturationRatio(c+d, 101325)-air.SaturationRatio(c-d, 101325)) / (2 * d)
		near(t, "dWs/dT", air.SaturationRatioSlope(c, 101325), wSlope, 1e-6*wSlope)
	}
}

// The cubics of Saturation against the formula. Their error is a 384th of the
// fourth derivative times the spacing to the fourth: some 3e-10 of the pressure.
func TestSaturationIsTabledClosely(t *testing.T) {
	for c := unit.Celsius(-20); c < 140; c += 0.013 {
		p, slope := air.Saturation(c)
		near(t, "ps", p, air.SaturationPressure(c), 1e-9*p)
		if math.Abs(float64(c)-air.TripleC) > 1e-3 {
			const d = 1e-3
			near(t, "dps/dT", slope, (air.SaturationPressure(c+d)-air.SaturationPressure(c-d))/(2*d), 1e-7*slope)
		}
	}
}

func TestInverses(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 500 {
		s := anyAir(r)
		p := s.Properties()
		near(t, "temperature from enthalpy", float64(air.TempFromEnthalpy(p.EnthalpyJKg, s.W)), float64(s.TempC), 1e-9)
		near(t, "humidity ratio", float64(air.HumidityRatio(s.TempC, p.RelHumidity, s.PressurePa)), float64(s.W), 1e-12*float64(s.W)+1e-15)
		near(t, "saturation at the dew point", air.SaturationPressure(p.DewPointC), p.VapourPa, 1e-9*p.VapourPa)
		if !(p.DewPointC <= p.WetBulbC+1e-6 && p.WetBulbC <= s.TempC+1e-6) {
			t.Errorf("%+v: dew point %v, wet bulb %v are out of order", s, p.DewPointC, p.WetBulbC)
		}
	}
}

// The wet bulb is where air saturates on water of its own temperature; water
// brought at the wet bulb gives it back, and heat closes.
func TestAdiabaticSaturation(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 500 {
		s := anyAir(r)
		wet := air.WetBulb(s.TempC, s.W, s.PressurePa)
		if wet < 0.01 {
			continue // on ice, which AdiabaticSaturation does not supply
		}
		near(t, "saturation on water at the wet bulb",
			float64(air.AdiabaticSaturation(s.TempC, s.W, s.PressurePa, wet)), float64(wet), 1e-6)
		end := s.Humidified(1, wet)
		near(t, "temperature after a full spray", float64(end.TempC), float64(wet), 1e-6)
		for _, effectiveness := range []float64{0, 0.4, 0.9} {
			out := s.Humidified(effectiveness, 12)
			brought := air.WaterJKgK * 12 * float64(out.W-s.W)
			near(t, "heat over a spray", air.Enthalpy(out.TempC, out.W), air.Enthalpy(s.TempC, s.W)+brought, 1e-6)
		}
	}
}

// A humidifier cannot go below the wet bulb: 30 °C and 50 %, 22.0 °C.
// Check: psychrolib 1.1.1 gives a wet bulb of 22.005 °C; it stops at 0.001 K.
func TestHumidifierStopsAtWetBulb(t *testing.T) {
	s, err := air.From(101325, air.Is(air.DryBulb, 30), air.Is(air.RelHumidity, 0.5))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "after the spray", float64(s.Humidified(1, 22).TempC), 22.005, 0.002)
}

func TestMixAndSettleClose(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	fogs := 0
	for range 500 {
		a, b := anyAir(r), anyAir(r)
		ka, kb := r.Float64(), r.Float64()
		m := air.Mix(a, ka, b, kb)
		total := ka + kb
		near(t, "water over a mix", total*float64(m.W), ka*float64(a.W)+kb*float64(b.W), 1e-12)
		heat := ka*air.Enthalpy(a.TempC, a.W) + kb*air.Enthalpy(b.TempC, b.W)
		near(t, "heat over a mix", total*air.Enthalpy(m.TempC, m.W), heat, 1e-6)
		out, dropped := m.Settled()
		if dropped == 0 || out.TempC < 0.01 {
			continue // fog of ice: its heat of melting is not in the liquid line
		}
		fogs++
		near(t, "humidity of settled air", float64(air.RelativeHumidity(out.TempC, out.W, out.PressurePa)), 1, 1e-9)
		left := air.Enthalpy(out.TempC, out.W) + dropped*air.WaterJKgK*float64(out.TempC)
		near(t, "heat over settling", left, air.Enthalpy(m.TempC, m.W), 1e-3)
	}
	if fogs < 5 {
		t.Errorf("only %d of the mixes fogged: the draw no longer tests settling", fogs)
	}
}

func TestHeatingAndCooling(t *testing.T) {
	s := air.State{TempC: 24, W: 0.012, PressurePa: 101325}
	cold, q, water := s.BroughtTo(10)
	near(t, "humidity off the coil", float64(air.RelativeHumidity(cold.TempC, cold.W, 101325)), 1, 1e-12)
	near(t, "water over the coil", float64(cold.W)+water, 0.012, 1e-15)
	near(t, "heat over the coil", air.Enthalpy(cold.TempC, cold.W)+water*air.WaterJKgK*10,
		air.Enthalpy(s.TempC, s.W)+q, 1e-9)
	warm, q, water := cold.BroughtTo(30)
	near(t, "water over the heater", water, 0, 0)
	near(t, "heated by the same heat", float64(cold.Heated(q).TempC), float64(warm.TempC), 1e-12)
}

// Above the boiling point air cannot saturate; the cap keeps every figure
// finite and positive.
func TestCapAboveBoiling(t *testing.T) {
	for _, c := range []unit.Celsius{99, 100, 103, 110, 150} {
		w := air.SaturationRatio(c, 101325)
		if !(w > 0 && w < 31) {
			t.Errorf("saturation ratio at %v °C = %v", c, w)
		}
		if wet := air.WetBulb(c, 0.02, 101325); !(wet > 30 && wet < 60) {
			t.Errorf("wet bulb at %v °C and 0.02 = %v", c, wet)
		}
	}
	near(t, "slope at the cap", air.SaturationRatioSlope(110, 101325), 0, 0)
}

func TestNaNOutsideRange(t *testing.T) {
	nan := math.NaN()
	for name, got := range map[string]float64{
		"saturation above 200 °C":  air.SaturationPressure(200.1),
		"saturation below -100 °C": air.SaturationPressure(-100.1),
		"slope above 200 °C":       air.SaturationSlope(201),
		"saturation of NaN":        air.SaturationPressure(unit.Celsius(nan)),
		"dew point of dry air":     float64(air.DewPoint(0, 101325)),
		"negative humidity":        float64(air.HumidityRatio(20, -0.1, 101325)),
		"negative humidity ratio":  float64(air.RelativeHumidity(20, -0.001, 101325)),
		"wet bulb of that":         float64(air.WetBulb(20, -0.001, 101325)),
		"wet bulb of NaN":          float64(air.WetBulb(unit.Celsius(nan), 0.01, 101325)),
		"pressure at 12 km":        air.StandardPressure(12000),
		"spray of ice":             float64(air.AdiabaticSaturation(20, 0.005, 101325, -1)),
		"effectiveness above 1":    float64(air.State{TempC: 20, W: 0.005, PressurePa: 101325}.Humidified(1.1, 10).W),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s = %v, want NaN", name, got)
		}
	}
}
