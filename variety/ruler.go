package variety

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"awn/finding"
	"awn/odds"
)

// lower is the rows of the Cholesky factor of m, without what lies right of the
// diagonal; the roots of the diagonal alone where m has none.
func lower(m *mat.SymDense) [][]float64 {
	n := m.SymmetricDim()
	var cholesky mat.Cholesky
	if n == 0 || !cholesky.Factorize(m) {
		out := unitRows(n)
		for i := range n {
			out[i][i] = math.Sqrt(math.Max(0, m.At(i, i)))
		}
		return out
	}
	var l mat.TriDense
	cholesky.LTo(&l)
	out := make([][]float64, n)
	for i := range n {
		for j := range i + 1 {
			out[i] = append(out[i], l.At(i, j))
		}
	}
	return out
}

func unitRows(n int) [][]float64 {
	out := make([][]float64, n)
	for i := range n {
		out[i] = make([]float64, i+1)
		out[i][i] = 1
	}
	return out
}

// rule reads the ruler of one customer from the draws.
func (r *ranking) rule(c Customer, o RankOptions) (Ruler, []Remark) {
	out := Ruler{Customer: c, Check: r.entries[r.check], Scores: make([]Score, len(r.entries))}
	var remarks []Remark
	values := make([][]float64, len(r.entries)) // by entry, then draw
	for i, entry := range r.entries {
		out.Scores[i] = Score{Entry: entry}
		values[i] = make([]float64, o.Draws)
	}
	for _, w := range c.Wishes {
		d := r.find(w.Trait)
		switch {
		case d == nil:
			remarks = append(remarks, remark("rank.trait.missing", finding.Caution, w.Trait))
		case d.spread == 0 && w.Weight != 0:
			remarks = append(remarks, remark("rank.trait.no-variance", finding.Note, w.Trait))
		}
		r.grant(w, d, out.Scores, values, c.needed())
	}
	r.chances(out.Scores, values, o)
	slices.SortStableFunc(out.Scores, func(a, b Score) int {
		return cmp.Or(cmp.Compare(min(len(a.Culled), 1), min(len(b.Culled), 1)), cmp.Compare(b.Value.Mid, a.Value.Mid))
	})
	return out, remarks
}

// grant adds what one wish makes of each entry. d is nil if the trait is missing.
func (r *ranking) grant(w Wish, d *traitDraws, scores []Score, values [][]float64, needed float64) {
	for i := range scores {
		s := &scores[i]
		if d == nil {
			s.Parts, s.Limits = append(s.Parts, 0), append(s.Limits, nan)
			continue
		}
		if !d.known[i] {
			s.Guessed = append(s.Guessed, w.Trait)
		}
		part := 0.0
		if d.spread > 0 {
			part = w.Weight * (d.better(d.middle[i]) - d.better(d.middle[r.check])) / d.spread
		}
		limit := d.holds(w, i)
		s.Parts, s.Limits = append(s.Parts, part), append(s.Limits, limit)
		if limit < needed {
			s.Culled = append(s.Culled, w.Trait)
		}
		if d.spread > 0 {
			for k, figures := range d.figures {
				values[i][k] += w.Weight * (d.better(figures[i]) - d.better(figures[r.check])) / d.spread
			}
		}
	}
}

// holds is the share of draws in which the hard limit of a wish holds for an
// entry; NaN if there is none.
func (d *traitDraws) holds(w Wish, entry int) float64 {
	if math.IsNaN(w.Min) && math.IsNaN(w.Max) {
		return nan
	}
	n := 0
	for _, figures := range d.figures {
		if x := figures[entry]; !(x < w.Min) && !(x > w.Max) {
			n++
		}
	}
	return float64(n) / float64(len(d.figures))
}

// chances counts ranks over the draws.
func (r *ranking) chances(scores []Score, values [][]float64, o RankOptions) {
	ranks := rankCounts(scores, values, o.Draws)
	share := 1 / float64(o.Draws)
	for i := range scores {
		s := &scores[i]
		var drawn []float64 // ranks, rising
		for rank, n := range ranks[i] {
			drawn = append(drawn, slices.Repeat([]float64{float64(rank + 1)}, n)...)
			if rank == 0 {
				s.First = float64(n) * share
			}
			if rank < o.Top {
				s.Top += float64(n) * share
			}
		}
		for _, v := range values[i] {
			if v > 0 {
				s.BeatsCheck += share
			}
		}
		s.Value = odds.FromDraws(values[i], odds.Measured)
		s.Rank = odds.FromDraws(drawn, odds.Measured)
		if i == r.check {
			s.BeatsCheck = nan
			s.Value = odds.Exact(0, odds.Measured)
		}
	}
}

// rankCounts is, for each entry, how often it takes each rank among those that are
// not culled; nothing for one that is.
func rankCounts(scores []Score, values [][]float64, draws int) [][]int {
	type placed struct {
		value float64
		entry int
	}
	var order []placed
	for i := range scores {
		if len(scores[i].Culled) == 0 {
			order = append(order, placed{entry: i})
		}
	}
	out := make([][]int, len(scores))
	for _, x := range order {
		out[x.entry] = make([]int, len(order))
	}
	for k := range draws {
		for at := range order {
			order[at].value = values[order[at].entry][k]
		}
		slices.SortFunc(order, func(a, b placed) int { return cmp.Or(cmp.Compare(b.value, a.value), a.entry-b.entry) })
		for rank, x := range order {
			out[x.entry][rank]++
		}
	}
	return out
}

// front lists the entries, culled by no customer, that no other beats on every
// rule.
func (r *ranking) front(rulers []Ruler) []string {
	points := map[string][]float64{}
	culled := map[string]bool{}
	for _, ruler := range rulers {
		for _, s := range ruler.Scores {
			points[s.Entry] = append(points[s.Entry], s.Value.Mid)
			culled[s.Entry] = culled[s.Entry] || len(s.Culled) > 0
		}
	}
	var out []string
	for _, entry := range r.entries {
		beaten := slices.ContainsFunc(r.entries, func(other string) bool {
			return !culled[other] && dominates(points[other], points[entry])
		})
		if !beaten && !culled[entry] {
			out = append(out, entry)
		}
	}
	return out
}

// dominates reports whether a is nowhere worse than b and somewhere better.
func dominates(a, b []float64) bool {
	better := false
	for i := range a {
		if a[i] < b[i] {
			return false
		}
		better = better || a[i] > b[i]
	}
	return better
}
