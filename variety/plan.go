package variety

import (
	"slices"
	"strings"

	"awn/mixed"
)

// The terms that a model may have.
const (
	EntryTerm       = "entry"
	EnvironmentTerm = "environment"
	SiteTerm        = "site"
	YearTerm        = "year"
	SiteYearTerm    = "site year"
	EntrySiteTerm   = "entry site"
	EntryYearTerm   = "entry year"
	InteractionTerm = "entry environment"
	RepTerm         = "rep"
	BlockTerm       = "block"
	RowTerm         = "row"
	ColumnTerm      = "column"
)

// design is the model of one trait: the terms, and the labels of their levels.
type design struct {
	records []Record
	at      int
	terms   []mixed.Term
	labels  map[string][]string
}

// plan chooses the terms that the records can tell. Environments are fixed, as
// for ranking, unless they are to be drawn from more of their kind.
func plan(records []Record, at int, environmentsRandom bool) *design {
	d := &design{records: records, at: at, labels: map[string][]string{}}
	sites, years := len(labels(records, func(r Record) string { return r.Site })), len(labels(records, Record.when))
	crossed := sites > 1 && years > 1
	d.add(EntryTerm, true, entryOf)
	if environmentsRandom && crossed {
		d.add(SiteTerm, true, func(r Record) string { return r.Site })
		d.add(YearTerm, true, Record.when)
		d.add(SiteYearTerm, true, Record.where)
	} else {
		d.add(EnvironmentTerm, environmentsRandom, Record.where)
	}
	if crossed {
		d.add(EntrySiteTerm, true, func(r Record) string { return r.Entry + "\x00" + r.Site })
		d.add(EntryYearTerm, true, func(r Record) string { return r.Entry + "\x00" + r.when() })
	}
	if cells := len(labels(records, joined)); cells < len(records) {
		d.add(InteractionTerm, true, joined)
	}
	d.field()
	return d
}

func joined(r Record) string { return r.Entry + "\x00" + r.where() }

// field adds the terms of the lay-out, each within its environment.
func (d *design) field() {
	within := func(parts ...func(Record) string) func(Record) string {
		return func(r Record) string {
			key := []string{r.where()}
			for _, p := range parts {
				key = append(key, p(r))
			}
			return strings.Join(key, "\x00")
		}
	}
	rep := func(r Record) string { return r.Rep }
	for _, f := range []struct {
		name string
		of   func(Record) string
	}{
		{RepTerm, rep},
		{BlockTerm, func(r Record) string { return r.Block }},
		{RowTerm, func(r Record) string { return r.Row }},
		{ColumnTerm, func(r Record) string { return r.Column }},
	} {
		if len(labels(d.records, f.of)) < 2 {
			continue
		}
		of := within(rep, f.of)
		if f.name == RepTerm {
			of = within(rep)
		}
		if n := len(labels(d.records, of)); n > len(labels(d.records, Record.where)) && n < len(d.records) {
			d.add(f.name, true, of)
		}
	}
}

func (d *design) add(name string, random bool, of func(Record) string) {
	all := labels(d.records, of)
	place := make(map[string]int, len(all))
	for i, l := range all {
		place[l] = i
	}
	t := mixed.Term{Name: name, Random: random, Levels: len(all), Level: make([]int, len(d.records))}
	for i, r := range d.records {
		t.Level[i] = place[of(r)]
	}
	d.terms, d.labels[name] = append(d.terms, t), all
}

// model is the design as a mixed model, entries fixed or random. Means of more
// plots weigh more only where the error of plots stands apart: what a variety
// does in a place is no surer for being seen on more plots there.
func (d *design) model(entriesFixed bool) mixed.Model {
	m := mixed.Model{}
	weighted := d.weighted()
	for _, r := range d.records {
		m.Y = append(m.Y, r.Value[d.at])
		if weighted {
			m.Weight = append(m.Weight, r.Plots)
		}
	}
	for _, t := range d.terms {
		if t.Name == EntryTerm {
			t.Random = !entriesFixed
		}
		m.Terms = append(m.Terms, t)
	}
	return m
}

// weighted reports whether records weigh by their plots.
func (d *design) weighted() bool {
	return uneven(d.records) && slices.ContainsFunc(d.terms, func(t mixed.Term) bool { return t.Name == InteractionTerm })
}

// uneven reports whether records are means of unequal numbers of plots.
func uneven(records []Record) bool {
	return slices.ContainsFunc(records, func(r Record) bool { return r.Plots != records[0].Plots })
}

// without leaves a term out; it reports whether it was there.
func (d *design) without(name string) bool {
	for i, t := range d.terms {
		if t.Name == name {
			d.terms = append(d.terms[:i:i], d.terms[i+1:]...)
			return true
		}
	}
	return false
}
