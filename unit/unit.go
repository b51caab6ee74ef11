// Package unit holds the quantities that the malting trade confuses, each as
// a type of its own, and reads and prints quantities with their units and
// basis.
//
// A defined type exists only where two figures of the same look are truly
// mixed up in practice: moisture on wet and dry basis, Celsius and Kelvin,
// relative humidity and humidity ratio, extract as-is and dry, the rival
// scales of colour and of diastatic power. A basis changes only by method.
// Everything else is a float64 whose name ends in its unit.
package unit

// Celsius is a temperature on the Celsius scale, °C.
type Celsius float64

// Kelvin is an absolute temperature, K.
type Kelvin float64

// zeroCelsius is 0 °C in kelvin, exact by definition of the scale.
const zeroCelsius = 273.15

// Kelvin returns the absolute temperature.
//
//	T/K = t/°C + 273.15
//
// Definition.
func (t Celsius) Kelvin() Kelvin { return Kelvin(t) + zeroCelsius }

// Celsius returns the temperature on the Celsius scale.
//
//	t/°C = T/K - 273.15
//
// Definition.
func (t Kelvin) Celsius() Celsius { return Celsius(t) - zeroCelsius }

// WetBasis is moisture as kg of water per kg of moist grain, 0 to below 1.
type WetBasis float64

// DryBasis is moisture as kg of water per kg of dry matter, 0 and up.
type DryBasis float64

// DryBasis returns the same moisture per kg of dry matter.
//
//	X = w / (1 - w)
//
// Definition.
func (w WetBasis) DryBasis() DryBasis { return DryBasis(w / (1 - w)) }

// WetBasis returns the same moisture per kg of moist grain.
//
//	w = X / (1 + X)
//
// Definition.
func (x DryBasis) WetBasis() WetBasis { return WetBasis(x / (1 + x)) }

// RelativeHumidity is the vapour pressure of air over that of saturation, 0 to 1.
type RelativeHumidity float64

// HumidityRatio is kg of water vapour per kg of dry air.
type HumidityRatio float64
