package intake

import (
	"math"

	"awn/finding"
	"awn/lab"
	"awn/odds"
)

// Sprout is what the tests say of germination before harvest.
type Sprout int

// The grades of sprout.
const (
	SproutUnknown Sprout = iota
	SproutNone
	SproutPossible // the falling number is low: test further
	SproutModerate
	SproutSevere
)

// Bands of sprout tests.
const (
	soundRVA   = 120 // above: sound
	severeRVA  = 50  // below: severe
	soundFallS = 250 // above: accepted; below: test further
)

// sensitiveFrom is the water sensitivity from which a lot counts as sensitive;
// agedFrom is the germinative energy under which storage is not offered.
const (
	sensitiveFrom = 0.30
	wantedEnergy  = 0.95
)

// Diagnosis tells dead, dormant, water-sensitive and sprouted kernels apart.
// Shares are by number, with the band of their sampling; unknown where the
// tests at hand do not say.
type Diagnosis struct {
	Dead      odds.Value
	Dormant   odds.Value
	Sensitive odds.Value // germinates in 4 mL but not in 8 mL
	Sprout    Sprout
	Findings  []finding.Finding
}

// Diagnose reads a load's tests of life and sprout.
func Diagnose(l *Load) Diagnosis {
	d := Diagnosis{Dead: unknown(), Dormant: unknown(), Sensitive: unknown(), Sprout: l.sprout()}
	gc, hasGC := l.Value(Of(Capacity))
	ge, hasGE := l.Value(Of(Energy))
	ge8, hasGE8 := l.Value(Of(Energy8))
	if hasGC {
		d.Dead = gc.Map(func(x float64) float64 { return 1 - x })
	}
	if hasGC && hasGE {
		d.Dormant = between(l, Capacity, Energy, gc, ge, lab.Dormant)
	}
	if hasGE && hasGE8 {
		d.Sensitive = between(l, Energy, Energy8, ge, ge8, lab.WaterSensitivity)
	}
	d.Findings = d.findings(l, ge)
	return d
}

// between is the difference of two shares, by their counts where both were
// counted.
func between(l *Load, a, b Factor, va, vb odds.Value, counted func(a, b odds.Proportion) odds.Value) odds.Value {
	ca, cb := l.Readings[a].Count, l.Readings[b].Count
	if ca.Valid() && cb.Valid() {
		return counted(ca, cb)
	}
	return odds.Combine(func(x []float64) float64 { return x[0] - x[1] }, va, vb)
}

// sprout reads the viscosity of the slurry, or else the falling number.
func (l *Load) sprout() Sprout {
	if v, ok := l.Value(Of(Viscosity)); ok {
		switch {
		case v.Mid > soundRVA:
			return SproutNone
		case v.Mid >= severeRVA:
			return SproutModerate
		}
		return SproutSevere
	}
	if v, ok := l.Value(Of(FallingNumber)); ok {
		if v.Mid > soundFallS {
			return SproutNone
		}
		return SproutPossible
	}
	return SproutUnknown
}

// dormantSurely reports whether more kernels are dormant than sampling
// explains.
func (d Diagnosis) dormantSurely() bool { return d.Dormant.Low > 0 }

// excuses reports whether a missed limit is explained by dormancy, which time
// will lift.
func (d Diagnosis) excuses(f Factor) bool {
	return (f == Energy || f == Energy8 || f == GerminationIndex) && d.dormantSurely() && d.Sprout < SproutModerate
}

// limits95 are the 95 % limits of a counted reading, unknown where it was not
// counted.
func limits95(l *Load, f Factor) (low, high float64) {
	if c := l.Readings[f].Count; c.Valid() {
		return c.ClopperPearson(0.95)
	}
	return math.NaN(), math.NaN()
}
