package lab

import (
	"cmp"
	"math"
	"slices"
)

// Account is what a table of results says of those who made them.
type Account struct {
	Results  Results
	Charts   []Chart
	Benches  []Against
	Repeats  []RepeatsOf
	Rings    []Ring
	Changes  []Change
	Remarks  []Remark // weightiest first
	RuleRate map[Rule]float64
	AllRate  float64 // readings between false alarms of all rules together
}

// Against is two benches compared on the samples that both read.
type Against struct {
	A, B    Bench
	Quality int
	Pairs   []Pair
	Agreement
	Few bool // too few samples to say anything
}

// RepeatsOf is how a bench repeats itself.
type RepeatsOf struct {
	Bench
	Quality int
	Mean    float64
	Repeats
}

// Change is a bench that was followed by another of the same laboratory on the same
// check sample.
type Change struct {
	Before, After Bench
	Quality       int
	Sample        string
	Day           float64 // of the first reading of the later one
	Step          float64 // in the mean of the check sample
	Low, High     float64
}

// Control looks at all that a table of results tells of the laboratory.
func (r Results) Control(o Options) Account {
	a := Account{Results: r, Charts: r.charts(o), Rings: r.rings(), RuleRate: map[Rule]float64{}, AllRate: FalseAlarms(Rules()...)}
	for _, rule := range Rules() {
		a.RuleRate[rule] = FalseAlarms(rule)
	}
	a.Benches, a.Repeats = r.benches(), r.repeats()
	a.Changes = changes(a.Charts)
	a.remark()
	return a
}

// read is the results of one bench for one sample in one quality.
type read struct {
	bench   Bench
	quality int
	sample  string
}

// gathered are the figures by who read what, in the order of the table.
func (r Results) gathered(kinds ...Kind) (order []read, rows map[read][]Result) {
	rows = map[read][]Result{}
	for _, x := range r.Rows {
		if math.IsNaN(x.Value) || !slices.Contains(kinds, x.Kind) {
			continue
		}
		k := read{x.Bench, x.Quality, x.Sample}
		if rows[k] == nil {
			order = append(order, k)
		}
		rows[k] = append(rows[k], x)
	}
	return order, rows
}

func valuesOf(rows []Result) []float64 {
	out := make([]float64, len(rows))
	for i, x := range rows {
		out[i] = x.Value
	}
	return out
}

// benches compares every two benches that read samples in common.
func (r Results) benches() (out []Against) {
	order, rows := r.gathered(Piece)
	type two struct {
		a, b    Bench
		quality int
	}
	at := map[two]int{}
	for i, x := range order {
		for _, y := range order[i+1:] {
			if x.quality != y.quality || x.sample != y.sample {
				continue
			}
			a, b := x, y
			if _, turned := at[two{y.bench, x.bench, x.quality}]; turned {
				a, b = y, x
			}
			k := two{a.bench, b.bench, a.quality}
			if _, known := at[k]; !known {
				at[k] = len(out)
				out = append(out, Against{A: a.bench, B: b.bench, Quality: a.quality})
			}
			p := Pair{Sample: x.sample, A: plainMean(valuesOf(rows[a])), B: plainMean(valuesOf(rows[b])), NA: len(rows[a]), NB: len(rows[b])}
			out[at[k]].Pairs = append(out[at[k]].Pairs, p)
		}
	}
	for i := range out {
		x := &out[i]
		var all []float64
		for _, p := range x.Pairs {
			all = append(all, p.A, p.B)
		}
		row := Result{Bench: x.A, Quality: x.Quality, Matrix: r.matrixOf(x.A, x.Quality)}
		r95, repeat95 := math.NaN(), math.NaN()
		if x.A.Method == x.B.Method {
			r95, repeat95 = r.Published(row, plainMean(all))
		}
		var ok bool
		x.Agreement, ok = Agree(x.Pairs, 1, r95, repeat95)
		x.Few = !ok
	}
	return out
}

// matrixOf is what a bench reads a quality of.
func (r Results) matrixOf(b Bench, quality int) string {
	for _, x := range r.Rows {
		if x.Bench == b && x.Quality == quality && x.Kind != Check && x.Matrix != "" {
			return x.Matrix
		}
	}
	return ""
}

// repeats says of each bench how it repeats itself: on samples and, by day, on check
// samples.
func (r Results) repeats() (out []RepeatsOf) {
	type who struct {
		bench   Bench
		quality int
	}
	samples := map[who][][]float64{}
	var whos []who
	type once struct {
		read
		day   float64
		batch string
	}
	at := map[once]int{}
	for _, x := range r.Rows {
		if math.IsNaN(x.Value) {
			continue
		}
		w := who{x.Bench, x.Quality}
		k := once{read{x.Bench, x.Quality, x.Sample}, 0, x.Batch}
		if !math.IsNaN(x.Day) {
			k.day = x.Day
		}
		i, known := at[k]
		if !known {
			if samples[w] == nil {
				whos = append(whos, w)
			}
			i = len(samples[w])
			at[k], samples[w] = i, append(samples[w], nil)
		}
		samples[w][i] = append(samples[w][i], x.Value)
	}
	for _, w := range whos {
		twice := slices.DeleteFunc(slices.Clone(samples[w]), func(x []float64) bool { return len(x) < 2 })
		mean := plainMean(slices.Concat(twice...))
		_, published := r.Published(Result{Bench: w.bench, Quality: w.quality, Matrix: r.matrixOf(w.bench, w.quality)}, mean)
		if rep, ok := Repeated(twice, published); ok {
			out = append(out, RepeatsOf{w.bench, w.quality, mean, rep})
		}
	}
	return out
}

// rings scores the results of ring tests: against the assigned value of the table,
// or against the robust mean of all where enough took part.
func (r Results) rings() (out []Ring) {
	order, rows := r.gathered(Round)
	for _, k := range order {
		row := rows[k][0]
		var all []float64
		laboratories := map[string]bool{}
		for _, other := range order {
			if other.quality == k.quality && other.sample == k.sample {
				all = append(all, plainMean(valuesOf(rows[other])))
				laboratories[other.bench.Laboratory] = true
			}
		}
		x := Ring{Bench: k.bench, Quality: k.quality, Sample: k.sample, Line: row.Line, Day: row.Day, X: plainMean(valuesOf(rows[k])),
			Assigned: row.Reference, SD: row.SD, Of: len(laboratories)}
		if mean, sd := Robust(all); len(laboratories) >= leastRing && math.IsNaN(x.Assigned) {
			x.Own, x.Assigned, x.Doubt = true, mean, robustDoubt*sd/math.Sqrt(float64(len(all)))
			if math.IsNaN(x.SD) {
				x.SD = sd
			}
		}
		x.scored()
		out = append(out, x)
	}
	return out
}

// robustDoubt is what a robust mean is in doubt more than a plain one. Recalled: ISO 13528.
const robustDoubt = 1.25

// changes finds benches of a laboratory that read the same check sample one after the
// other.
func changes(charts []Chart) (out []Change) {
	for i := range charts {
		for j := range charts {
			a, b := &charts[i], &charts[j]
			if i == j || a.Quality != b.Quality || a.Laboratory != b.Laboratory || len(a.Points) == 0 || len(b.Points) == 0 {
				continue
			}
			s, t := a.Segments[len(a.Segments)-1], b.Segments[0]
			if s.Sample != t.Sample || s.Batch != t.Batch || a.Points[s.To].Day >= b.Points[t.From].Day {
				continue
			}
			_, x := a.means(s)
			_, y := b.means(t)
			step, half := differ(slices.DeleteFunc(x, math.IsNaN), slices.DeleteFunc(y, math.IsNaN))
			out = append(out, Change{a.Bench, b.Bench, a.Quality, s.Sample, b.Points[t.From].Day, step, step - half, step + half})
		}
	}
	slices.SortStableFunc(out, func(x, y Change) int { return cmp.Compare(x.Day, y.Day) })
	return out
}
