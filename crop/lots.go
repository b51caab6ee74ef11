package crop

import (
	"math"
	"math/rand/v2"
	"slices"

	"awn/barley"
	"awn/intake"
	"awn/lab"
	"awn/odds"
)

// chosen draws samples for lots of malting barley, each with a chance in
// proportion to its tonnes: at equal steps through the harvest in the order of
// its strata, from a start that the seed gives. keep says of what may be drawn.
func (s *Survey) chosen(lots int, seed uint64, keep func(i int) bool) []int {
	order := make([]int, 0, len(s.Samples))
	total := 0.0
	for i, x := range s.Samples {
		if keep(i) {
			order = append(order, i)
			total += x.WeightT
		}
	}
	if len(order) == 0 {
		return nil
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return slices.Compare(
			[]string{s.Samples[a].Variety, s.Samples[a].District}, []string{s.Samples[b].Variety, s.Samples[b].District})
	})
	step := total / float64(lots)
	next := step * rand.New(rand.NewPCG(seed, 1)).Float64()
	var out []int
	sum := 0.0
	for _, i := range order {
		for sum += s.Samples[i].WeightT; next < sum && len(out) < lots; next += step {
			out = append(out, i)
		}
	}
	return out
}

// kernels are laid out in a germination test when a share is turned into a count.
const kernels = 100

// testH is how long a germination test stands, h.
const testH = 72

// lot is a sample as a lot of malting barley. What it lacks stays unknown, and is
// assumed and said so by the course.
func (s *Survey) lot(i int) barley.Lot {
	x := s.Samples[i]
	unknown := barley.Unknown
	l := barley.Lot{
		Variety: x.Variety, CropYear: x.Season, Origin: x.District,
		Moisture: unknown(), Protein: unknown(), KernelMassMg: unknown(), TestWeightKgHL: unknown(), Capacity: unknown(), Dormant: unknown(),
		WaterSensitivity: unknown(), ChitThermalTimeCH: unknown(), BetaGlucan: unknown(), Uptake: unknown(), GreenSMM: unknown(),
	}
	held, through := math.NaN(), math.NaN()
	for q, quality := range s.Qualities {
		r := x.Readings[q]
		if !r.Known() {
			continue
		}
		v := odds.Alone(r.X, odds.Measured)
		counts := []lab.Count{{AtH: testH, Germinated: int(math.Round(kernels * r.X)), Of: kernels}}
		switch quality.Factor {
		case intake.Moisture:
			l.Moisture = v
		case intake.Protein:
			l.Protein = v
		case intake.TestWeight:
			l.TestWeightKgHL = v
		case intake.Capacity:
			l.Capacity = v
		case intake.Energy:
			l.Counts4mL = counts
		case intake.Energy8:
			l.Counts8mL = counts
		case intake.Held:
			if sameSlot(quality.SlotM, plumpSlotM) {
				held = r.X
			}
		case intake.Through:
			if sameSlot(quality.SlotM, thinSlotM) {
				through = r.X
			}
		}
	}
	l.Sieve = fractions(held, through)
	return l
}

// Parts of ordinary two-row barley that are known by the two slots alone.
//
// Assumed: common practice, no source.
const (
	coarsestOfHeld = 0.65 // held by 2.8 mm, of what 2.5 mm holds
	thinOfRest     = 0.25 // through 2.2 mm, of what 2.5 mm lets through
)

// fractions are the four sieve fractions that go with what 2.5 mm holds and what
// falls through 2.2 mm; none where the first is not known.
func fractions(held, through float64) (out [barley.SieveClasses]float64) {
	if math.IsNaN(held) {
		return out
	}
	if math.IsNaN(through) || through > 1-held {
		through = thinOfRest * (1 - held)
	}
	return [...]float64{coarsestOfHeld * held, (1 - coarsestOfHeld) * held, 1 - held - through, through}
}
