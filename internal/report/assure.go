package report

import (
	"io"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/ledger"
)

// limits are the limits of a control point in words.
func (s Sheets) limits(p malthouse.ControlPoint) string {
	key := string(p.Quantity)
	switch {
	case p.Least != nil && p.Most != nil:
		return words.Figure(key, *p.Least, s.Units) + " – " + words.Figure(key, *p.Most, s.Units)
	case p.Least != nil:
		return "≥ " + words.Figure(key, *p.Least, s.Units)
	case p.Most != nil:
		return "≤ " + words.Figure(key, *p.Most, s.Units)
	}
	return ""
}

// Assurance is the control points of pieces, as a document.
func (s Sheets) Assurance(plan string, all []malthouse.Assurance) Leaf {
	u := s.Units
	l := s.leaf(u.Say("assure.title"), "")
	l.About = [][2]string{{u.Say("assure.plan"), plan}}
	whole := 0
	for _, a := range all {
		if a.Complete() {
			whole++
		}
		l.Parts = append(l.Parts, s.assured(a))
	}
	l.First = []string{u.Say("assure.count", "whole", u.Number(float64(whole), 0), "of", u.Number(float64(len(all)), 0))}
	l.Proof = []string{u.Say("assure.caution")}
	if len(all) > 0 {
		l.Proof = append(l.Proof, u.Say("close.head", "head", HeadText(all[len(all)-1].Head)))
	}
	return l
}

// assured is one piece.
func (s Sheets) assured(a malthouse.Assurance) part {
	u := s.Units
	p := part{
		title: words.Capital(thing(ledger.Piece+":"+string(a.Piece), u)), align: "llll",
		head: []string{u.Say("assure.point"), u.Say("room.found"), u.Say("assure.limit"), u.Say("due.thing")},
	}
	for _, r := range a.Rows {
		found := u.Say("assure.missing")
		for i, x := range r.Readings {
			text := below(x.Less) + words.Figure(string(x.Quantity), x.Value, u)
			if found = text + ", " + found; i == 0 {
				found = text
			}
		}
		if len(r.Beyond) > 0 {
			found = u.Say("assure.beyond", "found", found)
		}
		p.rows = append(p.rows, []string{r.Point.Name, found, s.limits(r.Point), thing(string(r.Thing), u)})
		for _, t := range r.Decisions {
			p.says = append(p.says, u.Say("assure.decided", "thing", thing(string(r.Thing), u), "what", u.Say("happened."+string(t.Fact.Kind)), "why", Detail(t.Body, u), "who", t.Who, "when", u.Moment(t.Fact.At, t.Fact.OffsetMin)))
		}
		if r.Open() {
			p.says = append(p.says, u.Say("assure.open", "thing", thing(string(r.Thing), u), "act", r.Point.Act))
		}
	}
	for _, x := range a.Leaves {
		stands := u.Say("room.unreleased")
		if x.Leave != "" {
			stands = u.Say("leave." + string(x.Leave))
		}
		p.says = append(p.says, u.Say("assure.lot", "lot", string(x.Lot), "stands", stands))
	}
	if a.Complete() {
		p.says = append(p.says, u.Say("assure.complete"))
	} else {
		p.says = append(p.says, u.Say("assure.incomplete"))
	}
	return p
}

// AssuranceJSON writes control points for programs.
func AssuranceJSON(w io.Writer, all []malthouse.Assurance, v house.Version) error {
	return recordJSON(w, "assurance/1", v, object{"pieces": each(all, func(a malthouse.Assurance) object {
		return object{"piece": a.Piece, "complete": a.Complete(), "head": headObject(a.Head), "points": each(a.Rows, func(r malthouse.Assured) object {
			o := object{
				"point": r.Point.Name, "thing": r.Thing, "quantity": r.Point.Quantity, "missing": r.Missing(), "open": r.Open(),
				"readings": each(r.Readings, func(x ledger.Result) object {
					return object{"value": x.Value, "less": x.Less}.text("lab", x.Lab).text("method", x.Method)
				}),
				"decisions": each(r.Decisions, func(t malthouse.Told) object {
					return object{"id": t.Fact.ID, "kind": t.Fact.Kind, "at_ms": t.Fact.At, "who": t.Fact.Who}
				}),
			}
			if r.Point.Least != nil {
				o["least"] = *r.Point.Least
			}
			if r.Point.Most != nil {
				o["most"] = *r.Point.Most
			}
			return o
		})}
	})})
}
