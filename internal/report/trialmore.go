package report

import (
	"math"
	"strconv"

	"awn/internal/words"
	"awn/variety"
)

// answer is the trial in one breath: who stands first with whom, and how surely.
func (a TrialAccount) answer() string {
	if a.Ranking == nil {
		return ""
	}
	u := a.Units
	var parts []string
	for _, r := range a.Ranking.Rulers {
		best := r.Scores[0]
		for _, s := range r.Scores {
			if s.First > best.First {
				best = s
			}
		}
		if len(best.Culled) > 0 {
			parts = append(parts, u.Say("rank.answer.none", "customer", a.customer(r.Customer.Name)))
			continue
		}
		parts = append(parts, u.Say("rank.answer", "customer", a.customer(r.Customer.Name), "entry", best.Entry, "odds", hundred(best.First, u)))
	}
	return words.Capital(u.List(parts)) + "."
}

// asideText writes what stands beside the comparison with the check: at equal
// protein, as a share, in pairs, and what more trials would buy.
func (a TrialAccount) asideText(p *printer, t variety.Judged) {
	u := a.Units
	for _, x := range []table{a.equalTable(t), a.shareTable(t)} {
		p.trialTable(x, u)
	}
	if line := a.pairLine(t); line != "" {
		p.wrapped("  ", line)
	}
	if line := a.outlookLine(t); line != "" {
		p.wrapped("  ", line)
	}
	if !a.Full {
		return
	}
	for _, x := range []table{a.meansTable(t), a.stabilityTable(t), a.outlookTable(t)} {
		p.trialTable(x, u)
	}
}

// pairLine says how many pairs differ by Tukey.
func (a TrialAccount) pairLine(t variety.Judged) string {
	if len(t.Pairs) == 0 {
		return ""
	}
	differ, need, n := 0, 0.0, 0
	for _, x := range t.Pairs {
		if math.IsNaN(x.HSD) {
			continue
		}
		need, n = need+x.HSD, n+1
		if math.Abs(x.Difference.Value) > x.HSD {
			differ++
		}
	}
	if n == 0 {
		return ""
	}
	return a.Units.Say("rank.pairs", "count", strconv.Itoa(differ), "of", strconv.Itoa(n), "need", a.Units.Number(need/float64(n), a.decimals(t)))
}

// outlookLine says what one more year and one more site would buy.
func (a TrialAccount) outlookLine(t variety.Judged) string {
	now := variety.Buy{Reliability: math.NaN()}
	year, site := math.NaN(), math.NaN()
	for i, b := range t.Outlook {
		switch {
		case i == 0:
			now = b
		case b.Years == now.Years+1 && b.Sites == now.Sites:
			year = b.Reliability
		case b.Years == now.Years && b.Sites == now.Sites+1:
			site = b.Reliability
		}
	}
	if math.IsNaN(now.Reliability) || math.IsNaN(year) || math.IsNaN(site) {
		return ""
	}
	u := a.Units
	return u.Say("rank.outlook", "now", u.Number(now.Reliability, 2), "year", u.Number(year, 2), "site", u.Number(site, 2))
}

// moreText writes what stands beside the scores: indices, drought, candidates.
func (a TrialAccount) moreText(p *printer) {
	u := a.Units
	if a.Full {
		for _, g := range a.Guides {
			p.trialTable(a.weightTable(g), u)
			p.trialTable(a.guideTable(g), u)
		}
	}
	p.trialTable(a.droughtTable(), u)
	if len(a.Sheet.Candidates) == 0 {
		return
	}
	p.line("")
	p.line(u.Say("rank.table.sheet"))
	for _, c := range a.Sheet.Candidates {
		a.candidateText(p, c)
	}
}

// candidateText writes a candidate: its steps in full, or how it stands now.
func (a TrialAccount) candidateText(p *printer, c variety.Candidate) {
	u := a.Units
	p.wrapped("  ", u.Say("rank.cross", "name", c.Name, "cross", c.Cross, "year", strconv.Itoa(c.Year)))
	steps := c.Steps
	if !a.Full && len(steps) > 1 {
		steps = steps[len(steps)-1:]
	}
	for _, s := range steps {
		p.wrapped("    ", u.Say("rank.step", "year", strconv.Itoa(s.Year), "stage", s.Stage, "decision", u.Say("rank.decision."+string(s.Decision)), "reason", s.Reason))
		if !a.Full {
			continue
		}
		for _, e := range s.Evidence {
			p.wrapped("      ", a.fact(e))
		}
	}
}

// trialTable writes the first rows of a table of varieties. One that is too wide
// loses letters of its first column.
func (p *printer) trialTable(t table, u words.Units) {
	if len(t.Rows) == 0 {
		return
	}
	widths := t.widths()
	room := wideText - 2
	for _, w := range widths[1:] {
		room -= w + 2
	}
	widths[0] = max(min(widths[0], room), 8)
	p.line("")
	p.wrapped("  ", t.Caption)
	more := len(t.Rows) - mostEntries
	t.Rows = t.Rows[:min(len(t.Rows), mostEntries)]
	p.rows(t, widths)
	if more > 0 {
		p.line("  " + u.Say("rank.left", "count", strconv.Itoa(more)))
	}
}
