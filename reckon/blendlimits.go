package reckon

import (
	"fmt"
	"math"

	"awn/finding"
	"awn/malt"
)

// arithmetic is what rounding in the machine may make of a room of nothing.
const arithmetic = 1e-12

// rooms are the rooms that each malt by itself has to a limit, each times the
// mass by which it counts, so that the room of a blend is their mean.
func (m mixed) rooms(figure string, least bool, limit float64) []float64 {
	key, total := figure, []float64(nil)
	if figure == "st" {
		key, total = "sn", m.figures("tn")
	}
	out := m.figures(key)
	w := m.weights(key)
	for i := range out {
		at := limit
		if total != nil {
			at = limit * total[i]
		}
		out[i] -= at
		if !least {
			out[i] = -out[i]
		}
		out[i] *= w[i] / m.shares[i]
	}
	return out
}

// judged holds the blend against its limits, and says for two malts which
// shares keep them all.
func (m mixed) judged(g *given) ([]Result, error) {
	var agreed, kept [2][]float64 // rooms of the first and of the second malt
	missed, limits, guards := 0, 0, 0
	for _, l := range blendLimits {
		if !g.has(l.key) {
			continue
		}
		figure := l.figure
		if figure == "st" {
			figure = "tn"
		}
		if !m.has(figure) {
			return nil, &Fault{Code: "reckon.blend.parts", Got: l.key, Allowed: []string{figure + " of every part"}}
		}
		rooms := m.rooms(l.figure, l.least, g.at(l.key))
		for i := range min(2, len(rooms)) {
			kept[i] = append(kept[i], rooms[i])
			if !l.guard {
				agreed[i] = append(agreed[i], rooms[i])
			}
		}
		if l.guard {
			guards++
			continue
		}
		limits++
		keeps := malt.Blended(m.shares, rooms) >= -arithmetic
		if !keeps {
			missed++
		}
		g.say(m.against(l.parameter, l.basis, l.figure, l.least, keeps, g.at(l.key)))
	}
	m.lots(g)
	if len(m.parts) != 2 || limits+guards == 0 {
		return nil, nil
	}
	return m.room(g, agreed, kept, guards, missed), nil
}

// against is a limit as a finding.
func (m mixed) against(p malt.Parameter, b malt.Basis, figure string, least, keeps bool, limit float64) finding.Finding {
	side, severity, act := "meets", finding.Note, ""
	switch {
	case !keeps && least:
		side, severity, act = "below", finding.Caution, "act.malt.blend-again"
	case !keeps:
		side, severity, act = "above", finding.Caution, "act.malt.blend-again"
	}
	x := malt.BlendedKolbach(m.dry, m.figures("sn"), m.figures("tn"))
	if figure != "st" {
		x = m.of(figure)
	}
	key := p.Key(b)
	f := finding.New("malt."+string(p)+"."+side, severity, "malt", finding.Figure{Name: key, Value: x}, finding.Figure{Name: "limit_" + key, Value: limit})
	f.Act = act
	return f
}

// lots says what every blend asks for.
func (m mixed) lots(g *given) {
	f := finding.New("malt.blend.lots", finding.Note, "malt", finding.Figure{Name: "lots_n", Value: float64(len(m.parts))})
	f.Act, f.Source = "act.malt.disclose", "Evans 2012"
	g.say(f)
}

// room are the shares of the second malt with which the blend keeps every
// limit, and those with which it keeps the guards too.
func (m mixed) room(g *given, agreed, kept [2][]float64, guards, missed int) []Result {
	least, most := malt.SharesOfSecond(agreed[0], agreed[1])
	f := finding.New("malt.blend.no-room", finding.Caution, "malt")
	f.Act = "act.malt.third"
	if !math.IsNaN(most) {
		f = finding.New("malt.blend.room", finding.Note, "malt", finding.Figure{Name: "least_tenths", Value: least}, finding.Figure{Name: "most_tenths", Value: most})
	}
	if missed > 0 || math.IsNaN(most) {
		f.Severity = finding.Caution
	}
	g.say(f)
	out := m.span("second", "second malt, to keep every limit", least, most)
	if guards > 0 {
		least, most = malt.SharesOfSecond(kept[0], kept[1])
		out = append(out, m.span("second_guarded", "second malt, to keep the guards too", least, most)...)
	}
	return out
}

// span is a range of shares of the second malt.
func (m mixed) span(key, name string, least, most float64) []Result {
	if math.IsNaN(most) {
		return nil // the finding says that there is none
	}
	const of = "malt.SharesOfSecond"
	r := bare(key+"_most", name+", at most", most, 100, 1, "%", of, fmt.Sprintf("all limits: %s to %s %%", figures(100*least, 4), figures(100*most, 4)))
	if least == 0 {
		return []Result{r}
	}
	return []Result{bare(key+"_least", name+", at least", least, 100, 1, "%", of, ""), r}
}
