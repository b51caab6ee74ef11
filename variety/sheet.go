package variety

import (
	"cmp"
	"slices"
	"strconv"

	"awn/finding"
)

// Stage is a step on the way of a candidate from the cross to the list.
type Stage struct {
	Name       string
	From, To   int // years after the cross
	Sites      int
	EntriesIn  int
	EntriesOut int
	SampleKg   float64 // grain for malting; 0 if none
	Years      int     // separate crop years that its gate wants; 1 if 0
	Rule       string  // of the gate, in words
}

// Decision is what was decided of a candidate in a year.
type Decision string

// The decisions.
const (
	Advance Decision = "advance"
	Hold    Decision = "hold" // another year in the same stage
	Drop    Decision = "drop"
	Release Decision = "release"
)

// Evidence is one figure that a decision rests on.
type Evidence struct {
	Trait      string
	Customer   string  // of a score; empty for a trait
	Difference float64 // from the check, predicted
	SE         float64
	Beats      float64 // chance of being better than the check
	Years      []int   // crop years that it rests on
	From       string  // trial, pilot malting, plant trial
}

// Step is a candidate's year.
type Step struct {
	Year     int
	Stage    string
	Decision Decision
	Evidence []Evidence
	Reason   string

	ThisTrial bool // the trial at hand is to be put among the evidence
}

// Candidate is a line of the sheet: from its cross to its end.
type Candidate struct {
	Name  string
	Cross string // parents
	Year  int    // of the cross
	Steps []Step // by year
}

// Sheet is years down and candidates across, each a line that ends with evidence
// and reason.
type Sheet struct {
	Stages     []Stage
	Candidates []Candidate
}

// UsualStages is a way from cross to list such as breeders of malting barley go:
// ten to twelve years, of which the last are pilot malting and plant trials. Every
// programme has its own: common practice, no source.
func UsualStages() []Stage {
	return []Stage{
		{Name: "early", From: 1, To: 4, Sites: 1, EntriesIn: 10000, EntriesOut: 300, Years: 1, Rule: "upright, healthy, plump"},
		{Name: "yield", From: 5, To: 6, Sites: 4, EntriesIn: 300, EntriesOut: 30, SampleKg: 0.1, Years: 1, Rule: "yield no worse than the check, extract at sight"},
		{Name: "co-operative", From: 7, To: 8, Sites: 10, EntriesIn: 30, EntriesOut: 6, SampleKg: 0.5, Years: 2, Rule: "better than the check for one customer, no worse for the others"},
		{Name: "pilot", From: 8, To: 9, Sites: 3, EntriesIn: 6, EntriesOut: 2, SampleKg: 50, Years: 2, Rule: "malt within the specification in two crops"},
		{Name: "plant", From: 10, To: 12, Sites: 2, EntriesIn: 2, EntriesOut: 1, SampleKg: 100_000, Years: 2, Rule: "malted and brewed at full size without complaint"},
	}
}

// Check says what is wrong with the sheet: decisions without reason or evidence,
// years that run backwards, stages left out, gates of two years passed on one
// crop, and steps after the end.
func (s Sheet) Check() []Remark {
	var out []Remark
	for _, c := range s.Candidates {
		out = append(out, s.check(c)...)
	}
	return out
}

func (s Sheet) check(c Candidate) []Remark {
	var out []Remark
	say := func(code string, severity finding.Severity, step Step, figures ...finding.Figure) {
		m := remark(code, severity, "", append([]finding.Figure{count("year", step.Year)}, figures...)...)
		m.Entry, m.Term = c.Name, step.Stage
		out = append(out, m)
	}
	at, ended := 0, false
	crops := map[int]bool{}
	for i, step := range c.Steps {
		if ended {
			say("sheet.step.after-end", finding.Alarm, step)
		}
		if i > 0 && step.Year <= c.Steps[i-1].Year || step.Year < c.Year {
			say("sheet.year.backwards", finding.Alarm, step)
		}
		if step.Reason == "" {
			say("sheet.reason.missing", finding.Caution, step)
		}
		if len(step.Evidence) == 0 && step.Decision != Hold {
			say("sheet.evidence.missing", finding.Caution, step)
		}
		n := slices.IndexFunc(s.Stages, func(x Stage) bool { return x.Name == step.Stage })
		switch {
		case n < 0:
			say("sheet.stage.unknown", finding.Alarm, step)
			continue
		case n > at:
			say("sheet.stage.skipped", finding.Caution, step)
			at = n
			clear(crops)
		case n < at:
			say("sheet.stage.backwards", finding.Alarm, step)
		}
		for _, e := range step.Evidence {
			for _, year := range e.Years {
				crops[year] = true
			}
		}
		if step.Decision == Advance || step.Decision == Release {
			if wanted := max(1, s.Stages[n].Years); len(crops) < wanted {
				say("sheet.gate.too-few-crops", finding.Alarm, step, count("crops", len(crops)), count("wanted", wanted))
			}
			at = n + 1
			clear(crops)
		}
		ended = ended || step.Decision == Drop || step.Decision == Release
	}
	return out
}

// Year is a row of the sheet: what was decided of each candidate, nil where
// nothing was.
type Year struct {
	Year  int
	Steps []*Step // by candidate
}

// Rows are the years of the sheet, the first on top.
func (s Sheet) Rows() []Year {
	at := map[int]int{}
	var out []Year
	for i := range s.Candidates {
		for j := range s.Candidates[i].Steps {
			step := &s.Candidates[i].Steps[j]
			row, ok := at[step.Year]
			if !ok {
				row = len(out)
				at[step.Year] = row
				out = append(out, Year{step.Year, make([]*Step, len(s.Candidates))})
			}
			out[row].Steps[i] = step
		}
	}
	slices.SortFunc(out, func(a, b Year) int { return cmp.Compare(a.Year, b.Year) })
	return out
}

// EvidenceOf gathers what the analyses and rulers say of an entry against the
// check, with the crop years that the records of each trait come from.
func (t Trials) EvidenceOf(entry, check string, analyses []*Analysis, r *Ranking) []Evidence {
	var out []Evidence
	for _, a := range analyses {
		i, c := a.Place(entry), a.Place(check)
		if i < 0 || c < 0 || i == c {
			continue
		}
		d := a.effects.Difference(i, c)
		out = append(out, Evidence{Trait: a.Trait.Name, Difference: d.Value, SE: d.SE, Beats: a.beats(d), Years: a.crops(entry), From: "trial"})
	}
	if r == nil {
		return out
	}
	for _, ruler := range r.Rulers {
		for _, s := range ruler.Scores {
			if s.Entry == entry && ruler.Check == check && entry != check {
				// The band of a score is nine tenths wide: 1.645 errors on either side.
				out = append(out, Evidence{Customer: ruler.Customer.Name, Difference: s.Value.Mid, SE: (s.Value.High - s.Value.Low) / (2 * 1.645),
					Beats: s.BeatsCheck, From: "trial"})
			}
		}
	}
	return out
}

// crops are the years in which an entry has figures of the trait.
func (a *Analysis) crops(entry string) []int {
	var out []int
	for _, when := range labels(a.design.records, func(r Record) string {
		if r.Entry != entry {
			return ""
		}
		return r.when()
	}) {
		if year, err := strconv.Atoi(when); err == nil {
			out = append(out, year)
		}
	}
	return out
}
