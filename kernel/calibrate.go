package kernel

import (
	"math"

	"awn/barley"
	"awn/lab"
)

// The petri dish of a germination test: kept at petriC, and its kernels wet
// enough to run the chit clock after petriLagH.
//
// Assumed: common practice, no source.
const (
	petriC    = 19.5
	petriLagH = 5.0
	petriWB   = 0.45
)

// The thermal times to chit between which a lot's is looked for, °C·h.
const (
	leastMedianCH = 150.0
	mostMedianCH  = 3000.0
)

// MedianOfCounts is a lot's median thermal time to chit, °C·h, such that a
// dish at 19.5 °C would show the mean time of the lot's own germination counts
// when looked at in the same hours.
//
//	Σ n t / Σ n  =  Σ (F_i - F_(i-1)) t_i / F_n,  F_i = Φ(ln(h_i/m)/σ)        (solved for m)
//
// Assumed: the form of the chit clock holds in the dish, after a lag of 5 h; common practice, no source.
// Valid: counts that can be, with at least two looks; NaN otherwise.
// Note: a lot that has all germinated at the first look is put at the least value.
func (c *Constants) MedianOfCounts(counts []lab.Count) float64 {
	want := lab.MeanTimeH(counts)
	if len(counts) < 2 || math.IsNaN(want) {
		return math.NaN()
	}
	return bisect(leastMedianCH, mostMedianCH, func(median float64) float64 {
		return c.meanLookH(counts, median) - want
	})
}

// meanLookH is the mean time of germination that the looks at a dish of that
// median would find.
func (c *Constants) meanLookH(counts []lab.Count, medianCH float64) float64 {
	perH := c.ChitRate(petriC, petriWB)
	before, sum := 0.0, 0.0
	for _, look := range counts {
		share := c.Chitted(max(0, look.AtH-petriLagH)*perH, medianCH)
		sum += (share - before) * look.AtH
		before = share
	}
	if before == 0 {
		return math.Inf(1)
	}
	return sum / before
}

// The speeds of uptake between which a lot's is looked for.
const (
	leastUptake = 0.3
	mostUptake  = 3.0
)

// UptakeOfImmersion is a lot's speed of uptake relative to the usual kernel's,
// such that its measured first immersion ends at the moisture found, drained
// and unblotted.
//
//	X(t; f D) + cap + film = w/(1 - w)        (solved for f)
//
// Assumed: the shells of Uptake, the cap and the film; the mean kernel stands for the lot.
// Valid: 0.3 to 3; a measurement beyond is put at the nearer end.
func (c *Constants) UptakeOfImmersion(lot *barley.Lot) float64 {
	first := lot.FirstImmersion
	want := first.Moisture / (1 - first.Moisture)
	return bisect(leastUptake, mostUptake, func(factor float64) float64 {
		u := NewUptake(lot.KernelMassMg.Mid, lot.Moisture.Mid/(1-lot.Moisture.Mid), factor)
		u.Soak(first.Hours, c.Diffusivity(first.WaterC), c.SurfaceDB)
		return u.MeanDB() + c.CapDB + c.FilmDB - want
	})
}

// UptakeOfProtein is a lot's speed of uptake relative to the usual kernel's,
// from its protein of dry matter, kg/kg: hard protein-rich corns drink slowly.
//
//	f = exp(-6 (P - 0.11))
//
// Assumed: common practice, no source.
// Note: weak; one measured first immersion says more.
func UptakeOfProtein(protein float64) float64 {
	const usualProtein = 0.11
	return math.Exp(-6 * (protein - usualProtein))
}

// bisect is where a rising function crosses nothing between low and high; the
// nearer end if it does not.
func bisect(low, high float64, f func(float64) float64) float64 {
	for range 60 {
		mid := (low + high) / 2
		if f(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
