package bed

import "math"

// The resistance of clean loose barley to air. Recalled: ASABE D272.
const (
	lawA = 2.14e4 // Pa s²/m³
	lawB = 13.2   // s/m
)

// MostMS is the highest velocity that is answered: no bed of barley holds
// still anywhere near it.
const MostMS = 3.0

// Spot is one part of a bed as the air meets it. The floor shares of a bed's
// spots sum to 1.
type Spot struct {
	Share  float64 // of the floor
	DepthM float64
	Factor float64 // times the resistance of clean loose barley
}

// Gradient is the pressure that air loses per metre of clean loose barley, Pa/m.
//
//	ΔP/L = a v²/ln(1 + b v)      (a = 2.14e4 Pa s²/m³, b = 13.2 s/m)
//
// Recalled: ASABE D272, the law of Hukill and Ives with its constants for barley.
// Valid: 0 to 3 m/s; NaN outside. The law was measured from 0.0056 to 0.203
// m/s; a kiln runs beyond, and the resistance factor's range stands for that.
// Check: 254, 1203 and 2638 Pa/m at 0.1, 0.3 and 0.5 m/s.
func Gradient(velocityMS float64) float64 {
	switch {
	case velocityMS == 0:
		return 0
	case velocityMS > 0 && velocityMS <= MostMS:
		return lawA * velocityMS * velocityMS / math.Log1p(lawB*velocityMS)
	}
	return math.NaN()
}

// Drop is the pressure that air loses in a spot, Pa.
//
//	ΔP = factor · depth · Gradient(v)
//
// Assumed: the loss scales with depth and with one factor for packing.
// Valid: 0 to 3 m/s; NaN outside.
func (s Spot) Drop(velocityMS float64) float64 { return s.Factor * s.DepthM * Gradient(velocityMS) }

// Velocity is the flow that a pressure drives through a spot, m/s.
//
//	Drop(v) = ΔP, solved for v
//
// Assumed: inverse of Drop.
// Valid: pressures of 0 and more that Drop reaches by 3 m/s; NaN outside.
// Check: inverse of Drop.
func (s Spot) Velocity(dropPa float64) float64 {
	if dropPa == 0 {
		return 0
	}
	if !(dropPa > 0 && dropPa <= s.Drop(MostMS)) {
		return math.NaN()
	}
	v, _ := s.flow(dropPa)
	return v
}

// flow returns the velocity at a pressure within the law's range, and its
// logarithmic slope d ln v/d ln ΔP. In logarithms the law is almost straight
// (its slope lies between 1 and 2), so Newton's method needs three steps or so;
// one of 1e-7 leaves an error of its square.
func (s Spot) flow(dropPa float64) (velocityMS, slope float64) {
	const enough, most = 1e-7, 50
	gradient := dropPa / (s.Factor * s.DepthM)
	v := math.Sqrt(gradient / lawA)
	for range most {
		ln := math.Log1p(lawB * v)
		slope = 2 - lawB*v/((1+lawB*v)*ln)
		step := math.Log(gradient*ln/(lawA*v*v)) / slope
		v *= math.Exp(step)
		if math.Abs(step) < enough {
			break
		}
	}
	return v, 1 / slope
}

// Lift is the pressure at which air carries the bed, Pa.
//
//	ΔP = g m      (m is moist grain, kg/m²)
//
// Definition.
func Lift(wetKgM2 float64) float64 { return standardGravity * wetKgM2 }

const standardGravity = 9.80665 // m/s², by definition
