// Package report writes what leaves the house: the account of a piece for a
// terminal, the report as one HTML file, the curve as CSV and the whole
// outcome as JSON.
//
// It computes nothing. Figures come from course.Outcome, words and units from
// package words, pictures from package draw.
package report

import (
	"awn/course"
	"awn/internal/house"
	"awn/internal/paper"
	"awn/internal/words"
)

// Report is an outcome with the reader it is written for.
type Report struct {
	Outcome *course.Outcome
	Units   words.Units
	Version house.Version
	Inputs  []Input
	Odds    *course.Odds // nil where no draws were made

	Found []course.Found // of a piece under way: what was measured of it
	NowH  float64        // and where it stands; 0 of a piece that is not under way

	Pulls map[course.Stage][]Pull // how its steps are set, where the picture is to be pulled
}

// Input is a document that the outcome rests on.
type Input struct {
	Kind   string `json:"kind"` // lot/1, plant/1, ...
	SHA256 string `json:"sha256"`
}

// Inputs are documents as an account names them.
func Inputs(documents []paper.Input) []Input {
	out := make([]Input, len(documents))
	for i, in := range documents {
		out[i] = Input{Kind: in.Kind, SHA256: in.SHA256}
	}
	return out
}

// stage returns a stage that was run.
func (r Report) stage(s course.Stage) (*course.StageOutcome, bool) {
	for i := range r.Outcome.Stages {
		if r.Outcome.Stages[i].Stage == s {
			return &r.Outcome.Stages[i], true
		}
	}
	return nil, false
}
