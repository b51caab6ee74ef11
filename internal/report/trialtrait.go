package report

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"awn/variety"
)

// Columns of the tables of a trial, in letters.
var (
	partWidths    = []int{31, 10, 24, 8}
	againstWidths = []int{21, 9, 11, 8, 8, 8, 6, 9}
	plainWidths   = []int{21, 9, 8, 11, 8}
)

// mostEntries is how many varieties an account shows of each trait.
const mostEntries = 25

// Heritabilities below which it is said that chance rules, or has a fair part.
// Common practice, no source.
const (
	lowHeritability    = 0.3
	middleHeritability = 0.6
)

// traitText writes one trait: its parts, its heritability, its varieties.
func (a TrialAccount) traitText(p *printer, t variety.Judged) {
	u, x := a.Units, t.Analysis
	name := x.Trait.Name
	if name == "" || t.Failed {
		p.wrapped(name+": ", RemarkText(gravest(x.Remarks), u))
		return
	}
	decimals := a.decimals(t)
	p.wrapped("", join([]string{a.title(x.Trait), a.way(x.Trait), a.meanOf(t)}))
	a.partsText(p, x)
	p.wrapped("  ", a.heritable(x))
	if len(t.Against) > 0 {
		a.againstText(p, t, decimals)
	} else {
		a.plainText(p, x, decimals)
	}
	a.asideText(p, t)
}

// way is which way a trait is wanted.
func (a TrialAccount) way(t variety.Trait) string {
	u := a.Units
	switch {
	case t.Direction != variety.Window:
		return u.Say("rank.trait." + string(t.Direction))
	case math.IsNaN(t.High):
		return u.Say("rank.trait.from", "low", u.Number(t.Low, decimalsOf(t.Low)))
	case math.IsNaN(t.Low):
		return u.Say("rank.trait.to", "high", u.Number(t.High, decimalsOf(t.High)))
	}
	return u.Say("rank.trait.window", "low", u.Number(t.Low, decimalsOf(t.Low)), "high", u.Number(t.High, decimalsOf(t.High)))
}

// meanOf is the mean of a trait with its error.
func (a TrialAccount) meanOf(t variety.Judged) string {
	u, decimals := a.Units, a.decimals(t)
	return u.Say("rank.mean", "mean", u.Number(t.Mean.Value, decimals), "se", u.Number(t.Mean.SE, decimals))
}

// heritable says how much of the differences is the varieties' own.
func (a TrialAccount) heritable(x *variety.Analysis) string {
	h, u := x.Heritability.Cullis, a.Units
	if math.IsNaN(h) {
		return ""
	}
	word := "rank.h2.high"
	if h < lowHeritability {
		word = "rank.h2.low"
	} else if h < middleHeritability {
		word = "rank.h2.middle"
	}
	return u.Say("rank.h2", "h2", u.Number(h, 2), "word", u.Say(word), "where", a.narrow(x))
}

// narrow says to what a heritability is confined, if to one environment or season.
func (a TrialAccount) narrow(x *variety.Analysis) string {
	if x.Environments == 1 {
		return a.Units.Say("rank.h2.place")
	}
	if x.Size().Years == 1 {
		return a.Units.Say("rank.h2.season")
	}
	return ""
}

// gravest is the remark that weighs most.
func gravest(remarks []variety.Remark) variety.Remark {
	return slices.MaxFunc(remarks, func(a, b variety.Remark) int { return cmp.Compare(a.Severity, b.Severity) })
}

// errorOf is the error by which figures of a trait are rounded.
func errorOf(t variety.Judged) float64 {
	for _, c := range t.Against {
		if se := c.Difference.SE; se > 0 {
			return se
		}
	}
	if se := t.Analysis.Mean.SE; se > 0 {
		return se
	}
	return math.Abs(t.Analysis.Mean.Value) / 100
}

// partsText writes where the differences come from.
func (a TrialAccount) partsText(p *printer, x *variety.Analysis) {
	u, sum := a.Units, 0.0
	for _, c := range x.Components {
		sum += c.Variance
	}
	p.grid(partWidths, "", u.Say("rank.variance"), u.Say("rank.band"), u.Say("rank.share"))
	for _, c := range x.Components {
		number := func(v float64) string { return u.Number(v, significant(v, 3)) }
		high := number(c.High)
		if math.IsInf(c.High, 1) {
			high = u.Say("rank.open")
		}
		p.grid(partWidths, "  "+u.Term(c.Name), number(c.Variance), u.Say("rank.range", "low", number(c.Low), "high", high), u.Number(100*c.Variance/sum, 0)+" %")
	}
}

// order lists the entries of a trait, the best first; by name where neither way
// is better.
func order(x *variety.Analysis) []int {
	out := make([]int, len(x.Entries))
	for i := range out {
		out[i] = i
	}
	sign := map[variety.Direction]float64{variety.Higher: -1, variety.Lower: 1}[x.Trait.Direction]
	slices.SortStableFunc(out, func(i, j int) int {
		return cmp.Compare(sign*x.Entries[i].Effect.Value, sign*x.Entries[j].Effect.Value)
	})
	return out
}

// againstText writes each variety beside the check.
func (a TrialAccount) againstText(p *printer, t variety.Judged, decimals int) {
	u, x := a.Units, t.Analysis
	number := func(v float64) string { return u.Number(v, decimals) }
	p.grid(againstWidths, "", u.Say("rank.column.mean"), u.Say("rank.less")+"  ", u.Say("rank.se"), u.Say("rank.lsd"), u.Say("rank.dunnett"),
		u.Say("rank.beats"), u.Say("rank.looked", "count", strconv.Itoa(len(t.Against))))
	by := map[string]variety.Comparison{}
	for _, c := range t.Against {
		by[c.Entry] = c
	}
	all := order(x)
	for n, i := range all {
		e := x.Entries[i]
		c, ok := by[e.Name]
		switch {
		case !ok:
			p.grid(againstWidths, "  "+e.Name, number(e.Mean.Value), "0  ")
		case n < mostEntries:
			mark := "  "
			if better(x.Trait, c) {
				mark = " +"
			}
			difference := number(c.Difference.Value) + mark
			p.grid(againstWidths, "  "+e.Name, number(e.Mean.Value), difference, number(c.Difference.SE), number(c.LSD), number(c.Need),
				hundred(c.Beats, u), hundred(c.BeatsAllLooked, u))
		}
	}
	a.leftText(p, len(all))
}

func (a TrialAccount) leftText(p *printer, all int) {
	if more := all - mostEntries; more > 0 {
		p.line("  " + a.Units.Say("rank.left", "count", strconv.Itoa(more)))
	}
}

// plainText writes the varieties of a trial that has no check.
func (a TrialAccount) plainText(p *printer, x *variety.Analysis, decimals int) {
	u := a.Units
	number := func(v float64) string { return u.Number(v, decimals) }
	p.grid(plainWidths, "", u.Say("rank.column.mean"), u.Say("rank.se"), u.Say("rank.predicted"), u.Say("rank.plots"))
	all := order(x)
	for _, i := range all[:min(len(all), mostEntries)] {
		e := x.Entries[i]
		p.grid(plainWidths, "  "+e.Name, number(e.Mean.Value), number(e.Mean.SE), number(x.Mean.Value+e.Effect.Value), strconv.Itoa(e.Plots))
	}
	a.leftText(p, len(all))
}
