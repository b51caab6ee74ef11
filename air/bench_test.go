package air_test

import (
	"testing"

	"awn/air"
	"awn/unit"
)

// sink keeps the compiler from dropping the work.
var sink float64

func BenchmarkSaturationPressure(b *testing.B) {
	t := unit.Celsius(20)
	for b.Loop() {
		sink = air.SaturationPressure(t)
	}
}

func BenchmarkSaturation(b *testing.B) {
	t := unit.Celsius(20)
	for b.Loop() {
		sink, _ = air.Saturation(t)
	}
}

func BenchmarkDewPoint(b *testing.B) {
	for b.Loop() {
		sink = float64(air.DewPoint(0.0098, 101325))
	}
}

func BenchmarkWetBulb(b *testing.B) {
	for b.Loop() {
		sink = float64(air.WetBulb(60, 0.0074, 101325))
	}
}

func BenchmarkFrom(b *testing.B) {
	for b.Loop() {
		s, _ := air.From(101325, air.Is(air.RelHumidity, 0.5), air.Is(air.EnthalpyJKg, 50e3))
		sink = float64(s.TempC)
	}
}
