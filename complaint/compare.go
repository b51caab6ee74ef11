package complaint

import (
	"context"
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"awn/lab"
	"awn/mixed"
)

// Terms that are not kinds of vessel.
const (
	Barley = "barley"
	Test   = "test"
	Sample = "piece" // where pieces were read more than once
	Chance = mixed.Residual
)

// Least numbers: of figures to say anything, and of pieces behind a level before it
// is called well known. Common practice, no source.
const (
	leastFigures = 8
	leastPieces  = 3
)

// Confidence of intervals, and of calling a term a cause.
const confidence = 0.95

// Comparison is one quality of many pieces.
type Comparison struct {
	Quality int
	Figures int
	Pieces  int
	Mean    float64
	Parts   []Part  // random terms in the order barley, vessels, test, piece, then chance
	Left    []Left  // terms that could not be looked at
	Levels  []Level // each vessel, lot and test, by term
	Cause   string  // the part that takes most and is surely there; empty if none is
	Few     bool    // too few figures to say anything
	Failed  error   // why no model could be fitted
}

// Part is what one term takes of the differences.
type Part struct {
	Term          string
	Levels        int
	Variance      float64
	SD, Low, High float64 // standard deviation with its interval, 95 of 100; High may be endless
	Share         float64 // of all variance
	P             float64 // of there being nothing; NaN for chance
	PHolm         float64 // the same, all terms having been looked at
}

// Left is a term that could not be looked at.
type Left struct {
	Term string
	Why  Why
	With string // the term it cannot be told from
}

// Why says why a term was left out.
type Why string

// The reasons.
const (
	OneLevel Why = "one-level" // all pieces have the same
	Alone    Why = "alone"     // every figure has its own
	Mingled  Why = "mingled"   // it changes only where another does
)

// Level is one vessel, lot or test against the mean of the others.
type Level struct {
	Term, Name string
	Figures    int
	Difference mixed.Estimate
	Low, High  float64 // 95 of 100 for all levels of the term together
	P, PHolm   float64 // of no difference, alone and all levels having been looked at
	Few        bool
}

// term is a term with the names of its levels.
type term struct {
	mixed.Term
	names []string
	count []int
}

// Compare takes every quality of the pieces apart. It ends early only when ctx does,
// with its error.
func Compare(ctx context.Context, r lab.Results) ([]Comparison, error) {
	var out []Comparison
	for q := range r.Qualities {
		var rows []lab.Result
		for _, x := range r.Rows {
			if x.Kind == lab.Piece && x.Quality == q && !math.IsNaN(x.Value) {
				rows = append(rows, x)
			}
		}
		terms, left := termsOf(r, rows)
		if !made(terms, left) {
			continue // neither barley nor vessel is noted
		}
		c := Comparison{Quality: q, Figures: len(rows), Pieces: pieces(rows), Left: left}
		if len(rows) < leastFigures {
			c.Few = true
			out = append(out, c)
			continue
		}
		err := c.fit(ctx, rows, terms)
		var wrong *mixed.Error
		if errors.As(err, &wrong) {
			c.Failed = err
		} else if err != nil {
			return out, err
		}
		out = append(out, c)
	}
	return out, nil
}

// made reports whether anything is noted of how the pieces were made.
func made(terms []term, left []Left) bool {
	return slices.ContainsFunc(terms, func(t term) bool { return t.Name != Test }) || slices.ContainsFunc(left, func(l Left) bool { return l.Term != Test })
}

func pieces(rows []lab.Result) int {
	seen := map[string]bool{}
	for _, x := range rows {
		seen[x.Sample] = true
	}
	return len(seen)
}

// termsOf makes the terms that the figures can tell apart.
func termsOf(r lab.Results, rows []lab.Result) (terms []term, left []Left) {
	add := func(name string, of func(lab.Result) string) {
		t := newTerm(name, rows, of)
		noted := slices.ContainsFunc(t.names, func(n string) bool { return n != "" })
		switch {
		case !noted:
		case t.Levels < 2:
			left = append(left, Left{name, OneLevel, ""})
		case t.Levels == len(rows):
			left = append(left, Left{name, Alone, ""})
		default:
			for _, before := range terms {
				if same(t.Level, before.Level) {
					left = append(left, Left{name, Mingled, before.Name})
					return
				}
			}
			terms = append(terms, t)
		}
	}
	add(Barley, func(x lab.Result) string { return x.Lot })
	for i, v := range r.Vessels {
		add(v, func(x lab.Result) string { return x.Vessels[i] })
	}
	add(Test, benchNames(rows))
	if n := pieces(rows); n < len(rows) && len(terms) > 0 {
		add(Sample, func(x lab.Result) string { return x.Sample })
	}
	return terms, left
}

// benchNames names a bench by the laboratory if that tells all apart, else by all
// that is known of it.
func benchNames(rows []lab.Result) func(lab.Result) string {
	benches := map[string]lab.Bench{}
	for _, x := range rows {
		if b, known := benches[x.Laboratory]; known && b != x.Bench {
			return func(x lab.Result) string { return x.Bench.String() }
		}
		benches[x.Laboratory] = x.Bench
	}
	return func(x lab.Result) string { return x.Laboratory }
}

func newTerm(name string, rows []lab.Result, of func(lab.Result) string) term {
	t := term{Term: mixed.Term{Name: name, Random: true}}
	for _, x := range rows {
		level := slices.Index(t.names, of(x))
		if level < 0 {
			level = len(t.names)
			t.names, t.count = append(t.names, of(x)), append(t.count, 0)
		}
		t.Level = append(t.Level, level)
		t.count[level]++
	}
	t.Levels = len(t.names)
	return t
}

// same reports whether two terms part the figures alike. Levels are numbered in the
// order in which they come, so that the same parting has the same numbers.
func same(a, b []int) bool { return slices.Equal(a, b) }

// fit takes the figures apart; terms that the model finds to be one with others are
// left out one after the other.
func (c *Comparison) fit(ctx context.Context, rows []lab.Result, terms []term) error {
	y := make([]float64, len(rows))
	for i, x := range rows {
		y[i] = x.Value
	}
	for len(terms) > 0 {
		f, err := model(y, terms, "", "").Fit(ctx, mixed.Options{})
		var wrong *mixed.Error
		if errors.As(err, &wrong) && wrong.Problem == mixed.Mingled {
			c.Left = append(c.Left, Left{wrong.Term, Mingled, ""})
			terms = slices.DeleteFunc(terms, func(t term) bool { return t.Name == wrong.Term })
			continue
		}
		if err != nil {
			return err
		}
		if c.Mean = f.Mean().Value; math.IsNaN(c.Mean) {
			c.Mean = 0
		}
		if err := c.parts(ctx, f, y, terms); err != nil {
			return err
		}
		return c.levels(ctx, y, terms)
	}
	return nil
}

// model is the model of the figures, without one term and with one term fixed.
func model(y []float64, terms []term, without, fixed string) mixed.Model {
	m := mixed.Model{Y: y}
	for _, t := range terms {
		if t.Name == without {
			continue
		}
		one := t.Term
		one.Random = t.Name != fixed
		m.Terms = append(m.Terms, one)
	}
	return m
}

// parts is what each term takes, and how sure it is that it takes anything: by how
// much the likelihood falls without it.
func (c *Comparison) parts(ctx context.Context, f *mixed.Fit, y []float64, terms []term) error {
	whole := 0.0
	for _, x := range f.Components {
		whole += x.Variance
	}
	var p []float64
	for _, x := range f.Components {
		part := Part{Term: x.Name, Levels: x.Levels, Variance: x.Variance, SD: math.Sqrt(x.Variance), Share: x.Variance / whole, P: math.NaN(), PHolm: math.NaN()}
		low, high, err := f.Interval(ctx, x.Name, confidence)
		if err != nil {
			return err
		}
		part.Low, part.High = math.Sqrt(low), math.Sqrt(high)
		if x.Name != Chance {
			without, err := model(y, terms, x.Name, "").Fit(ctx, mixed.Options{})
			if err != nil {
				return err
			}
			part.P = absentChance(2 * (f.LogLik - without.LogLik))
		}
		c.Parts, p = append(c.Parts, part), append(p, part.P)
	}
	most := 0.0
	for i, x := range mixed.Holm(p) {
		part := &c.Parts[i]
		part.PHolm = x
		if x < 1-confidence && part.Variance > most && part.Term != Sample {
			most, c.Cause = part.Variance, part.Term
		}
	}
	return nil
}

// absentChance is the chance of so large a fall of twice the log-likelihood if the
// variance is truly zero: half of the time there is none at all.
func absentChance(fall float64) float64 {
	if fall <= 0 {
		return 1
	}
	return 0.5 * distuv.ChiSquared{K: 1}.Survival(fall)
}

// levels holds each level of the terms against the others.
func (c *Comparison) levels(ctx context.Context, y []float64, terms []term) error {
	for _, t := range terms {
		if t.Name == Sample {
			continue
		}
		f, err := model(y, terms, "", t.Name).Fit(ctx, mixed.Options{})
		var wrong *mixed.Error
		if errors.As(err, &wrong) {
			c.Left = append(c.Left, Left{t.Name, Mingled, wrong.Term})
			continue
		}
		if err != nil {
			return err
		}
		set, err := f.Means(t.Name)
		if err != nil {
			return err
		}
		c.Levels = append(c.Levels, levelsOf(set, t)...)
	}
	return nil
}

// levelsOf holds each mean of a set against the plain mean of the others.
func levelsOf(set *mixed.Set, t term) []Level {
	n := len(set.Value)
	var out []Level
	var p []float64
	for i := range n {
		l := Level{Term: t.Name, Name: t.names[i], Figures: t.count[i], Few: t.count[i] < leastPieces, Difference: against(set, i), Low: math.NaN(), High: math.NaN(), P: math.NaN()}
		if d := l.Difference; d.Known() && d.SE > 0 && d.Freedom > 0 {
			student := distuv.StudentsT{Sigma: 1, Nu: d.Freedom}
			l.P = 2 * student.Survival(math.Abs(d.Value)/d.SE)
			each := math.Pow(confidence, 1/float64(looks(n))) // of all together (Šidák)
			half := student.Quantile((1+each)/2) * d.SE
			l.Low, l.High = d.Value-half, d.Value+half
		}
		out, p = append(out, l), append(p, l.P)
	}
	for i, x := range mixed.Holm(p[:looks(n)]) {
		out[i].PHolm = x
	}
	if n == 2 {
		out[1].PHolm = out[0].PHolm
	}
	return out
}

// looks is how many comparisons n levels make: of two there is but one.
func looks(n int) int {
	if n == 2 {
		return 1
	}
	return n
}

// against is level i less the mean of the others. Its degrees of freedom are the
// fewest of its differences from each of them.
func against(set *mixed.Set, i int) mixed.Estimate {
	n := len(set.Value)
	weight := make([]float64, n)
	e := mixed.Estimate{Freedom: math.Inf(1)}
	for j := range weight {
		weight[j] = -1 / float64(n-1)
		if j == i {
			weight[j] = 1
			continue
		}
		if d := set.Difference(i, j); d.Freedom < e.Freedom {
			e.Freedom = d.Freedom
		}
	}
	variance := 0.0
	for j := range weight {
		e.Value += weight[j] * set.Value[j]
		for k := range weight {
			variance += weight[j] * weight[k] * set.Error.At(j, k)
		}
	}
	e.SE = math.Sqrt(math.Max(variance, 0))
	return e
}
