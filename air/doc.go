// Package air computes moist air: what a kiln, a germination box and a silo
// breathe.
//
// The plain functions take and return numbers and allocate nothing; they are
// called in time loops. State is moist air as one value, and From makes one
// from any two properties that say different things:
//
//	s, err := air.From(101325, air.Is(air.DryBulb, 25), air.Is(air.RelHumidity, 0.5))
//
// Amounts are per kg of dry air throughout, because dry air is what passes a
// bed unchanged. Enthalpy is in J per kg dry air, zero for dry air and liquid
// water at 0 °C.
//
// Where the pressure of saturation reaches the total pressure, from about
// 99 °C at sea level, there is no saturated air: the humidity ratio would pass
// through infinity and come back negative. Vapour pressures are therefore
// capped at VapourShareCap of the total, in every function.
package air
