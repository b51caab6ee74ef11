package steep

import "math"

// drown counts hours under water and holds back the kernels that too long an
// immersion keeps from germinating: their dry matter and their number go to the
// idle class of their sieve fraction. Kernels that have chitted stay.
//
//	held = w (1 - e^(-max(0, h - 8)/12))      (h of the longest immersion)
//
// Assumed: the hours are a judgement, no source.
func (r *Run) drown(dtH float64) {
	n, c := &r.now, r.setup.Constants
	n.immersedH += n.level * dtH
	if n.immersedH <= n.longestH {
		return
	}
	n.longestH = n.immersedH
	held := -r.setup.WaterSensitivity * math.Expm1(-max(0, n.longestH-c.SensitivityFree)/c.SensitivityH)
	if held <= n.held {
		return
	}
	share := (held - n.held) / (1 - n.held)
	n.held = held
	g := r.grain
	for _, f := range r.fractions {
		for i := f.lo; i < f.hi; i++ {
			if g.Classes[i].Idle || g.AgeD[i] > 0 {
				continue
			}
			dry, number := share*g.DryKg[i], share*g.Classes[i].Number
			g.DryKg[i] -= dry
			g.Classes[i].Number -= number
			g.DryKg[f.idle] += dry
			g.Classes[f.idle].Number += number
		}
	}
}
