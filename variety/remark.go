package variety

import "awn/finding"

// Remark is a finding about a trial, with the names of what it is about; a name
// that does not apply is empty.
type Remark struct {
	finding.Finding
	Trait, Entry, Environment, Term string
	Line                            int // of the table; 0 if none
}

// stage is where in the chain a trial stands.
const stage = "trial"

func remark(code string, severity finding.Severity, trait string, figures ...finding.Figure) Remark {
	return Remark{Finding: finding.New(code, severity, stage, figures...), Trait: trait}
}

func figure(name string, x float64) finding.Figure { return finding.Figure{Name: name, Value: x} }

func count(name string, n int) finding.Figure { return figure(name, float64(n)) }
