package air

import (
	"fmt"
	"math"

	"awn/unit"
)

// Kind is a property that may be given to fix a State.
type Kind int

// The properties that From reads, with the unit of their value.
const (
	DryBulb      Kind = iota // °C
	WetBulbTemp              // °C
	DewPointTemp             // °C
	RelHumidity              // 0 to 1
	HumRatio                 // kg per kg dry air
	EnthalpyJKg              // J per kg dry air
	VolumeM3Kg               // m³ per kg dry air
)

var kindNames = [...]string{
	"dry bulb", "wet bulb", "dew point", "relative humidity", "humidity ratio", "enthalpy", "specific volume",
}

// String returns the name of the property.
func (k Kind) String() string {
	if k < 0 || int(k) >= len(kindNames) {
		return fmt.Sprintf("Kind(%d)", int(k))
	}
	return kindNames[k]
}

// Given is one known property of air.
type Given struct {
	Kind  Kind
	Value float64
}

// Is says that a property has a value.
func Is(k Kind, value float64) Given { return Given{k, value} }

// Codes of Error.
const (
	PressureRange  = "air.pressure.out-of-range" // the pressure is outside PressureMinPa to PressureMaxPa
	GivenRange     = "air.given.out-of-range"    // one value alone is outside its range
	PairSame       = "air.pair.same"             // both say the same thing, such as dew point and humidity ratio
	PairAmbiguous  = "air.pair.ambiguous"        // lines of both run so nearly together that no point is fixed
	PairImpossible = "air.pair.impossible"       // no air has both, such as a wet bulb above the dry bulb
)

// Error says why two properties do not make a State. B is the zero Given when
// one value alone is at fault; Low and High are set for a range.
type Error struct {
	Code      string
	A, B      Given
	Low, High float64
}

// Error describes the fault for a developer; words for a user hang on Code.
func (e *Error) Error() string {
	switch e.Code {
	case PressureRange:
		return fmt.Sprintf("%s: %g Pa is not within %g to %g", e.Code, e.A.Value, e.Low, e.High)
	case GivenRange:
		return fmt.Sprintf("%s: %v %g is not within %g to %g", e.Code, e.A.Kind, e.A.Value, e.Low, e.High)
	}
	return fmt.Sprintf("%s: %v %g and %v %g", e.Code, e.A.Kind, e.A.Value, e.B.Kind, e.B.Value)
}

// The pressures that From accepts: from above the highest kiln to below the
// deepest mine.
const (
	PressureMinPa = 20e3
	PressureMaxPa = 200e3
)

// ranges holds what a value may be on its own; the pair is checked after.
var ranges = [...][2]float64{
	DryBulb:      {MinC, MaxC},
	WetBulbTemp:  {MinC, MaxC},
	DewPointTemp: {MinC, MaxC},
	RelHumidity:  {0, 1},
	HumRatio:     {0, 10},
	EnthalpyJKg:  {-150e3, 30e6},
	VolumeM3Kg:   {0.1, 100},
}

// From returns the air that has two given properties at a pressure. Any two
// will do except those that say the same (dew point and humidity ratio, or one
// property twice) or nearly the same (wet bulb and enthalpy). Errors are of
// type *Error.
func From(pressurePa float64, a, b Given) (State, error) {
	if !(pressurePa >= PressureMinPa && pressurePa <= PressureMaxPa) {
		return State{}, &Error{Code: PressureRange, A: Given{Value: pressurePa}, Low: PressureMinPa, High: PressureMaxPa}
	}
	for _, g := range [...]Given{a, b} {
		if g.Kind < 0 || int(g.Kind) >= len(ranges) {
			return State{}, &Error{Code: GivenRange, A: g}
		}
		if r := ranges[g.Kind]; !(g.Value >= r[0] && g.Value <= r[1]) {
			return State{}, &Error{Code: GivenRange, A: g, Low: r[0], High: r[1]}
		}
	}
	s, code := solvePair(pressurePa, a, b)
	if code == "" && !s.possible() {
		code = PairImpossible
	}
	if code != "" {
		return State{}, &Error{Code: code, A: a, B: b}
	}
	return s, nil
}

// possible reports whether air can be in the state. Saturated air given by a
// dew point printed to 0.01 K may come out 0.1 % too humid, and is not refused.
func (s State) possible() bool {
	const slack = 1e-3
	return s.TempC >= MinC && s.TempC <= MaxC && s.W >= 0 && s.W < maxRatio &&
		float64(RelativeHumidity(s.TempC, s.W, s.PressurePa)) <= 1+slack
}

// solvePair follows the line of air that has the one property until the other
// is met.
func solvePair(pPa float64, a, b Given) (State, string) {
	a, b = asRatio(a, pPa), asRatio(b, pPa)
	if rank[b.Kind] < rank[a.Kind] {
		a, b = b, a
	}
	switch {
	case a.Kind == b.Kind:
		return State{}, PairSame
	case a.Kind == WetBulbTemp && b.Kind == EnthalpyJKg:
		return State{}, PairAmbiguous
	case a.Kind == RelHumidity && a.Value == 0 && b.Kind == HumRatio && b.Value == 0:
		return State{}, PairAmbiguous // dry air of any temperature
	case a.Kind == DryBulb:
		w := ratioAlong(b, a.Value, pPa)
		return State{unit.Celsius(a.Value), unit.HumidityRatio(w), pPa}, ""
	}
	low, high := span(a, pPa)
	t, ok := root(low, high, 1e-9*(1+math.Abs(b.Value)), func(t float64) float64 {
		return property(b.Kind, t, ratioAlong(a, t, pPa), pPa) - b.Value
	})
	if !ok {
		return State{}, PairImpossible
	}
	return State{unit.Celsius(t), unit.HumidityRatio(ratioAlong(a, t, pPa)), pPa}, ""
}

// rank says which property of a pair is the line and which the mark on it:
// chosen so that the mark rises or falls all along the line.
var rank = [...]int{DryBulb: 0, WetBulbTemp: 1, RelHumidity: 2, EnthalpyJKg: 3, HumRatio: 4, VolumeM3Kg: 5}

// asRatio turns a dew point into the humidity ratio it stands for.
func asRatio(g Given, pPa float64) Given {
	if g.Kind == DewPointTemp {
		return Given{HumRatio, float64(SaturationRatio(unit.Celsius(g.Value), pPa))}
	}
	return g
}

// ratioAlong is the humidity ratio of air of temperature t that has a property.
// It is negative where no air has both.
func ratioAlong(g Given, t, pPa float64) float64 {
	switch g.Kind {
	case WetBulbTemp:
		return wettedAt(g.Value).ratio(t, g.Value, pPa)
	case RelHumidity:
		return uncapped(g.Value*SaturationPressure(unit.Celsius(t)), pPa)
	case EnthalpyJKg:
		return (g.Value - DryAirJKgK*t) / VapourEnthalpy(unit.Celsius(t))
	case VolumeM3Kg:
		return (g.Value/SpecificVolume(unit.Celsius(t), 0, pPa) - 1) / volumeRatio
	}
	return g.Value
}

// uncapped is the humidity ratio of a vapour pressure, NaN from the cap on.
func uncapped(vapourPa, pPa float64) float64 {
	if vapourPa >= VapourShareCap*pPa {
		return math.NaN()
	}
	return MassRatio * vapourPa / (pPa - vapourPa)
}

// span is the range of temperatures over which air may have a property.
func span(g Given, pPa float64) (low, high float64) {
	low, high = MinC, MaxC
	switch g.Kind {
	case WetBulbTemp: // from saturated to dry
		low = g.Value
		high = min(high, wettedAt(g.Value).dryEnd(g.Value, pPa))
	case RelHumidity: // to the cap
		if end := float64(SaturationTemp(VapourShareCap * pPa / g.Value)); end < high {
			high = end - convergedK
		}
	case EnthalpyJKg: // to dry
		high = min(high, g.Value/DryAirJKgK)
	}
	return low, high
}

// property is a property of air, in the unit of its Kind.
func property(k Kind, t, w, pPa float64) float64 {
	T, W := unit.Celsius(t), unit.HumidityRatio(w)
	switch k {
	case RelHumidity:
		return pPa * w / (MassRatio + w) / SaturationPressure(T)
	case EnthalpyJKg:
		return Enthalpy(T, W)
	case VolumeM3Kg:
		return SpecificVolume(T, W, pPa)
	}
	return w
}

// root finds where a function that rises or falls all the way is 0, by
// bisection. An end that is within slack of 0 counts as met.
func root(low, high, slack float64, f func(float64) float64) (float64, bool) {
	fl, fh := f(low), f(high)
	switch {
	case !(low <= high):
		return 0, false
	case math.Abs(fl) <= slack:
		return low, true
	case math.Abs(fh) <= slack:
		return high, true
	case !(fl*fh < 0):
		return 0, false
	}
	for range 60 { // 300 K halved 60 times is below the rounding of a float64
		mid := (low + high) / 2
		if fm := f(mid); fm*fl > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2, true
}
