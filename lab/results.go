package lab

import (
	"math"
	"slices"
	"strings"

	"awn/finding"
)

// Kind says what was read.
type Kind string

// The kinds.
const (
	Check Kind = "check" // a check sample, read again and again
	Piece Kind = "piece" // anything read once for its own sake
	Round Kind = "ring"  // a sample of a ring test
)

// Bench is who reads: a laboratory with an instrument and a method.
type Bench struct{ Laboratory, Instrument, Method string }

// Result is one figure of a laboratory, in the unit of its quality.
type Result struct {
	Bench
	Line      int
	Day       float64 // since 1 January 1970; NaN if not said
	Kind      Kind
	Sample    string
	Quality   int // place in Results.Qualities
	Matrix    string
	Value     float64 // NaN if it is missing
	Reference float64 // assigned value of the sample; NaN if there is none
	SD        float64 // of the ring test; NaN if there is none
	Batch     string  // of the check sample
	Event     string  // what was done to the instrument that day
	Lot       string  // of barley
	Vessels   []string
}

// Quality is what was read, and in which unit its figures stand.
type Quality struct{ Name, Unit string }

// Results is a table of figures.
type Results struct {
	Rows      []Result
	Qualities []Quality
	Vessels   []string // kinds of vessel that the table names: kiln, steep, silo
}

// nitrogenFactor turns nitrogen into protein.
const nitrogenFactor = 6.25

// Published is how far two results of a quality may differ, between laboratories
// and within one, in the unit of the table at a reading of x; NaN where no
// precision of that method is known.
//
//	R and r of Precision, times 6.25 for protein
//
// Assumed: protein errs as its nitrogen does; common practice, no source.
// Valid: within the range of figures the precision was found on; NaN outside.
func (r Results) Published(row Result, x float64) (r95, repeat95 float64) {
	name, scale := r.Qualities[row.Quality].known()
	if row.Method == "" || scale == 0 {
		return math.NaN(), math.NaN()
	}
	for _, p := range Precisions {
		if p.Analyte == name && p.Matrix == row.Matrix && strings.EqualFold(p.Method, row.Method) {
			return p.Reproducibility(x*scale) / scale, p.Repeatability(x*scale) / scale
		}
	}
	return math.NaN(), math.NaN()
}

// known is the key of a quality in the table of precision, and what one of its
// unit is there; 0 for a unit that is not understood.
func (q Quality) known() (key string, scale float64) {
	key = strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(q.Name, "_", " "))), "_")
	unit := strings.ToLower(q.Unit)
	switch {
	case strings.HasPrefix(unit, "%"):
		scale = 0.01
	case slices.Contains([]string{"wk", "du", "kg/kg", "kg/kg dm"}, unit):
		scale = 1
	}
	if key == "protein" {
		return "nitrogen", scale / nitrogenFactor
	}
	return key, scale
}

// Remark is a finding of the laboratory with the names of what it is about; a name
// that does not apply is empty.
type Remark struct {
	finding.Finding
	Quality  int // place in Results.Qualities; -1 if none
	Bench    Bench
	Other    Bench
	Sample   string
	Event    string  // noted about when it began
	Since    float64 // day; NaN if none
	From, To float64 // days between which it lies; NaN if not known
	Lines    []int
}

// String names a bench by what is known of it.
func (b Bench) String() string {
	var parts []string
	for _, p := range []string{b.Laboratory, b.Instrument, b.Method} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}
