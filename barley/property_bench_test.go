package barley_test

import (
	"testing"

	"awn/barley"
)

// sink keeps the compiler from dropping the work.
var sink float64

func BenchmarkMaltMoisture(b *testing.B) {
	malt := barley.MaltIsotherm(constants(b))
	for b.Loop() {
		sink = float64(malt.Moisture(60, 0.3))
	}
}

func BenchmarkMaltHumidity(b *testing.B) {
	malt := barley.MaltIsotherm(constants(b))
	for b.Loop() {
		sink = float64(malt.Humidity(60, 0.1))
	}
}

func BenchmarkMaltHumidityAtOneTemperature(b *testing.B) {
	malt := barley.MaltIsotherm(constants(b)).At(60)
	for b.Loop() {
		sink = float64(malt.Humidity(0.1))
	}
}

func BenchmarkGrainEnthalpy(b *testing.B) {
	for b.Loop() {
		sink = barley.GrainEnthalpy(60, 0.1)
	}
}

func BenchmarkTempFromEnthalpy(b *testing.B) {
	for b.Loop() {
		sink = float64(barley.TempFromEnthalpy(4e4, 0.1))
	}
}
