package air_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"awn/air"
)

// given returns every property of a state in the form From reads.
func given(s air.State) []air.Given {
	p := s.Properties()
	return []air.Given{
		air.Is(air.DryBulb, float64(s.TempC)), air.Is(air.WetBulbTemp, float64(p.WetBulbC)),
		air.Is(air.DewPointTemp, float64(p.DewPointC)), air.Is(air.RelHumidity, float64(p.RelHumidity)),
		air.Is(air.HumRatio, float64(s.W)), air.Is(air.EnthalpyJKg, p.EnthalpyJKg), air.Is(air.VolumeM3Kg, p.VolumeM3Kg),
	}
}

// twin reports whether a pair is refused because it fixes no state.
func twin(a, b air.Kind) bool {
	pair := [2]air.Kind{min(a, b), max(a, b)}
	return a == b || pair == [2]air.Kind{air.DewPointTemp, air.HumRatio} || pair == [2]air.Kind{air.WetBulbTemp, air.EnthalpyJKg}
}

// Every pair of every state gives the state back, in either order.
func TestFromEveryPair(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 300 {
		s := anyAir(r)
		all := given(s)
		for _, a := range all {
			for _, b := range all {
				if twin(a.Kind, b.Kind) {
					continue
				}
				got, err := air.From(s.PressurePa, a, b)
				if err != nil {
					t.Fatalf("%+v: %v", s, err)
				}
				// Wet bulbs are solved to 1e-9 K and the pair {wet bulb, volume} magnifies that most; printed figures need 0.01.
				near(t, a.Kind.String()+" and "+b.Kind.String()+": temperature", float64(got.TempC), float64(s.TempC), 2e-5)
				near(t, a.Kind.String()+" and "+b.Kind.String()+": W", float64(got.W), float64(s.W), 1e-7*(1+100*float64(s.W)))
			}
		}
	}
}

func TestFromTable(t *testing.T) {
	for _, row := range table(t, "moist_air.csv") {
		// The table prints wet bulb and dew point to about 0.001 K; where both are the same the dry bulb is too.
		got, err := air.From(row[2], air.Is(air.RelHumidity, row[1]), air.Is(air.EnthalpyJKg, row[5]))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "dry bulb from humidity and enthalpy", float64(got.TempC), row[0], 1e-3)
		got, err = air.From(row[2], air.Is(air.HumRatio, row[4]), air.Is(air.VolumeM3Kg, row[6]))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "dry bulb from ratio and volume", float64(got.TempC), row[0], 1e-3)
	}
}

func TestFromRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name string
		p    float64
		a, b air.Given
		code string
	}{
		{"no pressure", 0, air.Is(air.DryBulb, 20), air.Is(air.RelHumidity, 0.5), air.PressureRange},
		{"pressure NaN", nan, air.Is(air.DryBulb, 20), air.Is(air.RelHumidity, 0.5), air.PressureRange},
		{"humidity in per cent", 101325, air.Is(air.DryBulb, 20), air.Is(air.RelHumidity, 50), air.GivenRange},
		{"negative ratio", 101325, air.Is(air.DryBulb, 20), air.Is(air.HumRatio, -0.001), air.GivenRange},
		{"hotter than the formulas", 101325, air.Is(air.DryBulb, 201), air.Is(air.RelHumidity, 0.5), air.GivenRange},
		{"NaN", 101325, air.Is(air.DryBulb, nan), air.Is(air.RelHumidity, 0.5), air.GivenRange},
		{"unknown kind", 101325, air.Is(air.Kind(99), 1), air.Is(air.RelHumidity, 0.5), air.GivenRange},
		{"one property twice", 101325, air.Is(air.DryBulb, 20), air.Is(air.DryBulb, 21), air.PairSame},
		{"dew point and ratio", 101325, air.Is(air.DewPointTemp, 10), air.Is(air.HumRatio, 0.0076), air.PairSame},
		{"wet bulb and enthalpy", 101325, air.Is(air.EnthalpyJKg, 5e4), air.Is(air.WetBulbTemp, 17), air.PairAmbiguous},
		{"dry air twice said", 101325, air.Is(air.RelHumidity, 0), air.Is(air.HumRatio, 0), air.PairAmbiguous},
		{"wet bulb above dry bulb", 101325, air.Is(air.DryBulb, 20), air.Is(air.WetBulbTemp, 21), air.PairImpossible},
		{"wet bulb drier than dry air", 101325, air.Is(air.DryBulb, 60), air.Is(air.WetBulbTemp, 10), air.PairImpossible},
		{"dew point above dry bulb", 101325, air.Is(air.DryBulb, 20), air.Is(air.DewPointTemp, 20.1), air.PairImpossible},
		{"dew point above wet bulb", 101325, air.Is(air.WetBulbTemp, 15), air.Is(air.DewPointTemp, 16), air.PairImpossible},
		{"more heat than saturated air holds", 101325, air.Is(air.DryBulb, 20), air.Is(air.EnthalpyJKg, 60e3), air.PairImpossible},
		{"humid above boiling", 101325, air.Is(air.DryBulb, 110), air.Is(air.RelHumidity, 0.9), air.PairImpossible},
		{"humid, no vapour", 101325, air.Is(air.RelHumidity, 0.5), air.Is(air.HumRatio, 0), air.PairImpossible},
		{"volume below that of dry air", 101325, air.Is(air.DryBulb, 20), air.Is(air.VolumeM3Kg, 0.8), air.PairImpossible},
	} {
		_, err := air.From(c.p, c.a, c.b)
		var fault *air.Error
		if !errors.As(err, &fault) || fault.Code != c.code {
			t.Errorf("%s: error %v, want %s", c.name, err, c.code)
		} else if fault.Error() == "" {
			t.Errorf("%s: empty message", c.name)
		}
	}
}

func FuzzFrom(f *testing.F) {
	f.Add(101325.0, 0, 20.0, 3, 0.5)
	f.Add(101325.0, 1, -0.1, 6, 0.9)
	f.Add(70108.0, 5, 4e4, 4, 0.01)
	f.Fuzz(func(t *testing.T, p float64, ka int, a float64, kb int, b float64) {
		s, err := air.From(p, air.Is(air.Kind(ka), a), air.Is(air.Kind(kb), b))
		if err != nil {
			return
		}
		q := s.Properties()
		for _, x := range []float64{float64(s.TempC), float64(s.W), float64(q.RelHumidity), float64(q.WetBulbC), q.EnthalpyJKg, q.DensityKgM3} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("accepted, but %+v has %+v", s, q)
			}
		}
	})
}
