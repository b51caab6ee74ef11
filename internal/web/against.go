package web

import (
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/report"
	"awn/ledger"
	"awn/malt"
)

// against holds the lots of malt in store, as they were measured, against what
// buyers ask.
func (s *Server) against(v visit, held malthouse.Stock, lots []malthouse.Lot) (roomPart, error) {
	u := v.Units
	asked, err := s.House.AllAgreed(v.Context(), v.Actor, malthouse.SpecificationKind)
	if err != nil {
		return roomPart{}, err
	}
	if len(asked) == 0 {
		return roomPart{Says: []saying{{Text: u.Say("room.no-specification"), Href: keptAt + "/" + malthouse.SpecificationKind}}}, nil
	}
	g := &grid{ID: "against", Caption: u.Say("room.against"), Head: []string{u.Say("room.lot")}}
	var limits []malt.Specification
	for _, a := range asked {
		text, err := s.House.Desk.Document(v.Context(), string(a.Document))
		if err != nil {
			return roomPart{}, err
		}
		spec, faults := paper.Read[paper.Specification](a.Name, text)
		if len(faults) > 0 {
			return roomPart{}, faults
		}
		limits = append(limits, spec.Specification())
		g.Head = append(g.Head, a.Name)
	}
	here := inStore(held)
	for _, l := range lots {
		if !here[l.Code] {
			continue
		}
		row, found := []cell{v.thing(ledger.LotKind + ":" + string(l.Code))}, report.Found(l)
		for _, spec := range limits {
			row = append(row, word(report.Fit(malt.Judge(spec, found), u)))
		}
		g.Rows = append(g.Rows, row)
	}
	return roomPart{Grid: g, Says: []saying{{Text: u.Say("room.against.says")}}}, nil
}

// inStore is which lots the malt stores hold some of.
func inStore(held malthouse.Stock) map[ledger.Code]bool {
	out := map[ledger.Code]bool{}
	for _, h := range held.Places {
		if h.Account.Kind() != ledger.MaltStore {
			continue
		}
		for _, l := range h.Lots {
			if l.Share >= report.LeastShare {
				out[l.Lot] = true
			}
		}
	}
	return out
}
