package report

import (
	"math"
	"strings"

	"awn/crop"
	"awn/internal/draw"
	"awn/internal/words"
)

// Live is the whole account of a harvest.
func (a CropAccount) Live() *Live {
	p := a.page()
	l := &Live{Verdict: a.serves(), Lines: append(p.Lines, p.Makes), Findings: p.Findings, Rest: p.Rest, Sections: p.Sections, units: a.Units}
	return l.numbered()
}

// serves says what part of the harvest serves each contract, and what keeps out
// most of the rest.
func (a CropAccount) serves() string {
	u := a.Units
	var out []string
	for _, k := range a.Summary.Takings {
		value, low, high := k.All.Tonnes()
		text := u.Say("crop.serves", "whole", tonnes(k.All.TonnesT, u), "share", a.per(k.All.Share.Value), "low", a.per(k.All.Share.Low), "high", a.per(k.All.Share.High),
			"contract", k.Contract.Name, "taken", tonnes(value, u), "least", tonnes(low, u), "most", tonnes(high, u))
		if r, ok := foremost(k); ok {
			text += " " + u.Say("crop.refuses", "limit", words.Capital(a.limit(r)), "share", a.per(r.All.Value))
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

// foremost is the limit that is missed most.
func foremost(k crop.Taking) (best crop.Reason, found bool) {
	for _, r := range k.Reasons {
		if r.All.Value > 0 && (!found || r.All.Value > best.All.Value) {
			best, found = r, true
		}
	}
	return best, found
}

// limit is a limit with what misses it: "protein above 11.5 % dm".
func (a CropAccount) limit(r crop.Reason) string {
	phrase := "crop.limit.most"
	if r.Limit.Least {
		phrase = "crop.limit.least"
	}
	f := r.Limit.In.Figure("at", r.Limit.At)
	return a.Units.Say(phrase, "name", a.Units.Factor(r.Limit.Key), "at", words.Figure(f.Name, f.Value, a.Units))
}

// squares are districts of which nobody has said where they lie, laid out in rows,
// in the order of their names.
func squares(districts []string) (out []draw.MapPlace) {
	across := int(math.Ceil(math.Sqrt(float64(len(districts)))))
	const side = 0.96 // of a square, the rest lies between two
	for i, name := range districts {
		x, y := float64(i%across), -float64(i/across)
		out = append(out, draw.MapPlace{Name: name, X: []float64{x, x + side, x + side, x}, Y: []float64{y, y, y - side, y - side}})
	}
	return out
}
