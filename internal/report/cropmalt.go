package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"awn/crop"
	"awn/internal/words"
)

// mostSaid is how many sayings of the course an account shows.
const mostSaid = 4

// maltTables are the expected malt.
func (a CropAccount) maltTables() []table {
	m := a.Malting
	if m == nil || len(m.Seasons) == 0 || len(m.Seasons[0].Figures) == 0 {
		return nil
	}
	u := a.Units
	t := table{Caption: u.Say("crop.malt"), Head: []string{u.Say("crop.malt.figure"), u.Say("crop.mean"), u.Say("crop.p10"), u.Say("crop.p90"), u.Say("crop.before"), u.Say("crop.malt.pilot")}}
	for _, f := range m.Seasons[0].Figures {
		key := f.Key(f.Basis)
		number := func(x float64) string { return u.Number(words.Value(key, x, u), words.Decimals(key, u)) }
		row := []string{u.Say("crop.with-unit", "name", u.Parameter(f.Parameter), "unit", words.Symbol(key, u)), number(f.Mean), number(f.P10), number(f.P90), "", ""}
		if len(m.Seasons) > 1 {
			for _, b := range m.Seasons[1].Figures {
				if b.Parameter == f.Parameter && b.Basis == f.Basis {
					row[4] = number(b.Mean)
				}
			}
		}
		if !math.IsNaN(f.Pilot) {
			row[5] = number(f.Pilot)
		}
		row[0] = strings.TrimSuffix(row[0], ", ")
		t.Rows = append(t.Rows, row)
	}
	return []table{t}
}

// maltLines say how the lots were made, what they meet, and what the course said.
func (a CropAccount) maltLines() []string {
	m, u := a.Malting, a.Units
	if m == nil || len(m.Seasons) == 0 {
		return nil
	}
	now := m.Seasons[0]
	failed := ""
	if now.Failed > 0 {
		failed = u.Say("crop.malt.failed", "count", strconv.Itoa(now.Failed))
	}
	out := []string{u.Say("crop.malt.intro", "lots", strconv.Itoa(now.Lots), "programme", m.Programme, "failed", failed)}
	if now.Lots == now.Failed {
		return out
	}
	percent := func(x float64) string { return u.Number(100*x, 0) + "\u00a0%" }
	for i, met := range now.Met {
		before := ""
		if len(m.Seasons) > 1 && i < len(m.Seasons[1].Met) {
			before = u.Say("crop.malt.before", "share", percent(m.Seasons[1].Met[i].All))
		}
		out = append(out, u.Say("crop.malt.met", "name", met.Specification.Name, "share", percent(met.All), "before", before))
	}
	steps := func(phrase string, s crop.Steps, before string) string {
		return u.Say(phrase, "steepout", words.Figure("wb", s.SteepOut, u), "chit", percent(s.Chit), "days", words.Figure("d", s.GrowthD, u),
			"acrospire", u.Number(s.Acrospire, 2), "before", before)
	}
	before := ""
	if len(m.Seasons) > 1 && m.Seasons[1].Lots > m.Seasons[1].Failed {
		before = steps("crop.malt.stepsago", m.Seasons[1].Steps, "")
	}
	return append(out, steps("crop.malt.steps", now.Steps, before))
}

// saidTable is what the course says of the lots, with the share of which it holds.
func (a CropAccount) saidTable() table {
	u := a.Units
	t := table{Head: []string{u.Say("crop.malt.share"), u.Say("crop.malt.said")}, Words: map[int]bool{1: true}}
	if a.Malting == nil || len(a.Malting.Seasons) == 0 {
		return t
	}
	said := a.Malting.Seasons[0].Said
	for _, s := range said[:min(len(said), mostSaid)] {
		t.Rows = append(t.Rows, []string{u.Number(100*s.Share, 0), words.Sentence(s.Finding, u)})
	}
	return t
}

func (a CropAccount) maltText(p *printer) {
	for _, t := range a.maltTables() {
		p.line("")
		p.table(t)
	}
	for _, l := range a.maltLines() {
		p.wrapped("  ", l)
	}
	said := a.saidTable()
	if len(said.Rows) == 0 {
		return
	}
	p.line("  " + said.Head[0] + "  " + said.Head[1])
	for _, row := range said.Rows {
		p.wrapped(fmt.Sprintf("  %4s  ", row[0]), row[1])
	}
}
