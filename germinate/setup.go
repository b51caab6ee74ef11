package germinate

import (
	"fmt"
	"math"
	"slices"

	"awn/barley"
	"awn/bed"
	"awn/kernel"
	"awn/plant"
)

// Setup is all that a germination needs beyond the grain and the programme.
type Setup struct {
	Constants *Constants
	Kernel    *kernel.Constants
	Bed       *bed.Constants
	Isotherm  barley.ChungPfost

	Vessel     plant.Germinator
	CastT      float64 // barley as cast in the steep, t: airflow per tonne counts it
	ChitCH     float64 // the lot's median thermal time to chit, °C·h
	PressurePa float64
	Outside    Outside
	WaterC     float64 // of sprays and of the humidifier

	Layers  int             // of each column
	Columns []barley.Column // nil: those of the grain
	WetCast bool            // the grain came in water, which slows its life for a while
	Mix     bool            // the transfer into this vessel mixed the grain

	// StepS is the longest time step, s; 0 takes the usual one.
	StepS float64
}

// UsualStepS is the longest step with air moving; stillStepS that without, when
// the oxygen in the voids is what counts.
const (
	UsualStepS = 1800.0
	stillStepS = 120.0
)

// check refuses what cannot be computed.
func (s *Setup) check(g *barley.Grain) error {
	for _, v := range []struct {
		name string
		is   float64
	}{
		{"floor area (m²)", s.Vessel.AreaM2}, {"barley as cast (t)", s.CastT}, {"air pressure (Pa)", s.PressurePa},
		{"thermal time to chit (°C h)", s.ChitCH}, {"layers", float64(s.Layers)}, {"dry matter (kg)", g.TotalDryKg()},
	} {
		if !(v.is > 0) {
			return fmt.Errorf("germinate: %s is %g, and must be above 0", v.name, v.is)
		}
	}
	for _, values := range [][]float64{g.WaterKg, g.TempC, g.DryKg, g.ThermalTimeCH, g.AgeD, g.OffsetDB} {
		for _, x := range values {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return fmt.Errorf("germinate: the grain handed over is not known in every part")
			}
		}
	}
	if slices.Min(g.DryKg) < 0 || slices.Min(g.AgeD) < 0 || slices.Min(g.WaterKg) < 0 || slices.Min(g.ThermalTimeCH) < 0 {
		return fmt.Errorf("germinate: the grain handed over holds less than nothing of something")
	}
	if !(s.WaterC >= 0 && s.WaterC <= 100) {
		return fmt.Errorf("germinate: spray water of %g °C, and it must be liquid", s.WaterC)
	}
	if s.blown() && !(s.Vessel.Air.Fan.FreeM3S > 0 && s.Vessel.Air.Fan.ShutOffPa > 0 && s.Vessel.Air.Fan.Efficiency > 0) {
		return fmt.Errorf("germinate: the vessel %q has no fan curve", s.Vessel.Name)
	}
	return nil
}

// blown says whether a fan drives air through the bed.
func (s *Setup) blown() bool { return s.Vessel.Kind != plant.Floor }

// Outside is the air outside over the days of a germination: one mean day,
// whose vapour stays the same while its temperature swings.
type Outside struct {
	MeanC     float64
	RH        float64 // at the mean temperature, 0 to 1
	SwingK    float64 // half the daily range
	WarmestAt float64 // hours after the start of germination
}
