package course

import (
	"math"
	"slices"

	"awn/malt"
	"awn/odds"
)

// Ensemble is a piece with the odds of each of its figures.
type Ensemble struct {
	Outcome *Outcome // the piece as it stands, at the middle of all that is uncertain
	Asked   int
	Done    int // draws made; fewer than asked where it was stopped
	Failed  int // of those, that could not be computed: they count as out of specification
	// Faults are the first of the failures.
	Faults []Fault
	Seed   uint64

	Bands []Band
	Curve CurveBand
	Lines []Line // of the specification, in its order
	All   Chance // that every line that can be said is met

	scheme *scheme
	number int      // of the piece in the scheme
	drawn  []sample // those that could be computed
	draw   []int    // which draw each of them is
}

// Fault is a draw that could not be computed.
type Fault struct {
	Draw int
	Err  error
}

// Band is a figure of the account with its odds.
type Band struct {
	Key           string
	P10, P50, P90 float64
	Known         int // draws that have the figure
}

// Chance is how often something held.
type Chance struct{ Held, Of int }

// Share is the chance itself.
//
//	p = held / of
//
// Definition.
// Valid: NaN of nothing.
func (c Chance) Share() float64 { return odds.Proportion{Hits: c.Held, Of: c.Of}.Fraction() }

// Line is one line of the specification with its odds.
type Line struct {
	Limit         malt.Limit
	In            Chance // failed draws count as out
	Unsaid        int    // draws that have no such figure
	P10, P50, P90 float64
	Hump          Hump
}

// Hump is how the draws lie along a figure: heights, the tallest 1, at equal
// steps from From to To.
type Hump struct {
	From, To float64
	Height   []float64
}

// mostFaults is how many failed draws are told one by one.
const mostFaults = 3

// ensemble gathers the draws of piece number n, in the order of the draws.
func (s *scheme) ensemble(n int, drawn []sample, asked Sampling) *Ensemble {
	e := &Ensemble{Outcome: s.outcomes[n], Asked: asked.Draws, Done: len(drawn), Seed: asked.Seed, scheme: s, number: n}
	for i := range drawn {
		if drawn[i].fault == nil {
			e.drawn, e.draw = append(e.drawn, drawn[i]), append(e.draw, i)
			continue
		}
		e.Failed++
		if len(e.Faults) < mostFaults {
			e.Faults = append(e.Faults, Fault{i, drawn[i].fault})
		}
	}
	for k, key := range e.keys() {
		if b := e.band(key, k); b.Known > 0 {
			e.Bands = append(e.Bands, b)
		}
	}
	e.Curve = curveBand(e.Outcome, e.drawn)
	e.lines()
	return e
}

// band is the odds of figure number k.
func (e *Ensemble) band(key string, k int) Band {
	b := Band{Key: key}
	values := known(e.column(func(s *sample) float64 { return s.numbers[k] }))
	b.Known = len(values)
	b.P10, b.P50, b.P90 = tenths(values)
	return b
}

// column is one figure of every draw that could be computed.
func (e *Ensemble) column(of func(*sample) float64) []float64 {
	out := make([]float64, len(e.drawn))
	for i := range e.drawn {
		out[i] = of(&e.drawn[i])
	}
	return out
}

// lines are the odds of the specification.
func (e *Ensemble) lines() {
	limits := e.Outcome.Piece.Specification.Limits
	e.All.Of = e.Done
	for i, l := range limits {
		line := Line{Limit: l, In: Chance{Of: e.Failed}}
		for k := range e.drawn {
			switch e.drawn[k].passes[i] {
			case malt.Passes:
				line.In.Held++
				line.In.Of++
			case malt.Fails:
				line.In.Of++
			default:
				line.Unsaid++
			}
		}
		values := known(e.column(func(s *sample) float64 { return s.limits[i] }))
		line.P10, line.P50, line.P90 = tenths(values)
		line.Hump = humpOf(values)
		e.Lines = append(e.Lines, line)
	}
	for k := range e.drawn {
		if len(limits) > 0 && e.drawn[k].meets {
			e.All.Held++
		}
	}
}

// said are the verdicts that could be given.
func said(verdicts []malt.Verdict) []malt.Verdict {
	return slices.DeleteFunc(verdicts, func(v malt.Verdict) bool { return v.Word == malt.CannotSay })
}

// Find is the odds of a figure by its key.
func (e *Ensemble) Find(key string) (Band, bool) {
	i := slices.IndexFunc(e.Bands, func(b Band) bool { return b.Key == key })
	if i < 0 {
		return Band{}, false
	}
	return e.Bands[i], true
}

// Values are a figure in each draw that has it, in the order of the draws.
func (e *Ensemble) Values(key string) []float64 {
	k := slices.Index(e.keys(), key)
	if k < 0 {
		return nil
	}
	return known(e.column(func(s *sample) float64 { return s.numbers[k] }))
}

// tenths sorts the values and gives their 10th, 50th and 90th percentile; NaN of
// none.
func tenths(values []float64) (p10, p50, p90 float64) {
	slices.Sort(values)
	return odds.Quantile(values, 0.1), odds.Quantile(values, 0.5), odds.Quantile(values, 0.9)
}

// known drops what is not known.
func known(values []float64) []float64 {
	return slices.DeleteFunc(values, math.IsNaN)
}

// humpSteps is how finely a hump is drawn.
const humpSteps = 40

// humpOf smooths sorted values by a normal curve about each, as wide as
// Silverman's rule has it.
//
// Recalled: Silverman 1986.
func humpOf(sorted []float64) Hump {
	n := len(sorted)
	if n < 2 || !(sorted[n-1] > sorted[0]) {
		return Hump{From: nan, To: nan}
	}
	spread := (odds.Quantile(sorted, 0.75) - odds.Quantile(sorted, 0.25)) / 1.349
	if !(spread > 0) {
		spread = (sorted[n-1] - sorted[0]) / 4
	}
	width := 0.9 * spread * math.Pow(float64(n), -0.2)
	h := Hump{From: sorted[0] - 2*width, To: sorted[n-1] + 2*width, Height: make([]float64, humpSteps+1)}
	for i := range h.Height {
		x := h.From + (h.To-h.From)*float64(i)/humpSteps
		for _, v := range sorted {
			z := (x - v) / width
			h.Height[i] += math.Exp(-z * z / 2)
		}
	}
	tallest := slices.Max(h.Height)
	for i := range h.Height {
		h.Height[i] /= tallest
	}
	return h
}
