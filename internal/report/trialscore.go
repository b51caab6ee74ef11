package report

import (
	"io"
	"math"

	"awn/mixed"
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

func (a TrialAccount) scoreText(p *printer, r variety.Ruler) {
	u := a.Units
	var wishes []string
	for _, w := range r.Customer.Wishes {
		wishes = append(wishes, u.Say("rank.wish", "trait", w.Trait, "weight", u.Number(w.Weight, 2)))
	}
	p.wrapped("", u.Say("rank.score", "customer", u.Say("rank.customer."+r.Customer.Name), "wishes", u.List(wishes)))
	p.grid(scoreWidths, "", u.Say("rank.points"), u.Say("rank.band"), u.Say("rank.beats"), u.Say("rank.first"), u.Say("rank.top"), u.Say("rank.place"))
	span := func(low, high float64, decimals int) string {
		return u.Say("rank.range", "low", u.Number(low, decimals), "high", u.Number(high, decimals))
	}
	for i, s := range r.Scores {
		switch {
		case len(s.Culled) > 0:
			p.wrapped("  "+s.Entry+": ", u.Say("rank.culled", "traits", u.List(s.Culled)))
		case s.Entry == r.Check:
			p.grid(scoreWidths, "  "+s.Entry, "0", "", "", hundred(s.First, u), hundred(s.Top, u), span(s.Rank.Low, s.Rank.High, 0))
		case i < mostEntries:
			p.grid(scoreWidths, "  "+s.Entry, u.Number(s.Value.Mid, 2), span(s.Value.Low, s.Value.High, 2), hundred(s.BeatsCheck, u),
				hundred(s.First, u), hundred(s.Top, u), span(s.Rank.Low, s.Rank.High, 0))
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

// JSON writes the account; figures of a trait are in its own unit.
func (a TrialAccount) JSON(w io.Writer) error {
	out := object{
		"entries": len(a.Trials.Entries()), "environments": a.Trials.Environments(), "records": len(a.Trials.Records),
		"traits": each(a.Traits, trialTrait),
	}.text("trial", a.Name).text("check", a.Check)
	var seed *uint64
	if r := a.Ranking; r != nil {
		out["draws"], seed = a.Draws, &a.Seed
		out["scores"] = each(r.Rulers, ruler)
		out["front"] = r.Front
	}
	remarks := a.remarks()
	fs := each(remarks, func(r variety.Remark) object {
		o := findingObject(r.Finding).text("trait", r.Trait).text("entry", r.Entry).text("environment", r.Environment).text("term", r.Term)
		if r.Line > 0 {
			o["line"] = r.Line
		}
		return o
	})
	return enveloped(w, "ranking/1", a.Version, a.Inputs, seed, out, fs)
}

func estimate(e mixed.Estimate) object {
	o := object{}.num("value", e.Value)
	if len(o) > 0 {
		o.num("se", e.SE).num("freedom", e.Freedom)
	}
	return o
}

func trialTrait(t TrialTrait) object {
	x := t.Analysis
	out := object{"analysed": !t.Failed, "direction": x.Trait.Direction}.text("trait", x.Trait.Name).text("unit", x.Trait.Unit)
	if t.Failed {
		return out
	}
	h := x.Heritability
	out["mean"] = estimate(x.Mean)
	out["heritability"] = object{}.num("cullis", h.Cullis).num("piepho", h.Piepho).num("balanced", h.Balanced)
	out["components"] = each(x.Components, func(c variety.Component) object {
		return object{"term": c.Name, "open": math.IsInf(c.High, 1)}.num("variance", c.Variance).num("se", c.SE).num("low", c.Low).num("high", c.High)
	})
	out["entries"] = each(x.Entries, func(e variety.Entry) object {
		return object{"entry": e.Name, "records": e.Plots, "environments": e.Environments, "mean": estimate(e.Mean), "effect": estimate(e.Effect)}.
			num("raw", e.Raw).num("reliability", e.Reliability)
	})
	out["against"] = each(t.Against, func(c variety.Comparison) object {
		return object{"entry": c.Entry, "difference": estimate(c.Difference), "expected": estimate(c.Expected)}.
			num("lsd_unadjusted", c.LSD).num("dunnett", c.Need).num("p_unadjusted", c.P).num("p_dunnett", c.PDunnett).
			num("beats", c.Beats).num("beats_all_looked", c.BeatsAllLooked)
	})
	return out
}

func ruler(r variety.Ruler) object {
	return object{
		"customer": r.Customer.Name,
		"wishes":   each(r.Customer.Wishes, func(w variety.Wish) object { return object{"trait": w.Trait}.num("weight", w.Weight) }),
		"entries": each(r.Scores, func(s variety.Score) object {
			o := object{"entry": s.Entry, "parts": s.Parts}.num("score", s.Value.Mid).num("p5", s.Value.Low).num("p95", s.Value.High).
				num("beats", s.BeatsCheck).num("first", s.First).num("top", s.Top).num("rank_p5", s.Rank.Low).num("rank_p95", s.Rank.High)
			if len(s.Guessed) > 0 {
				o["guessed"] = s.Guessed
			}
			return o
		}),
	}
}
