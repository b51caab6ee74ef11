package barley

import "awn/unit"

// Isotherm relates the moisture of grain to the humidity of the air that it is
// at rest with. The two methods are inverses of each other where both answer.
type Isotherm interface {
	// Moisture is what grain settles at in air of a given humidity.
	Moisture(t unit.Celsius, rh unit.RelativeHumidity) unit.DryBasis
	// Humidity is that of the air which grain of a given moisture settles at.
	Humidity(t unit.Celsius, x unit.DryBasis) unit.RelativeHumidity
}

// Spread is a set of isotherms that all claim the same grain. Their
// disagreement is real (a grain that dries holds more water than one that
// wets) and is shown rather than averaged away.
type Spread []Isotherm

// Moisture returns the lowest and highest moisture of the set.
//
//	min and max of X over the isotherms
//
// Definition.
// Valid: where every isotherm of the set holds; NaN elsewhere.
func (s Spread) Moisture(t unit.Celsius, rh unit.RelativeHumidity) (low, high unit.DryBasis) {
	for i, iso := range s {
		x := iso.Moisture(t, rh)
		if i == 0 {
			low, high = x, x
		}
		low, high = min(low, x), max(high, x)
	}
	return low, high
}

// Humidity returns the lowest and highest humidity of the set.
//
//	min and max of RH over the isotherms
//
// Definition.
// Valid: where every isotherm of the set holds; NaN elsewhere.
func (s Spread) Humidity(t unit.Celsius, x unit.DryBasis) (low, high unit.RelativeHumidity) {
	for i, iso := range s {
		rh := iso.Humidity(t, x)
		if i == 0 {
			low, high = rh, rh
		}
		low, high = min(low, rh), max(high, rh)
	}
	return low, high
}
