package variety

import (
	"context"
	"errors"
	"math"

	"awn/finding"
	"awn/mixed"
)

// Question says what to ask of a trial.
type Question struct {
	Trait              string
	EnvironmentsRandom bool    // places and years stand for more of their kind: the mean then carries their spread
	Confidence         float64 // of intervals; 0.90 if 0
	Progress           func(iteration int, logLik float64)
}

func (q Question) confidence() float64 {
	if q.Confidence == 0 {
		return 0.90
	}
	return q.Confidence
}

// Entry is what the trial says of one entry in one trait.
type Entry struct {
	Name         string
	Plots        int            // records with a figure
	Environments int            // in which it has one
	Raw          float64        // plain mean of the records
	Mean         mixed.Estimate // the entry by itself, places and years evened out (BLUE)
	Effect       mixed.Estimate // as predicted, drawn towards the mean as far as the trial is weak (BLUP)
	Reliability  float64        // of the effect: 1 - its error variance over that of entries; NaN if that is 0
}

// Component is a variance with its interval.
type Component struct {
	mixed.Component
	Low, High float64 // ends of the profile interval
}

// Heritability is how much of the differences between entry means is theirs. All
// three agree in a complete table; the first holds in others too.
type Heritability struct {
	Cullis   float64 // from the errors of prediction; the one to use
	Piepho   float64 // from the errors of the means
	Balanced float64 // from counts of sites, years and plots
}

// Analysis is what a trial says of one trait.
type Analysis struct {
	Trait        Trait
	Entries      []Entry // in the order of their names
	Mean         mixed.Estimate
	Components   []Component // entries random
	LogLik       float64
	Heritability Heritability
	Environments int
	Remarks      []Remark

	design  *design
	random  *mixed.Fit
	fixed   *mixed.Fit
	effects *mixed.Set
	means   *mixed.Set
	checks  []string
}

// ErrNothing says that a trait has too little to analyse; the remarks of the
// analysis say what.
var ErrNothing = errors.New("the trial cannot tell the entries apart in this trait")

// Analyse fits the trait twice, entries random for what to expect of them and
// fixed for what was seen. If the trial cannot be analysed it returns, with
// ErrNothing, an analysis that holds the remarks alone.
func (t Trials) Analyse(ctx context.Context, q Question) (*Analysis, error) {
	a := &Analysis{Remarks: t.Inspect(q.Trait), checks: t.Checks}
	at := t.Trait(q.Trait)
	if at < 0 {
		return a, ErrNothing
	}
	a.Trait = t.Traits[at]
	records := t.with(at)
	if len(labels(records, entryOf)) < 2 {
		return a, ErrNothing
	}
	a.design = plan(records, at, q.EnvironmentsRandom)
	a.Environments = len(labels(records, Record.where))
	var err error
	if a.random, err = a.fit(ctx, false, mixed.Options{Progress: q.Progress}); err != nil {
		return a, err
	}
	if a.fixed, err = a.fit(ctx, true, mixed.Options{}); err != nil && !errors.Is(err, ErrNothing) {
		return a, err
	}
	if err := a.collect(ctx, records, at); err != nil {
		return a, err
	}
	return a, a.intervals(ctx, q.confidence())
}

// fit fits the design, leaving out one by one what the records cannot tell.
func (a *Analysis) fit(ctx context.Context, entriesFixed bool, o mixed.Options) (*mixed.Fit, error) {
	for {
		f, err := a.design.model(entriesFixed).Fit(ctx, o)
		var wrong *mixed.Error
		switch {
		case err == nil:
			if !f.Converged {
				a.Remarks = append(a.Remarks, remark("trial.fit.not-converged", finding.Alarm, a.Trait.Name, count("steps", f.Iterations)))
			}
			return f, nil
		case !errors.As(err, &wrong):
			return nil, err
		case wrong.Problem == mixed.Mingled && wrong.Term != EntryTerm && a.design.without(wrong.Term):
			m := remark("trial.term.mingled", finding.Note, a.Trait.Name)
			m.Term = wrong.Term
			a.Remarks = append(a.Remarks, m)
		case wrong.Problem == mixed.Saturated && a.spare():
		default:
			code := "trial.fit.impossible"
			if entriesFixed {
				code = "trial.mean.impossible"
			}
			m := remark(code, finding.Alarm, a.Trait.Name)
			m.Term = wrong.Term
			a.Remarks = append(a.Remarks, m)
			return nil, ErrNothing
		}
	}
}

// spare leaves out the random term of most levels, for the terms together explain
// every record and leave nothing to judge chance by; what it stood for counts as
// chance from then on. It reports whether there was one to spare.
func (a *Analysis) spare() bool {
	name, most := "", 0
	for _, t := range a.design.terms {
		if t.Random && t.Name != EntryTerm && t.Levels >= most {
			name, most = t.Name, t.Levels
		}
	}
	if name == "" {
		return false
	}
	m := remark("trial.term.saturated", finding.Caution, a.Trait.Name)
	m.Term = name
	a.Remarks = append(a.Remarks, m)
	return a.design.without(name)
}

// collect gathers means, effects and heritability from the fits.
func (a *Analysis) collect(ctx context.Context, records []Record, at int) error {
	var err error
	if a.effects, err = a.random.Effects(EntryTerm); err != nil {
		return err
	}
	if a.fixed != nil {
		if a.means, err = a.fixed.Means(EntryTerm); err != nil {
			return err
		}
	}
	a.Mean, a.LogLik = a.random.Mean(), a.random.LogLik
	variance := a.random.Variance(EntryTerm)
	for i, name := range a.design.labels[EntryTerm] {
		e := Entry{Name: name, Effect: a.effects.At(i), Mean: unknown(), Reliability: math.NaN()}
		if a.means != nil {
			e.Mean = a.means.At(i)
		}
		if variance > 0 {
			e.Reliability = 1 - e.Effect.SE*e.Effect.SE/variance
		}
		a.Entries = append(a.Entries, e)
	}
	a.countPlots(records, at)
	a.Heritability = a.heritability(ctx, variance)
	if variance == 0 {
		a.Remarks = append(a.Remarks, remark("trial.entry.no-variance", finding.Caution, a.Trait.Name))
	}
	return nil
}

func unknown() mixed.Estimate {
	return mixed.Estimate{Value: math.NaN(), SE: math.NaN(), Freedom: math.NaN()}
}

func (a *Analysis) countPlots(records []Record, at int) {
	seen := map[cell]bool{}
	place := a.places()
	for _, r := range records {
		e := &a.Entries[place[r.Entry]]
		e.Plots++
		e.Raw += r.Value[at]
		if !seen[r.cell()] {
			seen[r.cell()] = true
			e.Environments++
		}
	}
	for i := range a.Entries {
		a.Entries[i].Raw /= float64(a.Entries[i].Plots)
	}
}

// places is where each entry stands.
func (a *Analysis) places() map[string]int {
	out := map[string]int{}
	for i, e := range a.Entries {
		out[e.Name] = i
	}
	return out
}

// Place is where an entry stands in Entries; -1 if it is not there.
func (a *Analysis) Place(entry string) int {
	for i, e := range a.Entries {
		if e.Name == entry {
			return i
		}
	}
	return -1
}

// heritability of entry means, from the variance of entries.
func (a *Analysis) heritability(ctx context.Context, variance float64) Heritability {
	h := Heritability{math.NaN(), math.NaN(), math.NaN()}
	if variance == 0 {
		return Heritability{}
	}
	h.Cullis = Cullis(variance, a.effects.MeanVariance())
	if at := a.meansAtRandom(ctx); at != nil {
		h.Piepho = PiephoMoehring(variance, at.MeanVariance())
	}
	h.Balanced = Reliability(a.Variances(), a.Size())
	return h
}

// meansAtRandom is the means of the entries with the variances that the fit of
// random entries found.
func (a *Analysis) meansAtRandom(ctx context.Context) *mixed.Set {
	hold := map[string]float64{}
	m := a.design.model(true)
	for _, c := range a.random.Components {
		switch {
		case c.Name == EntryTerm:
		case c.Variance > 0:
			hold[c.Name] = c.Variance
		default:
			for i, t := range m.Terms {
				if t.Name == c.Name {
					m.Terms = append(m.Terms[:i:i], m.Terms[i+1:]...)
					break
				}
			}
		}
	}
	f, err := m.Fit(ctx, mixed.Options{Hold: hold})
	if err != nil {
		return nil
	}
	set, err := f.Means(EntryTerm)
	if err != nil {
		return nil
	}
	return set
}

// intervals adds the profile intervals of the components.
func (a *Analysis) intervals(ctx context.Context, confidence float64) error {
	for _, c := range a.random.Components {
		low, high, err := a.random.Interval(ctx, c.Name, confidence)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			low, high = math.NaN(), math.NaN()
		}
		a.Components = append(a.Components, Component{c, low, high})
	}
	return nil
}
