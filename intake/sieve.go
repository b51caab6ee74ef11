package intake

import (
	"cmp"
	"math"
	"slices"

	"awn/odds"
)

// Between are two ways to guess what a slot would hold that was not used, from
// the slots next to it on either side. They are to say what to expect of a
// sieving, never in its place.
type Between struct {
	Normal float64 // kernel thickness normally distributed between the two
	Linear float64 // evenly distributed between the two
}

// HeldBetween guesses the share that a slot would hold from the nearest
// coarser and finer slot that were used. It reports false where the slot does
// not lie between two of them, or was used itself.
func (l *Load) HeldBetween(slotM float64) (Between, bool) {
	sieves := slices.Clone(l.Sieves)
	sieves = slices.DeleteFunc(sieves, func(s Sieve) bool { return !s.Held.Known() })
	slices.SortFunc(sieves, func(a, b Sieve) int { return cmp.Compare(a.SlotM, b.SlotM) })
	for i := 1; i < len(sieves); i++ {
		fine, coarse := sieves[i-1], sieves[i]
		if !(slotM > fine.SlotM+slotSlack && slotM < coarse.SlotM-slotSlack) {
			continue
		}
		return Between{Normal: HeldNormal(fine, coarse, slotM), Linear: HeldLinear(fine, coarse, slotM)}, true
	}
	return Between{}, false
}

// HeldLinear is the share that a slot between two others would hold if kernel
// thickness were evenly distributed between them.
//
//	p = p1 + (p2 - p1) u, u = (d - d1)/(d2 - d1)      (1 the finer slot, 2 the coarser)
//
// Assumed: common practice, no source.
// Valid: slots between the two; NaN outside.
// Check: 92 % over 6/64 in and 61 % over 7/64 in give 82.7 % over 2.5 mm.
// Note: says what to expect of a sieving, and does not stand for one.
func HeldLinear(fine, coarse Sieve, slotM float64) float64 {
	u := between01(fine, coarse, slotM)
	return fine.Held.Mid + (coarse.Held.Mid-fine.Held.Mid)*u
}

// HeldNormal is the share that a slot between two others would hold if kernel
// thickness were normally distributed between them.
//
//	p = F(z1 + (z2 - z1) u), z = F⁻¹(p), u = (d - d1)/(d2 - d1)      (F the normal distribution)
//
// Assumed: common practice, no source.
// Valid: slots between the two; NaN outside. Where a slot holds all or nothing, as if evenly distributed.
// Check: 92 % over 6/64 in and 61 % over 7/64 in give 85.7 % over 2.5 mm.
// Note: says what to expect of a sieving, and does not stand for one.
func HeldNormal(fine, coarse Sieve, slotM float64) float64 {
	u := between01(fine, coarse, slotM)
	z1, z2 := odds.NormalQuantile(fine.Held.Mid), odds.NormalQuantile(coarse.Held.Mid)
	p := odds.NormalChance(z1 + (z2-z1)*u)
	if math.IsNaN(p) {
		return HeldLinear(fine, coarse, slotM)
	}
	return p
}

// between01 is where a slot lies from the finer to the coarser; NaN outside.
func between01(fine, coarse Sieve, slotM float64) float64 {
	u := (slotM - fine.SlotM) / (coarse.SlotM - fine.SlotM)
	if !(u >= 0 && u <= 1) {
		return math.NaN()
	}
	return u
}
