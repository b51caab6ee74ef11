package report

import (
	"cmp"
	"slices"

	"awn/internal/draw"
	"awn/internal/malthouse"
	"awn/internal/words"
)

// mostArms are drawn one by one; what is less than the least of them is one arm
// together.
const mostArms = 12

// Origins are the arms of a thing, those behind it and those ahead; nil where
// neither is known.
func Origins(t malthouse.Traced, u words.Units) *Live {
	l, n := &Live{Compared: true, units: u}, &counter{}
	var behind, ahead []draw.Arm
	whole := 0.0
	for _, s := range t.Sources {
		behind = append(behind, arm(thing(string(s.Origin), u), s.Share, s.Least, s.Most, s.DryKg, u))
	}
	for _, h := range t.Holders {
		whole += h.DryKg
	}
	for _, h := range t.Holders {
		if whole <= 0 {
			break
		}
		name := u.Say("record.nobody")
		if h.Place != "" {
			name = thing(string(h.Place), u)
		}
		if h.Receiver != "" {
			name = u.Say("origin.held-by", "name", name, "who", h.Receiver)
		}
		ahead = append(ahead, arm(name, h.DryKg/whole, h.LeastKg/whole, h.MostKg/whole, h.DryKg, u))
	}
	pen := draw.Pen{Number: u.Number}
	head := []string{u.Say("origin.part"), u.Say("room.share"), u.Say("head.least"), u.Say("head.most"), u.Say("room.dry")}
	for _, o := range []draw.Origin{
		{ID: "behind", Title: u.Say("record.behind"), Says: u.Say("origin.says.behind"), Head: head, Arms: fewer(behind, u)},
		{ID: "ahead", Title: u.Say("record.ahead"), Says: u.Say("origin.says.ahead"), Head: head, Away: true, Arms: fewer(ahead, u)},
	} {
		if len(o.Arms) > 0 {
			l.Figures = append(l.Figures, n.figures([]string{o.Title}, pen.Origin(o))...)
		}
	}
	if len(l.Figures) == 0 {
		return nil
	}
	return l.numbered()
}

// arm is one part in the reader's words.
func arm(name string, share, least, most, dryKg float64, u words.Units) draw.Arm {
	band := u.Say("record.exact")
	per := func(x float64) string { return u.Number(100*x, 0) }
	if per(least) != per(most) {
		band = u.Say("record.band", "least", per(least), "most", per(most))
	}
	return draw.Arm{
		Word: name, Figure: u.Say("origin.figure", "share", words.Figure("tenths", share, u), "band", band), Amount: words.Figure("kg_dm", dryKg, u),
		Share: share, Least: least, Most: most,
	}
}

// fewer are the arms, the largest first, the small ones together. Of several the
// least is no less than their leasts added up, and the most no more than their
// mosts.
func fewer(all []draw.Arm, u words.Units) []draw.Arm {
	slices.SortStableFunc(all, func(a, b draw.Arm) int { return cmp.Compare(b.Share, a.Share) })
	if len(all) <= mostArms+1 {
		return all
	}
	var rest draw.Arm
	for _, a := range all[mostArms:] {
		rest.Share, rest.Least, rest.Most = rest.Share+a.Share, rest.Least+a.Least, min(1, rest.Most+a.Most)
	}
	few := arm(u.Say("origin.more", "count", u.Number(float64(len(all)-mostArms), 0)), rest.Share, rest.Least, rest.Most, 0, u)
	few.Amount = ""
	return append(all[:mostArms:mostArms], few)
}
