package steep

import (
	"fmt"
	"math"

	"awn/barley"
	"awn/kernel"
	"awn/plant"
)

// Setup is all that a steep needs beyond the grain and the programme.
type Setup struct {
	Constants *Constants
	Kernel    *kernel.Constants
	Barley    *barley.Constants

	Vessel plant.Steep
	CastT  float64 // barley as cast, t

	ChitCH           float64 // the lot's median thermal time to chit, °C·h
	Uptake           float64 // the lot's speed of uptake; 1 is the usual kernel's
	WaterSensitivity float64 // of kernels by number, 0 to 1

	PressurePa float64
	AirC       float64 // outside, the mean of the days of steeping
	AirRH      float64 // at AirC, 0 to 1
	WaterC     float64 // the house's water

	// StepS is the longest time step, s; 0 takes the usual one.
	StepS float64
}

// UsualStepS is the longest step unless the setup says otherwise, s.
const UsualStepS = 600.0

// longestStepS is the longest step that the explicit exchange with the most
// suction air allows.
const longestStepS = 1800.0

// check refuses what cannot be computed.
func (s *Setup) check(g *barley.Grain) error {
	for _, v := range []struct {
		name          string
		is, low, high float64 // above low, up to high
	}{
		{"barley as cast (t)", s.CastT, 0, 1e4},
		{"air pressure (Pa)", s.PressurePa, 3e4, 1.2e5},
		{"thermal time to chit (°C h)", s.ChitCH, 0, 1e5},
		{"speed of uptake", s.Uptake, 0, 10},
		{"capacity of the vessel (t)", s.Vessel.CapacityT, 0, 1e4},
		{"volume of the vessel (m³)", s.Vessel.VolumeM3, 0, 1e5},
		{"depth of the bed (m)", s.Vessel.DepthM, 0, 30},
		{"water of an immersion (m³/t)", s.Vessel.WaterM3T, 0, 10},
		{"dry matter (kg)", g.TotalDryKg(), 0, 1e7},
		{"outside air (°C)", s.AirC, -60, 60},
	} {
		if !(v.is > v.low && v.is <= v.high) {
			return fmt.Errorf("steep: %s is %g, and must be above %g and up to %g", v.name, v.is, v.low, v.high)
		}
	}
	if !(s.WaterSensitivity >= 0 && s.WaterSensitivity <= 1 && s.AirRH >= 0 && s.AirRH <= 1) {
		return fmt.Errorf("steep: water sensitivity %g and humidity %g must be shares of 1", s.WaterSensitivity, s.AirRH)
	}
	if !(s.Vessel.FillH >= 0 && s.Vessel.DrainH >= 0 && s.StepS >= 0 && s.StepS <= longestStepS) {
		return fmt.Errorf("steep: fill %g h, drain %g h or step %g s out of range", s.Vessel.FillH, s.Vessel.DrainH, s.StepS)
	}
	return checkWater(s.WaterC)
}

// The water temperatures that are refused, and that from which a word of
// caution is said.
const (
	coldestWaterC = 0.0
	warmWaterC    = 28.0
	hottestWaterC = 45.0
)

func checkWater(tempC float64) error {
	if !(tempC >= coldestWaterC && tempC <= hottestWaterC) {
		return fmt.Errorf("steep: water of %g °C, and it must lie between %g and %g", tempC, coldestWaterC, hottestWaterC)
	}
	return nil
}

// fraction is the classes of one sieve fraction: they share their moisture.
type fraction struct {
	lo, hi int
	idle   int // the class of those that do not grow
	clock  *kernel.Clock
}

// fractions finds them in the grain, in which each stands together.
func fractions(s *Setup, classes []barley.Class) ([]fraction, error) {
	var out []fraction
	for i, c := range classes {
		if n := len(out); n == 0 || classes[i-1].Sieve != c.Sieve {
			out = append(out, fraction{lo: i, idle: -1})
		}
		f := &out[len(out)-1]
		f.hi = i + 1
		if c.Idle {
			f.idle = i
		}
	}
	if len(out) > barley.SieveClasses {
		return nil, fmt.Errorf("steep: %d stretches of sieve fractions, and there are %d fractions", len(out), barley.SieveClasses)
	}
	for i := range out {
		f := &out[i]
		if f.idle < 0 {
			return nil, fmt.Errorf("steep: sieve fraction %d has no class of idle kernels", i+1)
		}
		f.clock = kernel.NewClock(s.Kernel, classes[f.lo:f.hi], nil, s.ChitCH)
	}
	return out, nil
}

// floorM2 is the floor of the vessel: what its capacity covers at its depth
// when it is swollen.
func (s *Setup) floorM2() float64 {
	const dryDB, swollenDB = 0.13, 0.80
	return s.Vessel.CapacityT * s.Barley.SteepedVolume(dryDB, swollenDB) / s.Vessel.DepthM
}

// isNumber says that x is neither NaN nor infinite.
func isNumber(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
