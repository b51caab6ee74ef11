package barley_test

import (
	"math"
	"testing"

	"awn/air"
	"awn/barley"
	"awn/unit"
)

// Factors on the latent heat at 5, 10, 20 and 40 % dry basis, computed apart
// from this program from the constants of López 1997, to three decimals.
func TestSorptionFactors(t *testing.T) {
	for _, c := range [...]struct{ x, factor float64 }{{0.05, 1.298}, {0.10, 1.150}, {0.20, 1.038}, {0.40, 1.002}} {
		got := barley.EvaporationHeat(60, unit.DryBasis(c.x)) / air.LatentHeat(60)
		near(t, "factor", got, c.factor, 5e-4)
	}
}

// The latent heat that López 1997 prints beside the sorption heat, 2500.6 -
// 2.3644 t kJ/kg, is another line than the air's; they part by 0.2 % at most.
func TestLatentHeatOfLopez(t *testing.T) {
	for c := 0.0; c <= 100; c += 10 {
		line := 1e3 * (2500.6 - 2.3644*c)
		near(t, "latent heat", air.LatentHeat(unit.Celsius(c)), line, 0.002*line)
	}
}

// A known disagreement: the isotherm of malt implies, by Clausius and
// Clapeyron, half of the sorption heat that is used. Each figure was computed
// apart from this program, to 1 kJ/kg.
func TestSorptionHeatIsNotTheIsotherms(t *testing.T) {
	const vapourGasJKgK, x, d = 461.5, 0.10, 0.05
	malt := barley.MaltIsotherm(constants(t))
	ln := func(c float64) float64 { return math.Log(float64(malt.Humidity(unit.Celsius(c), x))) }
	T := float64(unit.Celsius(60).Kelvin())
	near(t, "heat from the isotherm", vapourGasJKgK*T*T*(ln(60+d)-ln(60-d))/(2*d), 173e3, 1e3)
	near(t, "heat in use", barley.SorptionHeat(60, x), 355e3, 1e3)
}

// integral is Simpson's rule; 2000 steps leave some 1e-12 of these integrands.
func integral(f func(float64) float64, from, to float64) float64 {
	const n = 2000
	h := (to - from) / n
	sum := f(from) + f(to)
	for i := 1; i < n; i++ {
		sum += f(from+float64(i)*h) * float64(2+2*(i%2))
	}
	return sum * h / 3
}

func TestEnthalpyHoldsTheIntegralOfSorptionHeat(t *testing.T) {
	for _, c := range []float64{-10, 0, 25, 60, 105} {
		for _, x := range []float64{0, 0.02, 0.1, 0.45, 0.85} {
			bound := integral(func(x float64) float64 { return barley.SorptionHeat(unit.Celsius(c), unit.DryBasis(x)) }, 0, x)
			want := barley.DryJKgK*c + air.WaterJKgK*x*c - bound
			near(t, "enthalpy", barley.GrainEnthalpy(unit.Celsius(c), unit.DryBasis(x)), want, 1e-5)
		}
	}
}

// Dry at one temperature, heat, wet at another, cool: the heat and water that
// pass must sum to nothing, or a kiln would make heat of moisture.
func TestClosedSorptionLoopReturnsNothing(t *testing.T) {
	for _, c := range [...]struct{ cool, hot, dry, wet float64 }{
		{30, 80, 0.04, 0.80}, {-5, 105, 0.02, 0.3}, {20, 25, 0, 0.1},
	} {
		byWater := func(at, from, to float64) float64 {
			return integral(func(x float64) float64 { return barley.WaterEnthalpy(unit.Celsius(at), unit.DryBasis(x)) }, from, to)
		}
		byHeat := func(x, from, to float64) float64 { return barley.EnthalpySlope(unit.DryBasis(x)) * (to - from) }
		legs := [...]float64{
			byWater(c.cool, c.wet, c.dry), byHeat(c.dry, c.cool, c.hot),
			byWater(c.hot, c.dry, c.wet), byHeat(c.wet, c.hot, c.cool),
		}
		sum, passed := 0.0, 0.0
		for _, leg := range legs {
			sum, passed = sum+leg, passed+math.Abs(leg)
		}
		near(t, "loop", sum/passed, 0, 1e-9)
	}
}

// What a kg of water loses to the grain's heat and gains as vapour is the heat
// of its evaporation.
func TestEvaporationClosesGrainAndVapour(t *testing.T) {
	for _, c := range []unit.Celsius{0, 25, 60, 105} {
		for _, x := range []unit.DryBasis{0.02, 0.1, 0.45, 0.85} {
			const d = 1e-4
			dHdX := (barley.GrainEnthalpy(c, x+d) - barley.GrainEnthalpy(c, x-d)) / (2 * d)
			// The error of the difference is d²/6 · 13.67² of 1.5e6 J/kg, 0.5 J/kg.
			near(t, "heat of evaporation", air.VapourEnthalpy(c)-dHdX, barley.EvaporationHeat(c, x), 1)
			near(t, "dH/dX", barley.WaterEnthalpy(c, x), dHdX, 1)
			slope := (barley.GrainEnthalpy(c+1, x) - barley.GrainEnthalpy(c-1, x)) / 2
			near(t, "dH/dt", barley.EnthalpySlope(x), slope, 1e-8)
			near(t, "temperature", float64(barley.TempFromEnthalpy(barley.GrainEnthalpy(c, x), x)), float64(c), 1e-10)
		}
	}
}

// Computed apart from this program: the sorption heat adds 100.5 (1 -
// exp(-13.67 X)) J/(kg K) to the heat capacity.
func TestSorptionAddsToHeatCapacity(t *testing.T) {
	for _, x := range []unit.DryBasis{0.05, 0.2, 0.8} {
		got := barley.EnthalpySlope(x) - barley.HeatCapacity(x)
		near(t, "gain", got, 100.5*-math.Expm1(-13.67*float64(x)), 0.05)
	}
}

// Figures computed apart from this program from the printed constants, and the
// floor of Owens 2001, p. 193.
func TestDensitiesAndVolumes(t *testing.T) {
	c := constants(t)
	near(t, "bulk density at 14 %", barley.BulkDensity(0.14), 584, 0.5)
	near(t, "density of 64.5 kg/hL", barley.TestWeightDensity(64.5), 645, 0)
	near(t, "310 g in half a litre", barley.CupTestWeight(310), 64.453, 0.0005) // CGC test weight undated
	near(t, "shrinkage to 40 %", barley.BedShrinkage(0.80, 0.40), 0.206, 5e-4)
	near(t, "shrinkage to 20 %", barley.BedShrinkage(0.80, 0.20), 0.232, 5e-4)
	near(t, "shrinkage to 5 %", barley.BedShrinkage(0.80, 0.05), 0.242, 5e-4)
	near(t, "shrinkage of a bed that got wetter", barley.BedShrinkage(0.80, 0.81), 0, 0)
	near(t, "volume at casting", c.SteepedVolume(0.136, 0.136), 1.49, 0)
	// 1.2 m over 0.575 t/m²; both are printed to two figures.
	near(t, "volume steeped", c.SteepedVolume(0.136, 0.80), 1.2/0.575, 0.01)
	near(t, "radius at 45 mg", barley.KernelRadius(45), 1.72e-3, 5e-6)
	// Uptake time goes as the square of the radius, so as the mass to 2/3.
	near(t, "radius with mass", barley.KernelRadius(54)/barley.KernelRadius(40), math.Cbrt(54.0/40), 1e-14)
}

func TestPropertiesAreNaNOutsideRange(t *testing.T) {
	c := constants(t)
	for what, got := range map[string]float64{
		"heat capacity":    barley.HeatCapacity(-0.01),
		"sorption heat":    barley.SorptionHeat(20, -0.01),
		"evaporation":      barley.EvaporationHeat(20, -0.01),
		"enthalpy":         barley.GrainEnthalpy(20, -0.01),
		"temperature":      float64(barley.TempFromEnthalpy(1e4, -0.01)),
		"slope":            barley.EnthalpySlope(-0.01),
		"water enthalpy":   barley.WaterEnthalpy(20, -0.01),
		"bulk density":     barley.BulkDensity(0.45),
		"empty cup":        barley.CupTestWeight(0),
		"steeped volume":   c.SteepedVolume(0.14, 0.13),
		"swollen past 1":   c.SteepedVolume(0.14, 1.01),
		"shrinkage":        barley.BedShrinkage(0.8, -0.01),
		"radius of 0":      barley.KernelRadius(0),
		"radius in kg":     barley.KernelRadius(4.5e-5),
		"enthalpy of NaN":  barley.GrainEnthalpy(20, unit.DryBasis(math.NaN())),
		"moisture of pile": barley.BulkDensity(unit.WetBasis(math.NaN())),
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s = %v, want NaN", what, got)
		}
	}
}
