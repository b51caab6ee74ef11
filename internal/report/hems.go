package report

import (
	"awn/internal/draw"
	"awn/internal/words"
	"awn/programme"
)

// hemmed gives the panels of the course the odds of their chief readings, where
// there are draws. They come in this order, as far as they were read at all.
func (r Report) hemmed(panels []draw.Panel) []draw.Panel {
	if r.Odds == nil {
		return panels
	}
	word := r.Units.Say("band.odds")
	for i := range panels {
		for reading, title := range map[programme.Reading]string{
			programme.Moisture: "panel.moisture", programme.TempMean: "panel.temperature", programme.Acrospire: "panel.growth",
			programme.OxygenLeast: "panel.gas",
		} {
			if panels[i].Title != r.panelTitled(title) {
				continue
			}
			hem := draw.Band{
				Low: r.along(r.Odds.Curve.P10, reading), High: r.along(r.Odds.Curve.P90, reading),
				LowWord: "p10", HighWord: "p90", Word: word, Hem: true,
			}
			if known(hem.Low) && known(hem.High) {
				panels[i].Bands = append(panels[i].Bands, hem)
			}
		}
	}
	return panels
}

// panelTitled is the title of a panel with the unit it is drawn in.
func (r Report) panelTitled(phrase string) string {
	switch phrase {
	case "panel.moisture":
		return r.panelTitle(phrase, "wb")
	case "panel.temperature":
		return r.panelTitle(phrase, "c")
	}
	return r.panelTitle(phrase, "share")
}

// measured gives the panels what was measured of the piece, as points.
func (r Report) measured(panels []draw.Panel) []draw.Panel {
	for _, f := range r.Found {
		phrase := map[programme.Reading]string{
			programme.Moisture: "panel.moisture", programme.TempMean: "panel.temperature", programme.Acrospire: "panel.growth", programme.Chit: "panel.growth",
		}[f.Of]
		for i := range panels {
			if panels[i].Title == r.panelTitled(phrase) {
				panels[i].Points = append(panels[i].Points, draw.Point{AtH: f.TimeH, Value: words.Value(f.Of.Key(), f.Value, r.Units)})
			}
		}
	}
	return panels
}

// along is a percentile of a reading at each moment of the curve, in the reader's
// unit.
func (r Report) along(at []programme.Values, reading programme.Reading) []float64 {
	out := r.percentile(at, reading)
	words.Values(reading.Key(), out, r.Units)
	return out
}

// percentile is one of a reading at each moment of the curve.
func (r Report) percentile(at []programme.Values, reading programme.Reading) []float64 {
	c := r.Odds.Curve
	out := make([]float64, len(r.Outcome.Curve.TimeH))
	next := 1
	for i, h := range r.Outcome.Curve.TimeH {
		for next < len(c.TimeH)-1 && c.TimeH[next] < h {
			next++
		}
		before, after := c.TimeH[next-1], c.TimeH[next]
		part := 1.0
		if after > before {
			part = min(max((h-before)/(after-before), 0), 1)
		}
		out[i] = at[next-1][reading] + part*(at[next][reading]-at[next-1][reading])
		if part == 1 {
			out[i] = at[next][reading]
		}
	}
	return out
}

// hump is how the draws lie along the figure of a limit, in the reader's unit.
func (r Report) hump(i int, in func(float64) float64) draw.Hump {
	if r.Odds == nil {
		return draw.Hump{}
	}
	h := r.Odds.Lines[i].Hump
	return draw.Hump{From: in(h.From), To: in(h.To), Height: h.Height}
}
