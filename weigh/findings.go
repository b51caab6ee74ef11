package weigh

import (
	"math"

	"awn/finding"
)

const stage = "weigh"

// alone is the chance below which the others still differ once the first
// suspect is set aside.
const alone = 0.05

// Say says what is to be held of the readings of a chain, and what to do.
func (c *Chain) Say(s *Settled, v Verdict) []finding.Finding {
	figures := []finding.Figure{{Name: "chance", Value: s.Chance}, {Name: "readings_n", Value: float64(len(s.Readings))}}
	switch {
	case s.Freedom == 0:
		return []finding.Finding{note(finding.New("weigh.readings.unchecked", finding.Note, stage, figures...), "act.weigh.read-more")}
	case !v.Wrong:
		return []finding.Finding{note(finding.New("weigh.readings.agree", finding.Note, stage, figures...), "")}
	}
	first := v.Suspects[0]
	out := []finding.Finding{c.suspect(s, first)}
	if len(first.Readings) > 1 || s.Freedom == 1 {
		f := finding.New("weigh.suspects.alike", finding.Caution, stage, finding.Figure{Name: "alike_n", Value: float64(len(first.Readings))})
		out = append(out, weighed(f, "act.weigh.read-more", 1, 0.1))
	}
	if first.Rest < alone {
		f := finding.New("weigh.rest.differs", finding.Caution, stage, finding.Figure{Name: "chance", Value: first.Rest})
		out = append(out, weighed(f, "act.weigh.read-all", 1-first.Rest, 0.2))
	}
	return out
}

// suspect names the first suspect.
func (c *Chain) suspect(s *Settled, first Suspect) finding.Finding {
	i := first.Readings[0]
	r, at := s.Readings[i], c.Spots[i]
	figures := []finding.Figure{
		{Name: "place_n", Value: float64(at.Place + 1)}, {Name: "chance", Value: s.Chance}, {Name: "first", Value: first.Odds},
		{Name: "away_x", Value: math.Abs(r.Away)}}
	var f finding.Finding
	switch at.Kind {
	case OfMass:
		f = finding.New("weigh.mass.suspect", finding.Alarm, stage, append(figures,
			finding.Figure{Name: "read_kg", Value: r.Value}, finding.Figure{Name: "would_kg", Value: r.Would})...)
	case OfMoisture:
		f = finding.New("weigh.moisture.suspect", finding.Alarm, stage, append(figures,
			finding.Figure{Name: "read_wb", Value: r.Value}, finding.Figure{Name: "would_wb", Value: r.Would})...)
	case OfOff:
		f = finding.New("weigh.off.suspect", finding.Alarm, stage, append(figures,
			finding.Figure{Name: "read_kg", Value: r.Value}, finding.Figure{Name: "would_kg", Value: r.Would})...)
	default:
		f = finding.New("weigh.lost.suspect", finding.Alarm, stage, append(figures,
			finding.Figure{Name: "taken_dm", Value: r.Value}, finding.Figure{Name: "would_dm", Value: r.Would})...)
	}
	return weighed(f, "act.weigh.read-again", first.Odds, 0.3)
}

func note(f finding.Finding, act string) finding.Finding { return weighed(f, act, 1, 0.01) }

func weighed(f finding.Finding, act string, chance, cost float64) finding.Finding {
	f.Act, f.Source, f.Chance, f.Cost = act, practice, chance, cost
	return f
}
