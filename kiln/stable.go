package kiln

import (
	"math"

	"awn/air"
)

// A step of length dt is taken in s stages. The stages march forward by Euler
// sub-steps of dt/(s-1); the step itself moves by the mean of the rates at all
// of them (the optimal strong-stability-preserving Runge-Kutta schemes of
// second order; recalled: Spiteri 2002). Any update that is linear in the
// rates keeps the sums of water and heat to rounding.
//
// Heat passes up the bed with the air: each layer answers with a rate λ to the
// air, of which it takes the part e and lets 1-e pass. The eigenvalues of such
// a chain, however long, approach a circle through 0 of radius λ/(2-e), and an
// Euler sub-step h is stable while its own circle of radius 1/h holds it:
//
//	h <= (2 - e)/λ
//
// The step follows the circle and not the largest eigenvalue because the chain
// only reaches upward: its matrix is as far from symmetric as can be.
const (
	stableShare = 0.9  // of the limit that is used
	leastSubS   = 0.05 // s; a layer that asks for less is too thin to compute
	leastStages = 3
	mostQuicker = 4.0 // by which a limit shrinks when a step is taken again
)

// answer is the rate λ of one layer per flow over its dry matter: the heat that
// it gives the air per K that it is warmer, by contact and by evaporation so
// far as the film holds that back and not the inside of the kernel. atGrain is
// the vapour of air at rest with the grain, or with dew on it.
func answer(g *grainSide, ef, inner, outer, atGrain float64, dew bool) float64 {
	held := 0.0
	switch {
	case dew:
		held = 1
	case inner*outer > 0:
		held = inner / (inner + outer)
	}
	perK := atGrain * (1 + atGrain*(1/air.MassRatio)) * g.slope / g.satPa
	return ef * (air.DryAirJKgK + held*perK*air.VapourAtZeroJ) / ((2 - ef) * g.jKgK)
}

// limit is the longest stable sub-step for all that this step has seen so far,
// s. The return air answers within its lag.
func (r *Run) limit() float64 {
	stiff := 1 / r.setup.Constants.LagS
	for n := range r.columns {
		stiff = max(stiff, r.columns[n].stiff)
	}
	return 1 / stiff
}

// rise is how much more air is asked for at the end of a step of dtS than at
// its start, 1 if it is less: layers answer in proportion to it.
func (r *Run) rise(dtS float64) float64 {
	return max(1, r.asked(r.hour+dtS/3600).flow/r.asked(r.hour).flow)
}

// StableS is the longest stable sub-step at the start of the last step, s.
//
//	h = (2 - e)/λ, the least over all layers
//
// Assumed: the eigenvalues of a chain of layers, as told above.
// Check: runs at 0.98 of it agree with fine steps; beyond it a run is refused.
func (r *Run) StableS() float64 { return r.stableS }

// stages chooses how many stages carry a step of dtS within the stable limit.
func (r *Run) stages(dtS, limitS float64) (int, error) {
	subS := stableShare * limitS
	if r.setup.SubStepS > 0 {
		subS = r.setup.SubStepS
		if subS > limitS {
			return 0, r.fault("a sub-step of %.0f s is beyond the stable limit of %.0f s", subS, limitS)
		}
	}
	if !(subS >= leastSubS) {
		return 0, r.fault("steps would have to be as short as %.2g s: too many layers for so thin a bed", subS)
	}
	return max(leastStages, 1+int(math.Ceil(dtS/subS-1e-9))), nil
}
