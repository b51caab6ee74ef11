package crop

import (
	"awn/finding"
	"awn/intake"
	"awn/malt"
)

// Remark is a finding about a survey, with the names of what it is about; a name
// that does not apply is empty. A farm is never among them.
type Remark struct {
	finding.Finding
	District, Variety, Contract string
	Key                         intake.Key     // the quality; no factor if none
	Parameter                   malt.Parameter // of malt; empty if none
	Line                        int            // of the table; 0 if none
}

// The stages that findings name: the data, and the harvest that they speak of.
const (
	ofData    = "survey"
	ofHarvest = "crop"
)

// practice stands for a source where there is none.
const practice = "common practice, no source"

func figure(name string, x float64) finding.Figure { return finding.Figure{Name: name, Value: x} }

func count(name string, n int) finding.Figure { return figure(name, float64(n)) }
