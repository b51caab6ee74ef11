package variety

import (
	"math"

	"awn/finding"
)

// Guide is how entries would be chosen for one customer by other rules than the
// score: three indices, and desirability.
type Guide struct {
	Customer    string
	Traits      []string  // that the indices rest on
	Aim         []float64 // weight of each, per unit of the trait, more or less of it as is wanted
	Gains       []float64 // in what proportion they are to move: weight times standard deviation between entries
	SmithHazel  *Index    // nil where it cannot be worked out; so the others
	Base        *Index
	DesiredGain *Index
	LeftOut     []string // wished for, and not in the indices: wanted within a window, or without a variance
	Pleases     []Desirability
	Entries     []Guided
}

// Guided is one entry by those rules; NaN where it cannot be said.
type Guided struct {
	Entry                         string
	SmithHazel, Base, DesiredGain float64 // less the mean of all
	Desirability                  float64
}

// thinCondition is how far apart the directions of a matrix may lie before its
// weights hang by a thread.
const thinCondition = 1000

// guide works out the other rules for a customer.
func (t Trials) guide(c Customer, analyses []*Analysis) (Guide, []Remark) {
	g := Guide{Customer: c.Name}
	var remarks []Remark
	covariances := t.Covariances(g.lines(c, analyses)...)
	if covariances != nil && g.aim(c, analyses, covariances) {
		remarks = g.indices(covariances)
	}
	g.pleases(c, analyses)
	means := map[string][]float64{}
	if covariances != nil {
		for i, entry := range covariances.Entries {
			means[entry] = covariances.less(i)
		}
	}
	for _, entry := range t.Entries() {
		x := Guided{Entry: entry, SmithHazel: nan, Base: nan, DesiredGain: nan, Desirability: g.desirability(entry, analyses)}
		for _, one := range []struct {
			index *Index
			to    *float64
		}{{g.SmithHazel, &x.SmithHazel}, {g.Base, &x.Base}, {g.DesiredGain, &x.DesiredGain}} {
			if one.index != nil {
				*one.to = one.index.Of(means[entry])
			}
		}
		g.Entries = append(g.Entries, x)
	}
	return g, remarks
}

// lines are the traits of a customer that run one way and of which entries differ.
func (g *Guide) lines(c Customer, analyses []*Analysis) []string {
	for _, w := range c.Wishes {
		a := find(analyses, w.Trait)
		switch {
		case w.Weight == 0:
		case a == nil || a.Trait.sign() == 0 || a.Variances().Entry == 0:
			g.LeftOut = append(g.LeftOut, w.Trait)
		default:
			g.Traits = append(g.Traits, w.Trait)
		}
	}
	return g.Traits
}

// aim turns the weights, which are per standard deviation between entries, to
// those per unit. It reports false where a variance came out at zero or below.
func (g *Guide) aim(c Customer, analyses []*Analysis, v *Covariances) bool {
	for k, name := range g.Traits {
		variance := v.Genetic.At(k, k)
		if !(variance > 0) {
			g.Aim, g.Gains = nil, nil
			return false
		}
		for _, w := range c.Wishes {
			if w.Trait == name {
				signed := w.Weight * find(analyses, name).Trait.sign()
				g.Aim = append(g.Aim, signed/math.Sqrt(variance))
				g.Gains = append(g.Gains, signed*math.Sqrt(variance))
			}
		}
	}
	return len(g.Aim) == len(g.Traits)
}

// indices works out the three, each if it can be.
func (g *Guide) indices(v *Covariances) (remarks []Remark) {
	for _, one := range []struct {
		name string
		work func([]float64) (Index, error)
		with []float64
		to   **Index
	}{{"smith-hazel", v.SmithHazel, g.Aim, &g.SmithHazel}, {"base", v.Base, g.Aim, &g.Base}, {"desired-gain", v.DesiredGains, g.Gains, &g.DesiredGain}} {
		index, err := one.work(one.with)
		m := remark("rank.index.singular", finding.Caution, "")
		if err == nil {
			*one.to = &index
			if !(index.Condition > thinCondition) {
				continue
			}
			m = remark("rank.index.thin", finding.Caution, "", figure("condition", index.Condition))
		}
		m.Term, m.Entry = one.name, g.Customer
		remarks = append(remarks, m)
	}
	return remarks
}

// less is the means of an entry less those of all.
func (c *Covariances) less(entry int) []float64 {
	out := append([]float64(nil), c.Means[entry]...)
	for _, row := range c.Means {
		for k, x := range row {
			out[k] -= x / float64(len(c.Means))
		}
	}
	return out
}

// pleasing is how many standard deviations between entries lie from the mean to
// what cannot be used, and to what cannot be bettered. Common practice, no source.
const pleasing = 2

// pleases says what pleases the customer in each trait: two standard deviations
// between entries from the mean lies what cannot be used or bettered, unless a
// hard limit or a window says otherwise. A window is wanted in its middle, and
// what lies beyond it by half its width cannot be used.
func (g *Guide) pleases(c Customer, analyses []*Analysis) {
	for _, w := range c.Wishes {
		a := find(analyses, w.Trait)
		if a == nil || w.Weight <= 0 || a.Trait.Direction == Neither {
			continue
		}
		spread := math.Sqrt(a.Variances().Entry)
		d := Desirability{Trait: w.Trait, Direction: a.Trait.Direction, Weight: w.Weight,
			Low: a.Mean.Value - pleasing*spread, High: a.Mean.Value + pleasing*spread}
		if half := (a.Trait.High - a.Trait.Low) / 2; d.Direction == Window {
			if !(half > 0) {
				continue // open to one side
			}
			d.Low, d.High, d.Target = a.Trait.Low-half, a.Trait.High+half, a.Trait.Low+half
		}
		if !math.IsNaN(w.Min) {
			d.Low = w.Min
		}
		if !math.IsNaN(w.Max) {
			d.High = w.Max
		}
		if !math.IsNaN(d.Of(a.Mean.Value)) {
			g.Pleases = append(g.Pleases, d)
		}
	}
}

// desirability of an entry at its predicted means; NaN if one of them is missing.
func (g *Guide) desirability(entry string, analyses []*Analysis) float64 {
	var figures []float64
	for _, d := range g.Pleases {
		a := find(analyses, d.Trait)
		i := a.Place(entry)
		if i < 0 {
			return nan
		}
		figures = append(figures, a.Mean.Value+a.Entries[i].Effect.Value)
	}
	return Overall(g.Pleases, figures)
}

// find is the analysis of a trait; nil if there is none.
func find(analyses []*Analysis, trait string) *Analysis {
	for _, a := range analyses {
		if a.Trait.Name == trait {
			return a
		}
	}
	return nil
}
