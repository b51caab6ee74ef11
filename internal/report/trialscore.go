package report

import (
	"math"
	"slices"

	"awn/variety"
)

var scoreWidths = []int{21, 8, 18, 8, 8, 8, 9}

// scoresText writes the score of each customer.
func (a TrialAccount) scoresText(p *printer) {
	if a.Ranking == nil {
		return
	}
	for _, r := range a.Ranking.Rulers {
		p.line("")
		a.scoreText(p, r)
	}
	if u := a.Units; len(a.Ranking.Front) > 0 {
		p.line("")
		p.wrapped("", u.Say("rank.front", "names", u.List(a.Ranking.Front)))
	}
}

// customer is the name of one for whom varieties are scored: the reader's word for
// the usual three, the house's own for others.
func (a TrialAccount) customer(name string) string {
	switch name {
	case "grower", "maltster", "brewer":
		return a.Units.Say("rank.customer." + name)
	}
	return name
}

// culled is the traits whose hard limit a variety misses, each with its chance.
func (a TrialAccount) culled(r variety.Ruler, s variety.Score) (out []string) {
	for i, w := range r.Customer.Wishes {
		if slices.Contains(s.Culled, w.Trait) {
			out = append(out, a.Units.Say("rank.culled.by", "trait", w.Trait, "odds", hundred(s.Limits[i], a.Units), "limit", a.hardLimit(w)))
		}
	}
	return out
}

// hardLimit is a hard limit in words; "" where there is none.
func (a TrialAccount) hardLimit(w variety.Wish) string {
	u := a.Units
	number := func(x float64) string { return u.Number(x, decimalsOf(x)) }
	var out []string
	if !math.IsNaN(w.Min) {
		out = append(out, u.Say("limit.least", "least", number(w.Min)))
	}
	if !math.IsNaN(w.Max) {
		out = append(out, u.Say("limit.most", "most", number(w.Max)))
	}
	return u.List(out)
}

// decimalsOf is how many decimals a limit was written with, up to three.
func decimalsOf(x float64) int {
	const most = 3
	for n := range most {
		if scaled := x * math.Pow(10, float64(n)); math.Abs(scaled-math.Round(scaled)) < 1e-9*math.Max(1, math.Abs(scaled)) {
			return n
		}
	}
	return most
}

func (a TrialAccount) scoreText(p *printer, r variety.Ruler) {
	u := a.Units
	p.wrapped("", a.ruled(r))
	p.grid(scoreWidths, "", u.Say("rank.points"), u.Say("rank.band"), u.Say("rank.beats"), u.Say("rank.first"), u.Say("rank.top"), u.Say("rank.place"))
	for i, s := range r.Scores {
		switch {
		case len(s.Culled) > 0:
			p.wrapped("  "+s.Entry+": ", u.Say("rank.culled", "traits", u.List(a.culled(r, s))))
		case s.Entry == r.Check:
			p.grid(scoreWidths, "  "+s.Entry, "0", "", "", hundred(s.First, u), hundred(s.Top, u), a.span(s.Rank.Low, s.Rank.High, 0))
		case i < mostEntries:
			p.grid(scoreWidths, "  "+s.Entry, u.Number(s.Value.Mid, 2), a.span(s.Value.Low, s.Value.High, 2), hundred(s.BeatsCheck, u),
				hundred(s.First, u), hundred(s.Top, u), a.span(s.Rank.Low, s.Rank.High, 0))
		}
	}
	a.leftText(p, len(r.Scores))
}

// better reports whether a variety stands beyond what Dunnett asks, on the good
// side.
func better(t variety.Trait, c variety.Comparison) bool {
	switch t.Direction {
	case variety.Higher:
		return c.Difference.Value > c.Need
	case variety.Lower:
		return -c.Difference.Value > c.Need
	}
	return false
}
