package report

import (
	"math"

	"awn/internal/words"
	"awn/malt"
)

// limitRow is one limit of the specification with what was found.
type limitRow struct {
	Name     string
	Found    string // with its band
	Limit    string
	Verdict  string // word and odds, or how far it fails, or why it cannot be said
	Standing string
	Word     malt.Word
}

func (r Report) limitRows() []limitRow {
	out := make([]limitRow, len(r.Outcome.Judged))
	for i, v := range r.Outcome.Judged {
		key := v.Limit.Parameter.Key(v.Limit.Basis)
		out[i] = limitRow{
			Name:     r.Units.Parameter(v.Limit.Parameter),
			Found:    r.Units.Doubt(key, r.toldLimit(i)),
			Limit:    r.limit(key, v.Limit),
			Verdict:  r.verdictOf(key, i),
			Standing: r.Units.Standing(v.Found.Value.Standing),
			Word:     v.Word,
		}
	}
	return out
}

// limit writes the ends of a limit without their unit, which stands beside
// the figure.
func (r Report) limit(key string, l malt.Limit) string {
	n := words.Decimals(key, r.Units)
	least := r.Units.Number(words.Value(key, l.Min, r.Units), n)
	most := r.Units.Number(words.Value(key, l.Max, r.Units), n)
	switch {
	case math.IsNaN(l.Min) && math.IsNaN(l.Max):
		return ""
	case math.IsNaN(l.Max):
		return r.Units.Say("limit.least", "least", least)
	case math.IsNaN(l.Min):
		return r.Units.Say("limit.most", "most", most)
	}
	return r.Units.Say("limit.between", "least", least, "most", most)
}

// verdictOf is the word for a limit with its odds: "passes, 97 in 100", "fails
// by 0.3", "cannot say".
func (r Report) verdictOf(key string, i int) string {
	u, v := r.Units, r.Outcome.Judged[i]
	if r.Odds != nil {
		return r.oddsOf(i)
	}
	word := u.Verdict(v.Word)
	switch {
	case v.Word == malt.Fails:
		return u.Say("verdict.fails-by", "word", word, "margin", r.margin(key, v.Margin))
	case v.Word == malt.Passes && !math.IsNaN(v.Chance):
		return u.Say("verdict.odds", "word", word, "odds", u.Number(math.Floor(100*v.Chance), 0))
	}
	return word
}

// margin writes the room to a limit, or how far it is missed, without sign.
func (r Report) margin(key string, margin float64) string {
	zero := words.Value(key, 0, r.Units)
	x := math.Abs(words.Value(key, math.Abs(margin), r.Units) - zero)
	n := words.Decimals(key, r.Units)
	if x > 0 && x < math.Pow(10, -float64(n)) {
		n += 2 // a miss is never written as 0
	}
	return r.Units.Number(x, n)
}
