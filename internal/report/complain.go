package report

import (
	"io"
	"math"

	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/ledger"
)

// Complaint is the evidence on a complaint, as a document.
func (s Sheets) Complaint(c malthouse.Complaint) Leaf {
	u := s.Units
	l := s.leaf(u.Say("complaint.title"), string(c.Lot))
	for _, x := range c.Claims {
		l.Parts = append(l.Parts, s.claim(x))
	}
	kept := part{title: u.Say("complaint.kept")}
	for _, k := range c.Kept {
		kept.says = append(kept.says, u.Say("complaint.sample", "sample", string(k.Body.Sample), "where", k.Body.Kept, "when", u.Moment(k.Fact.At, k.Fact.OffsetMin)))
	}
	if len(c.Kept) == 0 {
		kept.says = []string{u.Say("complaint.none-kept")}
	}
	l.Parts = append(l.Parts, kept)
	others := part{title: u.Say("complaint.others"), head: []string{u.Say("room.place"), u.Say("room.of-it"), u.Say("room.receiver"), u.Say("room.contact")}, align: "lrll"}
	for _, h := range c.Holders {
		if h.Place.Inside() {
			others.rows = append(others.rows, []string{thing(string(h.Place), u), words.Figure("kg_dm", h.DryKg, u), h.Receiver, h.Contact})
		}
	}
	if len(others.rows) > 0 {
		l.Parts = append(l.Parts, others)
	}
	made := part{title: u.Say("complaint.made"), head: []string{u.Say("room.lot"), u.Say("room.found"), u.Say("room.vessel")}, align: "lll"}
	for _, n := range c.Made {
		for _, x := range c.Claims {
			for _, r := range n.Results {
				if r.Quantity == x.Quantity {
					made.rows = append(made.rows, []string{string(n.Lot), quantityName(string(r.Quantity), u) + " " + words.Figure(string(r.Quantity), r.Value, u), n.Vessel})
				}
			}
		}
	}
	if len(made.rows) > 0 {
		l.Parts = append(l.Parts, made)
	}
	l.Proof = []string{u.Say("complaint.caution")}
	return l
}

// claim is one figure that is complained of.
func (s Sheets) claim(x malthouse.Claim) part {
	u := s.Units
	key := string(x.Quantity)
	p := part{
		title: words.Capital(quantityName(key, u)), align: "lrl", head: []string{"", u.Say("room.found"), u.Say("room.method")},
		rows: [][]string{{u.Say("complaint.claimed"), words.Figure(key, x.Value, u), x.Method}},
	}
	for _, r := range x.Found {
		p.rows = append(p.rows, []string{u.Say("complaint.found"), below(r.Less) + words.Figure(key, r.Value, u), join([]string{r.Method, r.Lab})})
	}
	switch {
	case len(x.Found) == 0:
		p.says = append(p.says, u.Say("complaint.not-found"))
	case math.IsNaN(x.ByTest):
		p.says = append(p.says, u.Say("complaint.no-precision"))
	default:
		p.says = append(p.says, u.Say("complaint.by-test", "chance", words.Figure("tenths", x.ByTest, u)))
	}
	switch {
	case x.Moved != nil:
		p.says = append(p.says, u.Say("complaint.moved", "bench", x.Moved.Bench.String(), "since", day(x.Moved.Since)))
	case len(x.Found) > 0:
		p.says = append(p.says, u.Say("complaint.steady"))
	}
	return p
}

// ComplaintJSON writes the evidence for programs.
func ComplaintJSON(w io.Writer, c malthouse.Complaint, v house.Version) error {
	return recordJSON(w, "complaint/1", v, object{
		"lot": c.Lot,
		"claims": each(c.Claims, func(x malthouse.Claim) object {
			o := object{"quantity": x.Quantity, "value": x.Value, "found": each(x.Found, func(r ledger.Result) object {
				return object{"value": r.Value, "less": r.Less}.text("lab", r.Lab).text("method", r.Method)
			})}.num("by_test", x.ByTest)
			if x.Moved != nil {
				o["moved"] = x.Moved.Bench.String()
			}
			return o
		}),
		"kept": each(c.Kept, func(k malthouse.Entered[*ledger.Sampling]) object {
			return object{"sample": k.Body.Sample, "where": k.Body.Kept}
		}),
		"made": each(c.Made, func(n malthouse.Neighbour) object {
			return object{"lot": n.Lot, "vessel": n.Vessel, "kind": n.Kind, "results": each(n.Results, func(r ledger.Result) object { return object{"quantity": r.Quantity, "value": r.Value} })}
		}),
		"holders": each(c.Holders, func(h malthouse.Holder) object {
			return object{"place": h.Place, "dry_kg_dm": h.DryKg}.text("receiver", h.Receiver).text("contact", h.Contact)
		}),
	})
}
