package silo

import (
	"fmt"
	"math"

	"awn/barley"
	"awn/plant"
	"awn/unit"
)

// UsualLayers is into how many layers a silo is cut unless the caller says
// otherwise.
const UsualLayers = 20

// Setup is a silo as it stands filled, at the start of a run.
type Setup struct {
	RadiusM  float64
	DepthM   float64 // of the grain
	Layers   int
	BulkKgM3 float64 // as the grain lies

	// Moisture and TempC hold one figure for all layers, or one for each from
	// the floor up. Moisture is wet basis.
	Moisture []float64
	TempC    []float64

	Fan        plant.Fan // blows from the floor up
	Aeration   Aeration
	PressurePa float64

	Days       float64 // already in store
	UsedBefore float64 // share of the safe time used up; NaN where it is not known
	Constants  Constants
	Isotherm   barley.ChungPfost
}

// stiffest is the share of a layer's difference that conduction may even out
// in restH before the scheme swings.
const stiffest = 0.4

// shareUsed is the one figure of a setup that may be unknown.
const shareUsed = "share used"

// check refuses what cannot be.
func (s *Setup) check() error {
	for _, f := range []struct {
		name        string
		x           float64
		least, most float64
	}{
		{"radius", s.RadiusM, 0.2, 50}, {"depth", s.DepthM, 0.2, 60}, {"bulk density", s.BulkKgM3, 300, 900},
		{"pressure", s.PressurePa, 5e4, 1.1e5}, {"days in store", s.Days, 0, 5000}, {shareUsed, s.UsedBefore, 0, 1e6},
	} {
		if f.x < f.least || f.x > f.most || math.IsNaN(f.x) && f.name != shareUsed {
			return fmt.Errorf("silo: the %s is %g; it must be %g to %g", f.name, f.x, f.least, f.most)
		}
	}
	if s.Layers < 1 || s.Layers > 500 {
		return fmt.Errorf("silo: %d layers; there must be 1 to 500", s.Layers)
	}
	if err := s.checkGrain("moisture", s.Moisture, 0.05, 0.30); err != nil {
		return err
	}
	if err := s.checkGrain("temperature", s.TempC, leastGrainC, mostGrainC); err != nil {
		return err
	}
	dz := s.DepthM / float64(s.Layers)
	c := s.BulkKgM3 * grainJKgK(unit.WetBasis(s.Moisture[0]))
	if share := s.Constants.ConductivityWMK * restH * 3600 / (c * dz * dz); !(share <= stiffest) {
		return fmt.Errorf("silo: %d layers in %g m are thinner than a step of six hours can follow; take fewer", s.Layers, s.DepthM)
	}
	if s.Aeration.Allowed && !(s.Fan.ShutOffPa > 0 && s.Fan.FreeM3S > 0 && s.Fan.Efficiency > 0 && s.Fan.Efficiency <= 1 && s.Fan.LossPa >= 0) {
		return fmt.Errorf("silo: it is to be aerated and its fan has no curve")
	}
	return nil
}

func (s *Setup) checkGrain(name string, xs []float64, least, most float64) error {
	if len(xs) != 1 && len(xs) != s.Layers {
		return fmt.Errorf("silo: %d figures of %s for %d layers", len(xs), name, s.Layers)
	}
	for _, x := range xs {
		if !(x >= least && x <= most) {
			return fmt.Errorf("silo: %s %g; it must be %g to %g", name, x, least, most)
		}
	}
	return nil
}

// of is the figure of a layer.
func of(xs []float64, layer int) float64 {
	if len(xs) == 1 {
		return xs[0]
	}
	return xs[layer]
}

// areaM2 is the floor.
func (s *Setup) areaM2() float64 { return math.Pi * s.RadiusM * s.RadiusM }
