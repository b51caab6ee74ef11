package variety

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/floats"

	"awn/finding"
	"awn/odds"
)

// Score is one entry on the rule of one customer.
type Score struct {
	Entry      string
	Value      odds.Value // less the check's; one unit is one weighted standard deviation between entries
	Parts      []float64  // what each wish gives of it, at the predicted effects
	BeatsCheck float64    // chance of a better score than the check's
	First, Top float64    // chances of being first, and among the first few, of those not culled
	Rank       odds.Value // among those not culled
	Limits     []float64  // by wish, chance that its hard limit holds; NaN without one
	Culled     []string   // traits whose hard limit holds with too small a chance
	Guessed    []string   // traits without a figure: the entry counts as an average one, with all its doubt
}

// Ruler is all entries on the rule of one customer, best first, culled ones last.
type Ruler struct {
	Customer Customer
	Check    string
	Scores   []Score
}

// Ranking is the rulers of all customers.
type Ranking struct {
	Rulers  []Ruler
	Front   []string // entries that no other beats for every customer
	Remarks []Remark
}

// RankOptions say how to rank. The zero value is the usual way.
type RankOptions struct {
	Draws int    // 2000 if 0
	Seed  uint64 // equal seeds give equal rankings
	Top   int    // how many are the first few; 3 if 0
}

// ErrCheck says that there is no check to rank by.
var ErrCheck = errors.New("the check is not among the entries")

// Rank scores every entry for every customer. The effects of entries are drawn
// from what each analysis says of them, errors of one trait going together over
// entries, and of one entry over traits as its plots do.
func (t Trials) Rank(ctx context.Context, analyses []*Analysis, customers []Customer, check string, o RankOptions) (*Ranking, error) {
	if o.Draws <= 0 {
		o.Draws = 2000
	}
	if o.Top <= 0 {
		o.Top = 3
	}
	r := newRanking(t, analyses, check)
	if r.check < 0 {
		return nil, ErrCheck
	}
	if err := r.draw(ctx, o); err != nil {
		return nil, err
	}
	out := &Ranking{Remarks: r.remarks}
	for _, c := range customers {
		ruler, remarks := r.rule(c, o)
		out.Rulers, out.Remarks = append(out.Rulers, ruler), append(out.Remarks, remarks...)
	}
	out.Front = r.front(out.Rulers)
	return out, nil
}

// ranking is the draws from which all rulers are read.
type ranking struct {
	entries  []string
	check    int
	traits   []*traitDraws
	mixing   [][]float64 // over traits, lower triangle
	remarks  []Remark
	analyses []*Analysis
}

// traitDraws is one trait over all entries.
type traitDraws struct {
	Trait
	spread  float64   // standard deviation between entries
	middle  []float64 // predicted mean of each entry
	known   []bool
	root    [][]float64 // lower triangle: errors of the known entries from independent ones
	place   []int       // of each known entry in entries
	figures [][]float64 // by draw, then entry
}

func newRanking(t Trials, analyses []*Analysis, check string) *ranking {
	r := &ranking{}
	seen := map[string]bool{}
	for _, a := range analyses {
		for _, e := range a.Entries {
			if !seen[e.Name] {
				seen[e.Name] = true
				r.entries = append(r.entries, e.Name)
			}
		}
	}
	slices.SortFunc(r.entries, inOrder)
	r.check = slices.Index(r.entries, check)
	var names []string
	for _, a := range analyses {
		if a.effects == nil {
			continue
		}
		r.analyses = append(r.analyses, a)
		r.traits = append(r.traits, r.trait(a))
		names = append(names, a.Trait.Name)
	}
	r.mixing = r.together(t, names)
	return r
}

func (r *ranking) trait(a *Analysis) *traitDraws {
	d := &traitDraws{Trait: a.Trait, spread: math.Sqrt(a.Variances().Entry), middle: make([]float64, len(r.entries)), known: make([]bool, len(r.entries))}
	for i, name := range r.entries {
		d.middle[i] = a.Mean.Value
		if at := a.Place(name); at >= 0 {
			d.middle[i] += a.Entries[at].Effect.Value
			d.known[i] = true
		}
	}
	for _, e := range a.Entries {
		d.place = append(d.place, slices.Index(r.entries, e.Name))
	}
	d.root = lower(a.effects.Error)
	return d
}

// together is how errors of traits go together: by what is left of plots of both.
func (r *ranking) together(t Trials, names []string) [][]float64 {
	c := t.Covariances(names...)
	if c == nil {
		if len(names) > 1 {
			r.remarks = append(r.remarks, remark("rank.trait.apart", finding.Note, ""))
		}
		return unitRows(len(names))
	}
	n := len(names)
	m := c.Residual
	for i := range n {
		for j := i + 1; j < n; j++ {
			if d := math.Sqrt(c.Residual.At(i, i) * c.Residual.At(j, j)); d > 0 {
				// A hair short of one: traits that go wholly together are drawn too.
				m.SetSym(i, j, 0.9999*c.Residual.At(i, j)/d)
			}
		}
	}
	for i := range n {
		m.SetSym(i, i, 1)
	}
	return lower(m)
}

// draw fills in the figures.
func (r *ranking) draw(ctx context.Context, o RankOptions) error {
	random := rand.New(rand.NewPCG(o.Seed, o.Seed^0x9e3779b97f4a7c15))
	n := len(r.entries)
	chance := make([][]float64, len(r.traits))
	for k := range chance {
		chance[k] = make([]float64, n)
	}
	for range o.Draws {
		if err := ctx.Err(); err != nil {
			return err
		}
		for k := range chance {
			for i := range n {
				chance[k][i] = random.NormFloat64()
			}
		}
		for k, d := range r.traits {
			d.figures = append(d.figures, d.once(chance, r.mixing[k]))
		}
	}
	return nil
}

// once is one draw of a trait from independent chances by trait and entry.
func (d *traitDraws) once(chance [][]float64, mixing []float64) []float64 {
	own := make([]float64, len(d.middle))
	for l, m := range mixing {
		for i, z := range chance[l] {
			own[i] += m * z
		}
	}
	out := slices.Clone(d.middle)
	for i, known := range d.known {
		if !known {
			out[i] += d.spread * own[i]
		}
	}
	known := make([]float64, len(d.place))
	for i, at := range d.place {
		known[i] = own[at]
	}
	for i, row := range d.root {
		out[d.place[i]] += floats.Dot(row, known[:len(row)])
	}
	return out
}

// find is the draws of a trait; nil if it was not analysed.
func (r *ranking) find(name string) *traitDraws {
	for _, d := range r.traits {
		if d.Name == name {
			return d
		}
	}
	return nil
}
