package report

import (
	"io"
	"math"
	"strconv"
	"strings"

	"awn/intake"
	"awn/internal/draw"
	"awn/internal/words"
)

// Loads are loads of a day or of a seller, for one reader.
type Loads []LoadAccount

// HTML writes them as one page that opens anywhere.
func (all Loads) HTML(w io.Writer) error { return all.page().write(w, all.units()) }

func (all Loads) units() words.Units {
	if len(all) == 0 {
		return words.Units{}
	}
	return all[0].Units
}

// page gathers the loads: what to do with them, then each by itself.
func (all Loads) page() page {
	u := all.units()
	p := page{Name: u.Say("load.report"), FindingsTitle: u.Say("section.findings"), NoFindings: u.Say("findings.none")}
	if len(all) == 0 {
		return p
	}
	p.Stamp = stamp(all[0].Version, u)
	if len(all) == 1 {
		a := all[0]
		p.Title, p.Lines, p.Verdict = u.Say("load.title", "code", a.Load.Code), []string{a.about()}, a.verdict()
		found := a.found("")
		p.Findings, p.Rest = found[:min(len(found), mostFindings)], found[min(len(found), mostFindings):]
	} else {
		p.Title, p.Verdict, p.Compared = u.Say("load.many", "count", strconv.Itoa(len(all))), strings.Join(Settled(all), " "), true
		p.add(section{ID: "together", Title: u.Say("load.together"), Wide: true, Tables: []table{settledTable(all)}})
	}
	n := &counter{}
	for i, a := range all {
		s := a.section(n, i)
		if len(all) > 1 {
			s.Intro = join([]string{a.about(), a.verdict()})
			if t := (table{Caption: u.Say("load.remarks"), Head: []string{"", ""}, Words: map[int]bool{1: true}}); len(a.findings()) > 0 {
				for _, f := range a.found("") {
					t.Rows = append(t.Rows, []string{f.Severity, join([]string{strings.TrimSpace(f.Reason + " " + f.Change), f.Source})})
				}
				s.Tables = append(s.Tables, t)
			}
		}
		p.add(s)
	}
	return p
}

// about is what came, and when.
func (a LoadAccount) about() string {
	return join([]string{a.Load.Variety, string(a.Load.Arrived), words.Figure("barley_kg", a.Load.NetKg, a.Units)})
}

// verdict is the decision of the contract, or the grade, in a sentence or two.
func (a LoadAccount) verdict() string {
	var out []string
	if a.Judgement != nil {
		out = append(out, a.decision()+".")
	}
	if len(out) == 0 {
		out = a.graded()
	}
	return strings.Join(out, " ")
}

// found are the findings of a load.
func (a LoadAccount) found(before string) (out []found) {
	for _, f := range a.findings() {
		out = append(out, found{words.Capital(a.Units.Severity(f.Severity)), words.Capital(before + words.Reason(f, a.Units)), words.Change(f, a.Units), f.Source, f.Severity.String()})
	}
	return out
}

// section is one load by itself.
func (a LoadAccount) section(n *counter, number int) section {
	u := a.Units
	s := section{ID: "load-" + strconv.Itoa(number+1), Title: u.Say("load.title", "code", a.Load.Code), Wide: true}
	if a.Judgement != nil {
		if pic, ok := a.limitsPicture(number); ok {
			s.Figures = n.figures([]string{u.Say("load.against", "name", a.Contract.Name)}, pic)
		}
		s.Tables = append(s.Tables, wordTable(u.Say("load.against", "name", a.Contract.Name), a.limits(), ""))
	}
	if graded := a.graded(); len(graded) > 0 {
		s.Tables = append(s.Tables, sayingTable(words.Capital(u.Say("load.grade")), graded))
	}
	if a.priced() {
		s.Tables = append(s.Tables, wordTable(u.Say("load.paid"), append(a.masses(), a.prices()...), ""))
	}
	where, told := a.sampled()
	if len(told) > 0 || where != "" {
		s.Tables = append(s.Tables, wordTable(u.Say("load.says"), told, where))
	}
	var fits []string
	for _, f := range a.Fits {
		fits = append(fits, a.fit(f))
	}
	if len(fits) > 0 {
		s.Tables = append(s.Tables, sayingTable(words.Capital(u.Say("load.silo")), fits))
	}
	return s
}

// sayingTable is sentences one below the other.
func sayingTable(caption string, texts []string) table {
	t := table{Caption: caption, Head: []string{"", ""}}
	for _, text := range texts {
		t.Rows = append(t.Rows, []string{text, ""}) // a row of one cell would be a heading
	}
	return t
}

// limitsPicture is each factor against the limits of the contract: a factor that
// has a least and a most stands once. It reports false where nothing was read.
func (a LoadAccount) limitsPicture(number int) (draw.Picture, bool) {
	u := a.Units
	m := draw.Marks{ID: "limits-" + strconv.Itoa(number+1), Title: u.Say("load.against", "name", a.Contract.Name), Says: u.Say("load.picture.says"),
		Head: []string{u.Say("load.factor"), u.Say("load.found"), u.Say("head.least"), u.Say("head.most"), u.Say("head.verdict")}}
	at := map[intake.Key]int{}
	for _, v := range a.Judgement.Verdicts {
		if v.Outcome == intake.Unsaid {
			continue
		}
		i, seen := at[v.Limit.Key]
		if !seen {
			i = len(m.Rows)
			at[v.Limit.Key] = i
			m.Rows = append(m.Rows, a.factorMark(v))
		}
		row := &m.Rows[i]
		f := v.Limit.In.Figure("limit", v.Limit.At)
		if limit := words.Value(f.Name, f.Value, u); v.Limit.Least {
			row.Least = limit
		} else {
			row.Most = limit
		}
		if v.Outcome == intake.Misses {
			row.Outside = true
		}
		row.Verdict = u.Say(map[bool]string{false: "load.meets", true: "load.misses"}[row.Outside])
	}
	return draw.Pen{Number: u.Number}.Marks(m), len(m.Rows) > 0
}

// factorMark is what was read of a factor, with what the sample leaves open.
func (a LoadAccount) factorMark(v intake.Verdict) draw.Mark {
	u := a.Units
	f := v.Limit.In.Figure("read", v.Rounded)
	out := draw.Mark{Name: words.Capital(u.Factor(v.Limit.Key)), Figure: a.read(v), Value: words.Value(f.Name, f.Value, u), Decimals: words.Decimals(f.Name, u),
		Low: math.NaN(), High: math.NaN(), Least: math.NaN(), Most: math.NaN()}
	for _, t := range a.Load.Told() {
		if t.Key == v.Limit.Key && t.Name == f.Name {
			out.Low, out.High = words.Value(t.Name, t.Value.Low, u), words.Value(t.Name, t.Value.High, u)
		}
	}
	return out
}
