package dress

import (
	"math"
	"testing"

	"awn/barley"
	"awn/plant"
	"awn/unit"
)

// keeping is pale malt in a silo, in steady weather.
func keeping(m3ht, days, tempC, rh float64) Keeping {
	return Keeping{
		Store: plant.MaltStore{AirM3HT: m3ht}, Isotherm: barley.MaltIsotherm(barley.Constants{MaltEMC: 1}), PressurePa: 101325,
		Days: days, Moisture: 0.045, TempC: tempC, Outside: func(float64) (float64, float64) { return tempC, rh },
	}
}

func rest(t testing.TB, k Keeping) Rested {
	t.Helper()
	r, err := Rest(constants(t), k)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// López 1997, as a later text prints its constants: malt settles at 0.13532 and
// 0.08343 kg/kg in air of 65 and 40 % at 25 °C. Much air for a year brings it
// there; tolerance: the digits of the table.
func TestMuchAirBringsMaltToItsIsotherm(t *testing.T) {
	for rh, want := range map[float64]float64{0.65: 0.13532, 0.40: 0.08343} {
		r := rest(t, keeping(60, 360, 25, rh))
		near(t, "moisture, db", float64(r.Moisture.DryBasis()), want, 1e-5)
		near(t, "of the outermost", float64(r.Outer.DryBasis()), want, 1e-5)
	}
}

// In the first days the water gained is that which the air leaves: 10 m³/h/t of
// air of 15 °C and 80 % bring 0.00852 kg of water per kg, and malt of 4.5 %
// gives some 0.0012 back (ASHRAE 2017 and the isotherm, by hand): 12.04 kg/h of
// air a tonne, 24 h, 0.0073 kg/kg make 2.1 kg of water a tonne in a day. A tenth
// for the drift of the malt.
func TestAirBringsWhatItHolds(t *testing.T) {
	r := rest(t, keeping(10, 1, 15, 0.8))
	near(t, "kg a tonne in a day", r.Gained*955, 2.1, 0.21)
}

// A closed silo breathes so little that a month moves nothing that is measured.
func TestClosedSiloKeepsItsMalt(t *testing.T) {
	r := rest(t, keeping(0, 30, 15, 0.85))
	near(t, "moisture", float64(r.Moisture), 0.045, 0.0005)
	if r.Moisture <= 0.045 {
		t.Error("a silo that breathes damp air takes up nothing")
	}
}

// Malt never passes where it settles, however much air there is.
func TestNoMaltPassesItsIsotherm(t *testing.T) {
	for _, m3ht := range []float64{1, 30, 1000} {
		dry := rest(t, keeping(m3ht, 40, 20, 0.05))
		if x := dry.Moisture; x < dry.Outer-1e-12 || x > 0.045 {
			t.Errorf("dry air brings malt of 4.5 %% to %g", x)
		}
		damp := rest(t, keeping(m3ht, 40, 20, 0.9))
		if x := damp.Moisture; x > damp.Outer+1e-12 || x < 0.045 {
			t.Errorf("damp air brings malt of 4.5 %% to %g", x)
		}
	}
}

// Warm malt cools to the outside, sooner with air.
func TestMaltCoolsInItsSilo(t *testing.T) {
	k := keeping(0, 20, 5, 0.8)
	k.TempC = 35
	closed := rest(t, k)
	near(t, "after one time of cooling", closed.TempC, 5+30/math.E, 0.5)
	k.Store.AirM3HT = 10
	if aired := rest(t, k); aired.TempC >= closed.TempC {
		t.Errorf("%g °C with air, %g without", aired.TempC, closed.TempC)
	}
}

func TestRestRefusals(t *testing.T) {
	for name, spoil := range map[string]func(*Keeping){
		"no time": func(k *Keeping) { k.Days = math.NaN() }, "years": func(k *Keeping) { k.Days = 1000 },
		"no temperature": func(k *Keeping) { k.TempC = math.NaN() }, "no moisture": func(k *Keeping) { k.Moisture = unit.WetBasis(math.NaN()) },
	} {
		k := keeping(1, 10, 15, 0.8)
		spoil(&k)
		if _, err := Rest(constants(t), k); err == nil {
			t.Errorf("%s is accepted", name)
		}
	}
}
