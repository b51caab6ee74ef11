// Package kiln dries and cures a bed of green malt, layer by layer.
//
// Air is made (airon.go), driven through the bed against its resistance
// (blow.go) and marched upward from layer to layer (march.go), where it dries
// the grain by the slower of its inside and its film (law.go), or condenses on
// it where the bed is cool. Cool wet layers go on growing (grow.go); warm ones
// lose enzymes and gain colour (cure.go). The break is read off the air above
// the bed (break.go).
//
// State is water and heat per m² of floor in each layer. What leaves one layer
// enters the next, so both close to rounding; temperature follows from the
// heat in closed form. The store of the air between the grains is neglected:
// it is renewed within seconds.
//
// Time runs by a Runge-Kutta scheme of low storage whose sub-steps are kept
// inside its stable limit (step.go): beyond it, it would go wrong in silence.
package kiln
