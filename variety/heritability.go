package variety

import "math"

// Cullis is the heritability of entry means, whatever the holes of the trial,
// from the variance of entries and the mean error variance of the difference of
// two predicted effects.
//
//	h² = 1 - d/(2 v)
//
// Recalled: Cullis 2006.
// Valid: v above 0; NaN else.
// Check: closed form 1 - MSR/MSG of a complete table.
func Cullis(v, d float64) float64 {
	if !(v > 0) {
		return math.NaN()
	}
	return 1 - d/(2*v)
}

// PiephoMoehring is the heritability of entry means from the variance of entries
// and the mean error variance of the difference of two entry means.
//
//	h² = v/(v + d/2)
//
// Recalled: Piepho 2007.
// Valid: v above 0; NaN else.
// Check: closed form 1 - MSR/MSG of a complete table.
func PiephoMoehring(v, d float64) float64 {
	if !(v > 0) {
		return math.NaN()
	}
	return v / (v + d/2)
}

// Variances are those that decide how well entry means are known. What the trial
// cannot tell is 0 and lies in the next that it can.
type Variances struct {
	Entry, EntrySite, EntryYear float64
	EntrySiteYear               float64 // of an entry in an environment
	Plot                        float64
}

// Size is how large a trial is: sites, years, plots of an entry in each.
type Size struct {
	Sites, Years, Plots float64
}

// Reliability is the heritability of the means of entries that all stand in every
// site and year: what a trial of that size is worth.
//
//	h² = v / (v + vS/S + vY/Y + vSY/(S Y) + e/(S Y P))
//
// Recalled: Cullis 2006, as the form for balanced trials.
// Valid: all sizes above 0 and v above 0; NaN else.
// Check: 1 - MSR/MSG of a complete table.
// Note: with two years or three the variance of entries by years is itself hardly known.
func Reliability(v Variances, s Size) float64 {
	if !(v.Entry > 0 && s.Sites > 0 && s.Years > 0 && s.Plots > 0) {
		return math.NaN()
	}
	places := s.Sites * s.Years
	return v.Entry / (v.Entry + v.EntrySite/s.Sites + v.EntryYear/s.Years + v.EntrySiteYear/places + v.Plot/(places*s.Plots))
}

// Variances are those of the analysis.
func (a *Analysis) Variances() Variances {
	var v Variances
	for _, c := range a.random.Components {
		switch c.Name {
		case EntryTerm:
			v.Entry = c.Variance
		case EntrySiteTerm:
			v.EntrySite = c.Variance
		case EntryYearTerm:
			v.EntryYear = c.Variance
		case InteractionTerm:
			v.EntrySiteYear = c.Variance
		}
	}
	v.Plot = a.random.Components[len(a.random.Components)-1].Variance
	return v
}

// Size is how large the trial was, on average over the entries: environments
// parted into sites and years as the records have them.
func (a *Analysis) Size() Size {
	years := max(1, len(labels(a.design.records, Record.when)))
	environments, plots := 0.0, 0.0
	for _, e := range a.Entries {
		// The harmonic mean is what an average of variances goes by.
		environments += 1 / float64(e.Environments)
		plots += float64(e.Environments) / float64(e.Plots)
	}
	n := float64(len(a.Entries))
	each := n / environments / float64(years)
	return Size{Sites: each, Years: float64(years), Plots: n / plots}
}
