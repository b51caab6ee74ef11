package intake

import (
	"cmp"
	"math"
	"slices"

	"awn/finding"
)

// Bin is a silo as a load may go into it.
type Bin struct {
	Name    string
	Variety string // "" empty, or any
	HeldKg  float64
	FreeKg  float64

	Protein      [2]float64 // band of dry matter it is kept for, NaN where open
	MostMoisture float64    // NaN where open
	LeastLiving  float64    // least capacity; NaN where open
	MostDON      float64    // kg/kg; NaN where open
	ForSprouted  bool       // set apart for sprouted grain
	HeldProtein  float64    // mean of what lies in it, of dry matter; NaN unknown or empty
}

// Bar is why a load may not go into a bin.
type Bar string

// The bars.
const (
	NoRoom        Bar = "no-room"
	OtherVariety  Bar = "other-variety"
	OffProtein    Bar = "protein"
	TooMoist      Bar = "moisture"
	TooFewLiving  Bar = "living"
	TooMuchDON    Bar = "don"
	SproutedApart Bar = "sprout"      // sprouted and sound grain are never mixed
	NotKnown      Bar = "not-known"   // a figure that the bin asks for was not read
	Fumigated     Bar = "not-cleared" // fumigant not cleared
)

// Fit is how a load fits a bin.
type Fit struct {
	Bin         Bin
	Bars        []Bar   // why not; none if it fits
	MeanProtein float64 // of the bin with the load in it, of dry matter
}

// Fits lists the bins, those that take the load first, of these the one whose
// protein it moves least, the fuller of equals first.
func Fits(l *Load, bins []Bin) []Fit {
	d := Diagnose(l)
	out := make([]Fit, len(bins))
	for i, b := range bins {
		out[i] = Fit{Bin: b, Bars: b.bars(l, d), MeanProtein: b.meanProtein(l)}
	}
	shift := func(f Fit) float64 {
		if math.IsNaN(f.Bin.HeldProtein) || math.IsNaN(f.MeanProtein) {
			return 0
		}
		return math.Abs(f.MeanProtein - f.Bin.HeldProtein)
	}
	slices.SortStableFunc(out, func(a, b Fit) int {
		return cmp.Or(cmp.Compare(min(len(a.Bars), 1), min(len(b.Bars), 1)), cmp.Compare(shift(a), shift(b)), cmp.Compare(b.Bin.HeldKg, a.Bin.HeldKg))
	})
	return out
}

// bars lists why a load may not go into the bin.
func (b Bin) bars(l *Load, d Diagnosis) (out []Bar) {
	bar := func(is bool, why Bar) {
		if is && !slices.Contains(out, why) {
			out = append(out, why)
		}
	}
	bar(!(l.NetKg <= b.FreeKg), NoRoom)
	bar(b.Variety != "" && b.Variety != l.Variety || l.TrueToType == No, OtherVariety)
	bar((d.Sprout >= SproutModerate) != b.ForSprouted && d.Sprout != SproutUnknown && d.Sprout != SproutPossible, SproutedApart)
	bar(l.FumigantClear != "" && (l.Arrived == "" || l.Arrived < l.FumigantClear), Fumigated)
	for _, limit := range []struct {
		f           Factor
		least, most float64
		why         Bar
	}{
		{Protein, b.Protein[0], b.Protein[1], OffProtein},
		{Moisture, math.NaN(), b.MostMoisture, TooMoist},
		{Capacity, b.LeastLiving, math.NaN(), TooFewLiving},
		{DON, math.NaN(), b.MostDON, TooMuchDON},
	} {
		if math.IsNaN(limit.least) && math.IsNaN(limit.most) {
			continue
		}
		v, ok := l.Value(Of(limit.f))
		bar(!ok, NotKnown)
		bar(ok && (v.Mid < limit.least || v.Mid > limit.most), limit.why)
	}
	return out
}

// meanProtein is the protein of the bin with the load in it, both at about the
// same moisture.
func (b Bin) meanProtein(l *Load) float64 {
	p, _ := l.Value(Of(Protein))
	if b.HeldKg == 0 {
		return p.Mid
	}
	return (b.HeldKg*b.HeldProtein + l.NetKg*p.Mid) / (b.HeldKg + l.NetKg)
}

// Placed says what the best fit means, as findings.
func Placed(fits []Fit) []finding.Finding {
	if len(fits) > 0 && len(fits[0].Bars) == 0 {
		return nil
	}
	f := finding.New("intake.silo.none-fits", finding.Caution, stage, figure("silos_n", float64(len(fits))))
	f.Act, f.Chance, f.Cost, f.Source = "act.intake.keep-apart", 1, 0.1, practice
	return []finding.Finding{f}
}
