// Package examples holds the documents of a made-up malthouse: the Hallow Sound
// malthouse in the invented county of Wennemark. Its lots, programmes and
// buyers are invented too.
package examples

import "embed"

// Files are the documents, each piece beside what it names.
//
//go:embed *.yaml *.csv *.json checks/*.yaml
var Files embed.FS

// First is the piece that is run when none is named, FirstLoad the load,
// FirstSilo the silo and FirstTrial the trial of varieties and
// FirstSurvey the survey of a harvest, FirstControl results of a laboratory, FirstPoints its control points.
const (
	First      = "piece.yaml"
	FirstLoad  = "load.yaml"
	FirstSilo  = "silo.yaml"
	FirstTrial = "trial.yaml"

	FirstSurvey  = "survey.yaml"
	FirstControl = "control.csv"
	FirstPoints  = "control-points.yaml"
)
