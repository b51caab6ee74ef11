package report

import (
	"math"

	"awn/finding"
	"awn/intake"
	"awn/internal/words"
)

// Live is the reckoned slip of a load: the decision, every factor in order of
// nearness to its limit with the deciding one first, the price as a sum, and the
// silos that it may go to.
func (a LoadAccount) Live() *Live {
	u := a.Units
	l := &Live{Lines: a.graded(), units: u}
	if a.Judgement != nil {
		l.Verdict = a.decision() + "."
	} else if a.Grade != nil && len(l.Lines) > 0 {
		l.Verdict, l.Lines = l.Lines[0], l.Lines[1:]
	}
	for _, f := range a.Fits {
		l.Lines = append(l.Lines, words.Capital(a.fit(f)))
	}
	l.find(inWords(a.findings(), u))
	factors := table{Caption: u.Say("load.nearness"), Head: []string{u.Say("load.factor"), u.Say("load.found"), u.Say("load.limit"), ""}, Words: map[int]bool{2: true, 3: true}}
	for _, v := range a.near() {
		limit, word := a.againstParts(v)
		factors.Rows = append(factors.Rows, []string{u.Factor(v.Limit.Key), a.read(v), limit, word})
	}
	l.First = append(l.First, factors)
	if a.priced() {
		l.Lines = append(l.Lines, a.writtenSum())
		l.First = append(l.First,
			listed(u.Say("load.paid"), []string{u.Say("load.mass"), "", ""}, a.masses()),
			listed("", []string{u.Say("load.line"), u.Say("load.per"), u.Say("load.amount")}, a.prices()))
	}
	where, told := a.sampled()
	sample := listed(u.Say("load.says"), []string{u.Say("load.factor"), u.Say("load.found"), ""}, told)
	sample.Note = where
	l.Tables = append(l.Tables, sample)
	l.First, l.Tables = filled(l.First), filled(l.Tables)
	return l.numbered()
}

// writtenSum is the price as somebody would write it down.
func (a LoadAccount) writtenSum() string {
	u, s := a.Units, a.Judgement.Settlement
	sum := ""
	for i, line := range s.Lines {
		figure := u.Number(math.Abs(line.PriceT), 2)
		switch {
		case math.IsNaN(line.PriceT):
			return ""
		case i == 0:
			sum = u.Number(line.PriceT, 2)
		case line.PriceT < 0:
			sum += " − " + figure
		case line.PriceT > 0:
			sum += " + " + figure
		}
	}
	return u.Say("load.written", "sum", sum, "price", a.perTonne(s.PriceT), "mass", words.Figure("barley_kg", s.Mass.PayableKg, u), "money", a.money(s.Total))
}

// near are the limits of contract and grade in order of nearness, those that
// decide first.
func (a LoadAccount) near() []intake.Verdict {
	switch {
	case a.Judgement != nil:
		return intake.Nearest(a.Judgement.Verdicts, a.Judgement.Deciding)
	case a.Grade != nil:
		var deciding []intake.Key
		for _, v := range a.Grade.Deciding {
			deciding = append(deciding, v.Limit.Key)
		}
		return intake.Nearest(a.Grade.Verdicts, deciding)
	}
	return nil
}

// listed is rows of an account as a table.
func listed(caption string, head []string, all []entry) table {
	t := table{Caption: caption, Head: head, Words: map[int]bool{2: true}}
	for _, r := range all {
		t.Rows = append(t.Rows, []string{r.name, r.figure, r.note})
	}
	return t
}

// filled leaves out tables without rows.
func filled(all []table) (out []table) {
	for _, t := range all {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// inWords are findings as they stand on a page.
func inWords(all []finding.Finding, u words.Units) []found {
	out := make([]found, len(all))
	for i, f := range all {
		out[i] = found{words.Capital(u.Severity(f.Severity)), words.Reason(f, u), words.Change(f, u), f.Source, f.Severity.String()}
	}
	return out
}
