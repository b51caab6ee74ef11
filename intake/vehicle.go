package intake

import (
	"slices"

	"awn/odds"
)

// Vehicle is what a load lies in when it is probed.
type Vehicle struct {
	LengthM float64 // 0 not said
	WidthM  float64
	Probes  []Point // the house's own pattern; none for places laid evenly
}

// Pattern is where a load is to be probed.
type Pattern struct {
	Vehicle Vehicle
	Points  []Point
	Scheme  Scheme // that gives their number; without a name where the house has its own
}

// Pattern lays out the probes of a load: the pattern of the house, or as many
// as the first scheme asks for its mass, laid evenly. It reports false for a
// mass beyond the scheme.
func (l *Load) Pattern() (Pattern, bool) {
	if own := l.Vehicle.Probes; len(own) > 0 {
		return Pattern{Vehicle: l.Vehicle, Points: slices.Clone(own)}, true
	}
	n, ok := Schemes[0].Number(l.NetKg)
	return Pattern{Vehicle: l.Vehicle, Points: EvenPoints(n), Scheme: Schemes[0]}, ok
}

// Told is a factor that was read, and what the reading can say of the load.
type Told struct {
	Key   Key
	Count odds.Proportion // what it was counted from; Of is 0 where it was not counted
	Name  string          // of a figure that ends in the unit of the value
	Value odds.Value      // with its band
}

// Told lists the factors whose readings have a band: what chance in sampling
// and counting, or the scatter between laboratories, leaves open.
func (l *Load) Told() (out []Told) {
	for _, f := range factors {
		r, ok := l.Readings[f]
		if !ok || !r.Value.Known() {
			continue
		}
		v := r.banded(f)
		if !v.Banded() || v.Low == v.High {
			continue
		}
		in := PerCent
		if f == DON || f == Ochratoxin || f == T2HT2 {
			in = MicroG
		}
		figure := func(x float64) float64 { return in.Figure("", in.printed(x)).Value }
		out = append(out, Told{Of(f), r.Count, in.Figure("read", 0).Name, v.Map(figure)})
	}
	return out
}
