package variety

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Record is one row of a trial: a plot, or a mean of several.
type Record struct {
	Entry       string
	Site        string
	Year        int    // 0 if not given
	Environment string // a site in a year; made of the two where not given
	Rep         string
	Block       string
	Row, Column string
	Plots       float64   // how many plots the figures are the mean of
	Value       []float64 // by trait; NaN where missing
	Line        int       // where it stood, from 1
}

// Trials is a table of records with what its columns mean.
type Trials struct {
	Traits  []Trait
	Records []Record
	Checks  []string // entries that all are compared with, the first by default
}

// where is the name of the environment of a record.
func (r Record) where() string {
	switch {
	case r.Environment != "":
		return r.Environment
	case r.Year == 0:
		return r.Site
	}
	return strings.TrimSpace(r.Site + " " + strconv.Itoa(r.Year))
}

// when is the year as a label, or nothing.
func (r Record) when() string {
	if r.Year == 0 {
		return ""
	}
	return strconv.Itoa(r.Year)
}

// Trait returns the place of a trait; -1 if there is none of that name.
func (t Trials) Trait(name string) int {
	return slices.IndexFunc(t.Traits, func(x Trait) bool { return x.Name == name })
}

// Entries lists the entries in order.
func (t Trials) Entries() []string {
	return labels(t.Records, func(r Record) string { return r.Entry })
}

// Environments lists the environments in order.
func (t Trials) Environments() []string { return labels(t.Records, Record.where) }

// with returns the records that have a figure for the trait.
func (t Trials) with(trait int) []Record {
	var out []Record
	for _, r := range t.Records {
		if trait < len(r.Value) && !math.IsNaN(r.Value[trait]) {
			out = append(out, r)
		}
	}
	return out
}

// labels lists the different labels of the records in order: numbers by size,
// then words by the alphabet.
func labels(records []Record, of func(Record) string) []string {
	seen := map[string]bool{}
	var out []string
	for _, r := range records {
		if l := of(r); !seen[l] {
			seen[l] = true
			out = append(out, l)
		}
	}
	slices.SortFunc(out, inOrder)
	return out
}

// inOrder compares labels so that E2 comes before E10.
func inOrder(a, b string) int {
	headA, numberA := tail(a)
	headB, numberB := tail(b)
	if c := cmp.Compare(headA, headB); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(numberA, numberB), cmp.Compare(a, b))
}

// tail parts a label from the number at its end; -1 if there is none.
func tail(label string) (head string, number int) {
	head = strings.TrimRight(label, "0123456789")
	number, err := strconv.Atoi(label[len(head):])
	if err != nil {
		return label, -1
	}
	return head, number
}
