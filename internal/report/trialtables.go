package report

import (
	"math"
	"slices"
	"strconv"

	"awn/internal/words"
	"awn/variety"
)

// decimals are those of figures of a trait.
func (a TrialAccount) decimals(t variety.Judged) int { return significant(errorOf(t), 2) }

// title is a trait with its unit.
func (a TrialAccount) title(t variety.Trait) string {
	unit := t.Unit
	if unit == "" {
		unit = a.Units.Say("rank.nounit")
	}
	return a.Units.Say("rank.in", "name", t.Name, "unit", unit)
}

// heads are column heads by the ends of their phrases.
func (a TrialAccount) heads(keys ...string) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		if k != "" {
			out[i] = a.Units.Say("rank.head." + k)
		}
	}
	return out
}

// componentTable is where the differences of a trait come from.
func (a TrialAccount) componentTable(t variety.Judged) table {
	u := a.Units
	out := table{Caption: u.Say("rank.table.parts"), Head: a.heads("", "variance", "se", "low", "high")}
	for _, c := range t.Components {
		n := func(x float64) string { return u.Number(x, significant(x, 3)) }
		high := n(c.High)
		if math.IsInf(c.High, 1) {
			high = u.Say("rank.open")
		}
		out.Rows = append(out.Rows, []string{u.Term(c.Name), n(c.Variance), n(c.SE), n(c.Low), high})
	}
	return out
}

// meansTable is each variety by itself and as predicted.
func (a TrialAccount) meansTable(t variety.Judged) table {
	u, d := a.Units, a.decimals(t)
	out := table{Caption: u.Say("rank.table.means"), Head: a.heads("variety", "mean", "se", "predicted", "pe", "reliability", "records", "environments")}
	for _, i := range order(t.Analysis) {
		e := t.Entries[i]
		out.Rows = append(out.Rows, []string{e.Name, u.Number(e.Mean.Value, d), u.Number(e.Mean.SE, d), u.Number(t.Mean.Value+e.Effect.Value, d),
			u.Number(e.Effect.SE, d), u.Number(e.Reliability, 2), strconv.Itoa(e.Plots), strconv.Itoa(e.Environments)})
	}
	return out
}

// againstTable is each variety against the check.
func (a TrialAccount) againstTable(t variety.Judged) table {
	u, d := a.Units, a.decimals(t)
	out := table{Caption: u.Say("rank.table.against", "check", a.Check),
		Head: append(a.heads("variety", "difference", "se", "df", "lsd", "dunnett", "p"), u.Say("rank.beats"), u.Say("rank.looked", "count", strconv.Itoa(len(t.Against))))}
	for _, i := range order(t.Analysis) {
		at := slices.IndexFunc(t.Against, func(c variety.Comparison) bool { return c.Entry == t.Entries[i].Name })
		if at < 0 {
			continue
		}
		c := t.Against[at]
		out.Rows = append(out.Rows, []string{c.Entry, u.Number(c.Difference.Value, d), u.Number(c.Difference.SE, d), u.Number(c.Difference.Freedom, 0),
			u.Number(c.LSD, d), u.Number(c.Need, d), chanceOf(c.PDunnett, u), hundred(c.Beats, u), hundred(c.BeatsAllLooked, u)})
	}
	return out
}

// equalTable is a quality as found and at equal protein.
func (a TrialAccount) equalTable(t variety.Judged) table {
	u, d, x := a.Units, a.decimals(t), t.Adjusted
	if x == nil {
		return table{}
	}
	out := table{Caption: u.Say("rank.table.equal", "by", x.By, "slope", u.Number(x.Slope.Value, 2), "se", u.Number(x.Slope.SE, 2)),
		Head: append(a.heads("variety", "found", "beats", "at-equal", "beats"), u.Say("rank.head.by", "by", x.By))}
	entries := slices.Clone(x.Entries)
	slices.SortStableFunc(entries, func(p, q variety.AdjustedEntry) int {
		if p.BeatsAtEqual > q.BeatsAtEqual {
			return -1
		}
		return 1
	})
	for _, e := range entries {
		out.Rows = append(out.Rows, []string{e.Entry, u.Number(e.Plain.Value, d), hundred(e.BeatsPlain, u), u.Number(e.Equal.Value, d),
			hundred(e.BeatsAtEqual, u), u.Number(e.ByDifference, 2)})
	}
	return out
}

// shareTable is a share of diseased or lodged, by quasi-likelihood.
func (a TrialAccount) shareTable(t variety.Judged) table {
	u := a.Units
	if t.Shares == nil {
		return table{}
	}
	out := table{Caption: u.Say("rank.table.share", "dispersion", u.Number(t.Shares.Dispersion, 2)), Head: a.heads("variety", "percent", "odds", "low", "high", "less", "p")}
	for i, entry := range t.Shares.Entries {
		at := slices.IndexFunc(t.SharesOf, func(c variety.ShareComparison) bool { return c.Entry == entry })
		if at < 0 {
			out.Rows = append(out.Rows, []string{entry, u.Number(t.Shares.Percent(i), 1), "1", "", "", "", ""})
			continue
		}
		c := t.SharesOf[at]
		out.Rows = append(out.Rows, []string{c.Entry, u.Number(c.Percent, 1), u.Number(math.Exp(c.Difference.Value), 2), u.Number(c.Low, 2), u.Number(c.High, 2),
			hundred(c.Less, u), chanceOf(c.PDunnett, u)})
	}
	return out
}

// stabilityTable is how each variety answers to environments.
func (a TrialAccount) stabilityTable(t variety.Judged) table {
	u, d := a.Units, a.decimals(t)
	if len(t.Stabilities) == 0 {
		return table{}
	}
	caption := u.Say("rank.table.stability", "trait", t.Trait.Name, "environments", strconv.Itoa(len(t.Whole.Environments)))
	if len(t.LeftOut) > 0 {
		caption += " " + u.Say("rank.left-out", "names", u.List(t.LeftOut))
	}
	out := table{Caption: caption, Head: a.heads("variety", "mean", "slope", "se", "p1", "shukla", "wricke", "superiority", "asv")}
	for i, s := range t.Stabilities {
		n := func(x float64) string { return u.Number(x, significant(x, 3)) }
		out.Rows = append(out.Rows, []string{s.Entry, u.Number(s.Mean, d), u.Number(s.Slope, 2), u.Number(s.SlopeSE, 2), u.Number(s.SlopeP, 2),
			n(s.Shukla), n(s.Ecovalence), n(s.Superiority), u.Number(t.AMMI.StabilityValue(i), 2)})
	}
	return out
}

// outlookTable is what trials of other sizes would be worth.
func (a TrialAccount) outlookTable(t variety.Judged) table {
	u := a.Units
	out := table{Caption: u.Say("rank.table.outlook", "trait", t.Trait.Name), Head: append(a.heads("years", "sites", "reliability"), u.Say("rank.head.gain", "unit", t.Trait.Unit))}
	for _, b := range t.Outlook {
		if math.IsNaN(b.Reliability) {
			return table{}
		}
		out.Rows = append(out.Rows, []string{u.Number(b.Years, 0), u.Number(b.Sites, 1), u.Number(b.Reliability, 2), u.Number(b.Gain, a.decimals(t))})
	}
	return out
}

// weightTable is what each index makes of each trait.
func (a TrialAccount) weightTable(g variety.Guide) table {
	u := a.Units
	out := table{Caption: u.Say("rank.table.weights", "customer", a.customer(g.Customer)), Head: a.heads("trait", "smith-hazel", "brings", "base", "brings", "desired", "brings")}
	if len(g.LeftOut) > 0 {
		out.Caption += " " + u.Say("rank.index.without", "names", u.List(g.LeftOut))
	}
	n := func(x float64) string { return u.Number(x, significant(x, 3)) }
	indices := []*variety.Index{g.SmithHazel, g.Base, g.DesiredGain}
	for k, trait := range g.Traits {
		row := []string{trait}
		for _, x := range indices {
			if x == nil {
				row = append(row, "–", "–")
				continue
			}
			row = append(row, n(x.Weights[k]), n(variety.Intensity(tenth)*x.Response[k]))
		}
		out.Rows = append(out.Rows, row)
	}
	if len(g.Traits) > 0 {
		row := []string{u.Say("rank.accuracy")}
		for _, x := range indices {
			if x == nil {
				row = append(row, "–", "")
				continue
			}
			row = append(row, u.Number(x.Accuracy, 2), "")
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// tenth is the share of the candidates for whose choice it is said what an index
// brings.
const tenth = 0.10

// guideTable is each variety by index and desirability.
func (a TrialAccount) guideTable(g variety.Guide) table {
	u := a.Units
	out := table{Caption: u.Say("rank.table.guide", "customer", a.customer(g.Customer)), Head: a.heads("variety", "smith-hazel", "base", "desired", "desirability")}
	entries := slices.Clone(g.Entries)
	slices.SortStableFunc(entries, func(x, y variety.Guided) int {
		switch {
		case x.Desirability > y.Desirability:
			return -1
		case x.Desirability < y.Desirability:
			return 1
		}
		return 0
	})
	for _, e := range entries {
		out.Rows = append(out.Rows, []string{e.Entry, u.Number(e.SmithHazel, 2), u.Number(e.Base, 2), u.Number(e.DesiredGain, 2), u.Number(e.Desirability, 2)})
	}
	return out
}

// droughtTable is each variety with and without stress.
func (a TrialAccount) droughtTable() table {
	u := a.Units
	out := table{Caption: u.Say("rank.table.drought"), Head: a.heads("variety", "stressed", "free", "ssi", "sti", "gmp")}
	for _, d := range a.Droughts {
		out.Rows = append(out.Rows, []string{d.Entry, u.Number(d.Stressed, 2), u.Number(d.Free, 2), u.Number(d.Susceptibility, 2), u.Number(d.Tolerance, 2), u.Number(d.Geometric, 2)})
	}
	return out
}

// scoreTable is each variety on the rule of a customer.
func (a TrialAccount) scoreTable(r variety.Ruler) table {
	u := a.Units
	out := table{Caption: a.ruled(r), Head: append(a.heads("variety", "score", "band"), u.Say("rank.beats"), u.Say("rank.first"), u.Say("rank.top"), u.Say("rank.place"))}
	for _, s := range r.Scores {
		switch {
		case len(s.Culled) > 0:
			out.Caption += ". " + s.Entry + ": " + u.Say("rank.culled", "traits", u.List(a.culled(r, s)))
			out.Rows = append(out.Rows, []string{s.Entry, u.Number(s.Value.Mid, 2), a.span(s.Value.Low, s.Value.High, 2), hundred(s.BeatsCheck, u), "", "", ""})
		case s.Entry == r.Check:
			out.Rows = append(out.Rows, []string{s.Entry, "0", "", "", hundred(s.First, u), hundred(s.Top, u), a.span(s.Rank.Low, s.Rank.High, 0)})
		default:
			out.Rows = append(out.Rows, []string{s.Entry, u.Number(s.Value.Mid, 2), a.span(s.Value.Low, s.Value.High, 2), hundred(s.BeatsCheck, u),
				hundred(s.First, u), hundred(s.Top, u), a.span(s.Rank.Low, s.Rank.High, 0)})
		}
	}
	return out
}

// span is from low to high, or the one figure if they are alike in print.
func (a TrialAccount) span(low, high float64, decimals int) string {
	u := a.Units
	from, to := u.Number(low, decimals), u.Number(high, decimals)
	if from == to {
		return from
	}
	return u.Say("rank.range", "low", from, "high", to)
}

// ruled is whose score it is and what it weighs.
func (a TrialAccount) ruled(r variety.Ruler) string {
	u := a.Units
	var wishes []string
	for _, w := range r.Customer.Wishes {
		text := u.Say("rank.wish", "trait", w.Trait, "weight", u.Number(w.Weight, 2))
		if limit := a.hardLimit(w); limit != "" {
			text = u.Say("rank.wish.limit", "wish", text, "limit", limit)
		}
		wishes = append(wishes, text)
	}
	return u.Say("rank.score", "customer", a.customer(r.Customer.Name), "wishes", u.List(wishes))
}

// chanceOf writes a chance as a fraction; one that is next to nothing is not
// written as none.
func chanceOf(x float64, u words.Units) string {
	if x < 0.0005 {
		return "<" + u.Number(0.001, 3)
	}
	return u.Number(x, 3)
}
