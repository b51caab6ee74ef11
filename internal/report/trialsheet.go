package report

import (
	"math"
	"strconv"

	"awn/variety"
)

// sheetTable is every step of every candidate with its evidence.
func (a TrialAccount) sheetTable(candidates []variety.Candidate) table {
	u := a.Units
	t := table{Caption: u.Say("rank.table.sheet"), Head: a.heads("candidate", "year", "stage", "decision", "evidence", "reason"), Words: map[int]bool{2: true, 3: true, 4: true, 5: true}}
	for _, c := range candidates {
		t.Rows = append(t.Rows, []string{u.Say("rank.cross", "name", c.Name, "cross", c.Cross, "year", strconv.Itoa(c.Year))})
		for _, s := range c.Steps {
			var facts []string
			for _, e := range s.Evidence {
				facts = append(facts, a.fact(e))
			}
			t.Rows = append(t.Rows, []string{"", strconv.Itoa(s.Year), s.Stage, u.Say("rank.decision." + string(s.Decision)), u.List(facts), s.Reason})
		}
	}
	return t
}

// fact is one figure that a decision rests on.
func (a TrialAccount) fact(e variety.Evidence) string {
	u := a.Units
	what := e.Trait
	if e.Customer != "" {
		what = u.Say("rank.fact.score", "customer", a.customer(e.Customer))
	}
	decimals := significant(e.SE, 2)
	if !(e.SE > 0) {
		decimals = significant(e.Difference, 2)
	}
	difference, from := signed(u.Number(math.Abs(e.Difference), decimals), e.Difference), u.Say("rank.from."+e.From)
	if e.SE > 0 {
		difference += " ± " + u.Number(e.SE, decimals)
	}
	if len(e.Years) > 0 {
		years := make([]string, len(e.Years))
		for i, year := range e.Years {
			years[i] = strconv.Itoa(year)
		}
		from += " " + u.List(years)
	}
	text := u.Say("rank.fact", "what", what, "difference", difference, "from", from)
	if !math.IsNaN(e.Beats) {
		text += " " + u.Say("rank.fact.odds", "odds", hundred(e.Beats, u))
	}
	return text
}

// signed puts the sign of a figure before its size.
func signed(size string, x float64) string {
	if x < 0 {
		return "−" + size
	}
	return "+" + size
}

// stageTable is the way from the cross to the list.
func (a TrialAccount) stageTable() table {
	u := a.Units
	t := table{Caption: u.Say("rank.table.stages"), Head: a.heads("stage", "years-after", "sites", "entries-in", "entries-out", "sample", "crops", "gate"), Words: map[int]bool{7: true}}
	for _, s := range a.Sheet.Stages {
		sample := ""
		if s.SampleKg > 0 {
			sample = u.Number(s.SampleKg, significant(s.SampleKg, 1))
		}
		t.Rows = append(t.Rows, []string{s.Name, u.Say("rank.range", "low", strconv.Itoa(s.From), "high", strconv.Itoa(s.To)), strconv.Itoa(s.Sites),
			u.Number(float64(s.EntriesIn), 0), u.Number(float64(s.EntriesOut), 0), sample, strconv.Itoa(max(1, s.Years)), s.Rule})
	}
	return t
}
