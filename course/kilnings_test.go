package course_test

import (
	"math"
	"testing"

	"awn/air"
	"awn/course"
	"awn/programme"
	"awn/unit"
)

// Two kilnings from measured green malt, run from the documents that a user can
// run, against testdata/kilnings.csv.
func TestKilnings(t *testing.T) {
	p, b := run(t, load(t, "checks/case-p.yaml")), run(t, load(t, "checks/case-b.yaml"))
	got := map[string]float64{
		"P mean":  100 * p.Kilned.MoistureMean,
		"P top":   100 * p.Kilned.MoistureWettest,
		"P break": p.Kilned.BreakH,
		"B mean":  dryBasis(b.Kilned.MoistureMean),
	}
	for at, name := range map[float64]string{0.1: "B at 0.1", 0.3: "B at 0.3", 0.5: "B at 0.5", 0.7: "B at 0.7", 0.9: "B at 0.9"} {
		got[name+" of the depth"] = dryBasis(atDepth(&b.Bed[0], at))
	}
	for _, r := range published(t, "testdata/kilnings.csv") {
		x, ok := got[r.figure]
		if !ok {
			t.Fatalf("nothing is compared with %s", r.figure)
		}
		t.Logf("%-23s %8.4f %s, elsewhere %8.4f", r.figure, x, r.unit, r.value)
		near(t, r.figure, x, r.value, r.tolerance)
	}
}

func dryBasis(wb float64) float64 { return wb / (1 - wb) }

// atDepth is the last moisture of a bed at a share of its height, on a straight
// line between the middles of its layers.
func atDepth(f *course.Field, share float64) float64 {
	last := f.Moisture[len(f.Moisture)-f.Layers:]
	x := share*float64(f.Layers) - 0.5
	i := int(x)
	return last[i] + (x-float64(i))*(last[i+1]-last[i])
}

// While a bed is wet at its top the air leaves it at the temperature of
// adiabatic saturation, and no kiln without heat recovery dries with less heat
// per kg of water than what brings outside air to a state that can take it up:
//
//	q >= (h_on - h_outside)/(W_saturated - W_on)
//
// Heat is the burner's and, where the grain lives, that of its respiration; it
// is compared with what the air takes up. 0.5 K stands for the heat of sorption
// of wet grain, for the warming of layers below and for respiration.
func TestPlateau(t *testing.T) {
	for _, c := range []struct {
		name         string
		fromH, toH   float64
		outsideC, rh float64
	}{{"checks/case-p.yaml", 2, 4, 10, 0.80}, {"checks/case-b.yaml", 4, 10, 20, 0.5502}} {
		o := run(t, load(t, c.name))
		const sea = 101325
		w := air.HumidityRatio(unit.Celsius(c.outsideC), unit.RelativeHumidity(c.rh), sea)
		onC := unit.Celsius(at(o, c.fromH, programme.AirOn))
		wetC := air.WetBulb(onC, w, sea)
		for h := c.fromH; h <= c.toH; h += 0.5 {
			near(t, c.name+", air-off", at(o, h, programme.AirOff), float64(wetC), 0.5)
		}
		least := (air.Enthalpy(onC, w) - air.Enthalpy(unit.Celsius(c.outsideC), w)) / float64(air.SaturationRatio(wetC, sea)-w)
		heatJ, waterKg := heatAndWater(o, c.fromH, c.toH)
		t.Logf("%s: air-off %.2f °C, adiabatic saturation %.2f °C; %.3f MJ/kg of water, at least %.3f", c.name,
			at(o, c.toH, programme.AirOff), wetC, heatJ/waterKg/1e6, least/1e6)
		if !(heatJ/waterKg >= least) {
			t.Errorf("%s: %.4g MJ per kg of water, and thermodynamics asks for %.4g", c.name, heatJ/waterKg/1e6, least/1e6)
		}
	}
}

// heatAndWater is the heat given to a kiln between two hours, that of
// respiration counted, and the water that the air took away.
func heatAndWater(o *course.Outcome, fromH, toH float64) (heatJ, waterKg float64) {
	const starchJKg, starchWater = 17.39e6, 0.556 // per kg of dry matter respired
	c := &o.Curve
	held := func(v *programme.Values) float64 { return v[programme.DryMatter] * dryBasis(v[programme.Moisture]) }
	for i := 1; i < len(c.TimeH); i++ {
		if c.TimeH[i-1] < fromH-1e-9 || c.TimeH[i] > toH+1e-9 {
			continue
		}
		a, b := &c.At[i-1], &c.At[i]
		burnt := a[programme.DryMatter] - b[programme.DryMatter]
		heatJ += (a[programme.HeaterPower]+b[programme.HeaterPower])/2*1000*3600*(c.TimeH[i]-c.TimeH[i-1]) + burnt*starchJKg
		waterKg += held(a) - held(b) + burnt*starchWater
	}
	return heatJ, waterKg
}

// The sums of a kilning do not depend on how often it is looked at: what the
// curve says was burnt is what the account says.
func TestCurveAgreesWithAccount(t *testing.T) {
	o := run(t, load(t, "checks/case-p.yaml"))
	heatJ, _ := heatAndWater(o, 0, 19)
	burnt := o.Stages[0].Start[programme.DryMatter] - o.Stages[0].End[programme.DryMatter]
	if kWh := (heatJ - burnt*17.39e6) / 3.6e6; math.Abs(kWh/o.Cost.HeatToAirKWh-1) > 0.01 {
		t.Errorf("%.1f kWh under the curve, %.1f in the account", kWh, o.Cost.HeatToAirKWh)
	}
}
