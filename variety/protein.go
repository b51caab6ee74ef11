package variety

import (
	"context"
	"errors"
	"math"

	"awn/mixed"
)

// Adjusted is a quality trait with what it owes to another trait, as a rule to
// protein, taken out: is it the variety, or only its low protein?
type Adjusted struct {
	Trait, By string
	Slope     mixed.Estimate // of the trait along the other, within environments
	Entries   []AdjustedEntry
	Plots     int // that have both figures
}

// AdjustedEntry is one entry less the check, as found and at equal figures of the
// other trait.
type AdjustedEntry struct {
	Entry                    string
	Plain, Equal             mixed.Estimate
	BeatsPlain, BeatsAtEqual float64
	OwedShare                float64 // of the plain difference that goes with the other trait; NaN if the difference is hardly there
	ByDifference             float64 // of the other trait, entry less check
}

// hardlyThere is how many errors a difference must have for a share of it to be
// worth a figure.
const hardlyThere = 1

// AdjustFor compares the entries with the check in a trait, as found and at
// equal figures of the trait by. Both comparisons rest on the plots that have
// both. If the trial cannot tell, it returns ErrNothing.
func (t Trials) AdjustFor(ctx context.Context, q Question, by, check string) (*Adjusted, error) {
	at, other := t.Trait(q.Trait), t.Trait(by)
	if at < 0 || other < 0 || at == other {
		return nil, ErrNothing
	}
	var records []Record
	for _, r := range t.with(at) {
		if !math.IsNaN(r.Value[other]) {
			records = append(records, r)
		}
	}
	a := &Analysis{Trait: t.Traits[at]}
	if len(labels(records, entryOf)) < 2 {
		return nil, ErrNothing
	}
	a.design = plan(records, at, q.EnvironmentsRandom)
	plain, err := a.fit(ctx, false, mixed.Options{})
	if err != nil {
		return nil, err
	}
	m := a.design.model(false)
	m.Covariates = []mixed.Covariate{{Name: by, X: withinEnvironments(records, other)}}
	equal, err := m.Fit(ctx, mixed.Options{})
	var wrong *mixed.Error
	if errors.As(err, &wrong) {
		return nil, ErrNothing
	}
	if err != nil {
		return nil, err
	}
	out := &Adjusted{Trait: q.Trait, By: by, Plots: len(records)}
	if out.Slope, err = equal.Slope(by); err != nil {
		return nil, err
	}
	return out, out.collect(a, plain, equal, check, entryMeans(records, other, a.design.labels[EntryTerm]))
}

// collect compares each entry with the check in both fits.
func (o *Adjusted) collect(a *Analysis, plain, equal *mixed.Fit, check string, by []float64) error {
	before, err := plain.Effects(EntryTerm)
	if err != nil {
		return err
	}
	after, err := equal.Effects(EntryTerm)
	if err != nil {
		return err
	}
	names := a.design.labels[EntryTerm]
	c := -1
	for i, name := range names {
		if name == check {
			c = i
		}
	}
	if c < 0 {
		return ErrNothing
	}
	for i, name := range names {
		if i == c {
			continue
		}
		e := AdjustedEntry{Entry: name, Plain: before.Difference(i, c), Equal: after.Difference(i, c), OwedShare: math.NaN(),
			ByDifference: by[i] - by[c]}
		e.BeatsPlain, e.BeatsAtEqual = a.beats(e.Plain), a.beats(e.Equal)
		if math.Abs(e.Plain.Value) > hardlyThere*e.Plain.SE {
			e.OwedShare = 1 - e.Equal.Value/e.Plain.Value
		}
		o.Entries = append(o.Entries, e)
	}
	return nil
}

// withinEnvironments is the trait less its mean in each environment.
func withinEnvironments(records []Record, trait int) []float64 {
	sum, n := map[string]float64{}, map[string]float64{}
	for _, r := range records {
		sum[r.where()] += r.Value[trait]
		n[r.where()]++
	}
	out := make([]float64, len(records))
	for i, r := range records {
		out[i] = r.Value[trait] - sum[r.where()]/n[r.where()]
	}
	return out
}

// entryMeans is the mean over the records of what withinEnvironments gives.
func entryMeans(records []Record, trait int, entries []string) []float64 {
	x := withinEnvironments(records, trait)
	sum, n := map[string]float64{}, map[string]float64{}
	for i, r := range records {
		sum[r.Entry] += x[i]
		n[r.Entry]++
	}
	out := make([]float64, len(entries))
	for i, e := range entries {
		out[i] = sum[e] / n[e]
	}
	return out
}
