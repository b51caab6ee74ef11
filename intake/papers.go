package intake

import (
	"awn/finding"
)

// paper is a finding on what goes with a load, and what it makes of it.
type paper struct {
	finding.Finding
	decision Decision // "" if it changes nothing
}

// meterLeastC is the grain temperature below which moisture meters are not
// reliable: 40 °F.
const meterLeastC = 40.0/1.8 - 32/1.8

// papers checks identity, previous cargo, fumigation and the meter.
func (l *Load) papers(wanted string) (out []paper) {
	add := func(d Decision, f finding.Finding, act string, chance, cost float64) {
		f.Act, f.Chance, f.Cost = act, chance, cost
		if f.Source == "" {
			f.Source = practice
		}
		out = append(out, paper{f, d})
	}
	if wanted != "" && l.Variety != "" && wanted != l.Variety {
		add(Refuse, finding.New("intake.variety.other", finding.Alarm, stage), "", 1, 0.3)
	}
	switch l.TrueToType {
	case No:
		add(Refuse, finding.New("intake.variety.untrue", finding.Alarm, stage), "", 1, 0.3)
	case NotLooked:
		add("", finding.New("intake.variety.not-tested", finding.Note, stage), "act.intake.test-variety", 0.05, 0.3)
	}
	if l.PreviousCargo == "" {
		add("", finding.New("intake.cargo.unknown", finding.Note, stage), "act.intake.ask-cargo", 0.05, 0.2)
	}
	if l.FumigantClear != "" {
		switch {
		case l.Arrived == "":
			add(Hold, finding.New("intake.fumigant.day-unknown", finding.Caution, stage), "act.intake.keep-out", 0.5, 0.5)
		case l.Arrived < l.FumigantClear:
			add(Hold, finding.New("intake.fumigant.not-clear", finding.Alarm, stage), "act.intake.keep-out", 1, 0.5)
		}
	}
	if l.GrainC < meterLeastC {
		f := finding.New("intake.meter.cold", finding.Caution, stage, finding.Figure{Name: "grain_c", Value: l.GrainC}, finding.Figure{Name: "least_c", Value: meterLeastC})
		f.Source = "NDSU 2009"
		add("", f, "act.intake.warm-sample", 0.5, 0.01)
	}
	return out
}
