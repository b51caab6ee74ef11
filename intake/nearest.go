package intake

import (
	"cmp"
	"math"
	"slices"
)

// Nearest puts verdicts in the order in which somebody at the gate wants to see
// them: those that decide first, as they are named; then those that miss, the
// furthest first; then those that meet, the nearest to their limit first; and
// last what nobody read. Nearness is the room as a share of the limit, so that
// moisture and germination can stand in one list.
func Nearest(all []Verdict, deciding []Key) []Verdict {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(a, b Verdict) int {
		if c := cmp.Compare(a.turn(deciding), b.turn(deciding)); c != 0 {
			return c
		}
		return cmp.Compare(a.room(), b.room())
	})
	return out
}

// turn is the group that a verdict stands in.
func (v Verdict) turn(deciding []Key) int {
	i := slices.Index(deciding, v.Limit.Key)
	switch {
	case i >= 0:
		return i
	case v.Outcome == Unsaid:
		return len(deciding) + 2
	case v.Outcome == Misses:
		return len(deciding)
	}
	return len(deciding) + 1
}

// room is the room to the limit as a share of it, or as it is where the limit
// is nought; negative where it is missed.
func (v Verdict) room() float64 {
	if share := v.Margin / math.Abs(v.Limit.At); !math.IsInf(share, 0) && !math.IsNaN(share) {
		return share
	}
	return v.Margin
}
