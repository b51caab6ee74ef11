package variety

import "math"

// Buy is a trial of some size, and what it would be worth.
type Buy struct {
	Size
	Reliability float64 // of entry means
	Gain        float64 // of the best tenth over the mean, in the unit of the trait
}

// outlookShare is the share of candidates that goes on, for which Gain is given.
const outlookShare = 0.10

// Outlook says what trials of up to so many more years and sites a year would be
// worth to candidates like these, the present size first. The variances are those
// found: what they do not know of years they cannot promise.
func (a *Analysis) Outlook(moreYears, moreSites int) []Buy {
	if a.random == nil {
		return nil
	}
	v, now := a.Variances(), a.Size()
	var out []Buy
	for years := range max(moreYears, 0) + 1 {
		for sites := range max(moreSites, 0) + 1 {
			s := Size{now.Sites + float64(sites), now.Years + float64(years), now.Plots}
			b := Buy{Size: s, Reliability: Reliability(v, s)}
			b.Gain = Intensity(outlookShare) * math.Sqrt(b.Reliability*v.Entry)
			out = append(out, b)
		}
	}
	return out
}
