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
//
//	Normal: F(z1 + (z2 - z1) u);  Linear: p1 + (p2 - p1) u;  u = (d - d1)/(d2 - d1), z = F⁻¹(p)
//
// Assumed: thickness normal, or even, between two slots; common practice, no source.
func (l *Load) HeldBetween(slotM float64) (Between, bool) {
	sieves := slices.Clone(l.Sieves)
	sieves = slices.DeleteFunc(sieves, func(s Sieve) bool { return !s.Held.Known() })
	slices.SortFunc(sieves, func(a, b Sieve) int { return cmp.Compare(a.SlotM, b.SlotM) })
	for i := 1; i < len(sieves); i++ {
		fine, coarse := sieves[i-1], sieves[i]
		if !(slotM > fine.SlotM+slotSlack && slotM < coarse.SlotM-slotSlack) {
			continue
		}
		u := (slotM - fine.SlotM) / (coarse.SlotM - fine.SlotM)
		b := Between{Linear: fine.Held.Mid + (coarse.Held.Mid-fine.Held.Mid)*u}
		z1, z2 := odds.NormalQuantile(fine.Held.Mid), odds.NormalQuantile(coarse.Held.Mid)
		b.Normal = odds.NormalChance(z1 + (z2-z1)*u)
		if math.IsNaN(b.Normal) { // one slot holds all or nothing
			b.Normal = b.Linear
		}
		return b, true
	}
	return Between{}, false
}
