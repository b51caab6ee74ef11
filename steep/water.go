package steep

import (
	"math"

	"awn/programme"
)

// absorb lets the kernels take up water: the immersed share from the vessel,
// the drained share from its film for as long as that lasts.
func (r *Run) absorb(dtH float64) {
	n, c := &r.now, r.setup.Kernel
	r.fillCaps()
	if n.level == 0 && n.filmKg == 0 {
		for i := range r.fractions {
			n.soak[i].Equalise(dtH, c.Diffusivity(n.tempC))
		}
		return
	}
	diffusivity := c.Diffusivity(n.tempC)
	sealed := n.soak
	wantKg := 0.0
	for i := range r.fractions {
		before := n.soak[i].MeanDB()
		n.soak[i].Soak(dtH, diffusivity, c.SurfaceDB)
		wantKg += n.partKg[i] * (n.soak[i].MeanDB() - before)
	}
	reach := 1.0 // how far the film goes
	if want := wantKg * (1 - n.level); want > n.filmKg {
		reach = n.filmKg / want
		dry := (1 - n.level) * (1 - reach)
		for i := range r.fractions {
			sealed[i].Equalise(dtH, diffusivity)
			n.soak[i].Blend(&sealed[i], dry)
		}
	}
	n.filmKg = max(0, n.filmKg-wantKg*(1-n.level)*reach)
	r.takeWater(wantKg*n.level, n.waterC)
}

// fillCaps lets the skins of drained kernels draw in film that their caps lack.
func (r *Run) fillCaps() {
	n := &r.now
	missing := (r.setup.Kernel.CapDB - n.capDB) * n.dryKg
	if missing <= 0 || n.level > 0 || n.filmKg == 0 {
		return
	}
	drawn := min(missing, n.filmKg)
	n.capDB += drawn / n.dryKg
	n.filmKg -= drawn
}

// spray wets the drained grain evenly over the step; what its film cannot hold
// runs off.
func (r *Run) spray(dtH float64) {
	n := &r.now
	if n.step.SprayKgT == 0 || n.step.Kind != programme.SteepSpray {
		return
	}
	hours := min(dtH, n.beganH+n.step.Until.LatestH-n.atH)
	if hours <= 0 {
		return
	}
	kg := n.step.SprayKgT * r.setup.CastT * hours / n.step.Until.LatestH
	n.sums.usedM3 += kg / waterKgM3
	room := max(0, r.fullFilmKg()-n.filmKg)
	kept := min(kg, room)
	n.filmKg += kept
	n.sums.sprayedKg += kept
	n.sums.sprayedJ += kept * waterJKgK * n.stepWaterC
}

// fullFilmKg is the most film that the drained grain holds.
func (r *Run) fullFilmKg() float64 {
	return (1 - r.now.level) * r.setup.Kernel.FilmDB * r.now.dryKg
}

// wetten adds water to the film or, if negative, takes it away; what is more
// than there is comes out of the kernels.
func (r *Run) wetten(kg float64) {
	n := &r.now
	n.filmKg += kg
	if n.filmKg >= 0 {
		return
	}
	shells := 0.0
	for i := range r.fractions {
		shells += n.partKg[i] * n.soak[i].MeanDB()
	}
	left := 1 + n.filmKg/shells
	for i := range r.fractions {
		n.soak[i].Scale(left)
	}
	n.filmKg = 0
}

// leach lets the water take dry matter out of the immersed grain.
//
// The pool is emptied at a rate in proportion to what is left of it, by hours
// under water; what goes takes the heat that it held.
func (r *Run) leach(dtH float64) {
	n, c, g := &r.now, r.setup.Constants, r.grain
	left := c.LeachPool - n.leached
	if n.level == 0 || left <= 0 {
		return
	}
	gone := -left * math.Expm1(-n.level*dtH/c.LeachH)
	share := gone / (1 - n.leached) // of what dry matter there is
	lostJKg := r.heatJ()/n.dryKg - waterJKgK*n.tempC*r.waterKg()/n.dryKg
	lostKg := share * n.dryKg
	for i := range g.DryKg {
		g.DryKg[i] -= share * g.DryKg[i]
	}
	for i := range r.fractions {
		r.shrink(i, n.partKg[i]*(1-share), 0)
	}
	r.shed(lostKg)
	n.leached += gone
	n.sums.leachedKg += lostKg
	n.sums.leachedJ += lostKg * lostJKg
	r.weigh()
}

// shed lets go of the film of immersed dry matter that is no more: it is told
// per dry matter and stays in the vessel.
func (r *Run) shed(lostKg float64) {
	r.takeWater(-r.now.level*r.setup.Kernel.FilmDB*lostKg, r.now.tempC)
}
