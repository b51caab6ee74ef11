package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/slip"
	"awn/ledger"
)

// Where the duties of a house are told.
const (
	dueAt       = "/due"
	shiftAt     = "/handover"
	complaintAt = "/complaint"
)

// openDuties opens the pages of what comes due, of shifts, control points and
// complaints.
func (s *Server) openDuties() {
	s.leaf(dueAt, func(v visit) (report.Leaf, []roomPart, error) {
		all, err := s.House.Due(v.Context(), v.Actor, 24*time.Hour)
		return s.sheets(v).Due(all), []roomPart{{Slips: v.may(s.form(v, "decide", dueAt, nil))}}, err
	})
	s.leaf(shiftAt, s.shift)
	s.let("POST "+shiftAt+"/give", malthouse.UseShift, s.giveShift)
	s.let("POST "+shiftAt+"/take", malthouse.UseShift, func(w http.ResponseWriter, v visit) error {
		done, err := s.House.TakeShift(v.Context(), v.Actor, malthouse.Entry{})
		return s.told(w, v, done, shiftAt, err)
	})
	s.leaf("/pieces/{code}/assurance", s.assurance)
	s.room("GET "+complaintAt, malthouse.UseLook, s.complaint)
}

// shiftLasts is how far back a handover looks.
const shiftLasts = 8 * time.Hour

// shiftLeaf is the page that one shift hands to the next.
func (s *Server) shiftLeaf(v visit, notes ...string) (report.Leaf, malthouse.Shift, error) {
	x, err := s.House.Shift(v.Context(), v.Actor, s.House.Clock().Add(-shiftLasts))
	if err != nil {
		return report.Leaf{}, x, err
	}
	under, err := s.allUnderway(v)
	x.Notes = notes
	return s.sheets(v).Shift(x, ahead(under)), x, err
}

// shift is the page with what signs it.
func (s *Server) shift(v visit) (report.Leaf, []roomPart, error) {
	l, x, err := s.shiftLeaf(v)
	if err != nil || !v.Actor.May(malthouse.UseShift) {
		return l, nil, err
	}
	sign := blankForm{At: shiftAt + "/give", Word: v.Units.Say("shift.give"), Blanks: []blank{{Name: "note", Label: v.Units.Say("slip.field.note"), Wide: true}}}
	if x.Given != nil {
		sign = blankForm{At: shiftAt + "/take", Word: v.Units.Say("shift.take", "who", x.Given.Fact.Who)}
	}
	return l, []roomPart{{Forms: []blankForm{sign}}}, nil
}

// giveShift signs the page as whoever leaves.
func (s *Server) giveShift(w http.ResponseWriter, v visit) error {
	note := strings.TrimSpace(v.PostFormValue("note"))
	l, _, err := s.shiftLeaf(v, filledIn([]string{note})...)
	if err != nil {
		return err
	}
	var page strings.Builder
	if err := l.Text(&page); err != nil {
		return err
	}
	done, err := s.House.GiveShift(v.Context(), v.Actor, malthouse.Entry{}, note, []byte(page.String()))
	return s.told(w, v, done, shiftAt, err)
}

func filledIn(texts []string) []string {
	return slices.DeleteFunc(texts, func(t string) bool { return strings.TrimSpace(t) == "" })
}

// assurance is the control points of a piece, if the house keeps any.
func (s *Server) assurance(v visit) (report.Leaf, []roomPart, error) {
	plan, points, found, err := slip.HousePoints(v.Context(), s.House, v.Actor)
	if err != nil {
		return report.Leaf{}, nil, err
	}
	var more []roomPart
	if !found {
		more = []roomPart{{Says: []saying{{Text: v.Units.Say("assure.none"), Href: keptAt + "/" + malthouse.ControlPoints, Grave: true}}}}
	}
	a, err := s.House.Assure(v.Context(), v.Actor, ledger.Code(v.PathValue("code")), points)
	if err != nil || !found {
		return s.sheets(v).Assurance(plan, nil), more, err
	}
	return s.sheets(v).Assurance(plan, []malthouse.Assurance{a}), nil, nil
}

// complaint asks what is complained of, and answers with what the record holds.
func (s *Server) complaint(v visit) (room, error) {
	u, q := v.Units, v.URL.Query()
	lot, texts := q.Get("lot"), filledIn(q["claim"])
	ask := &question{At: complaintAt, Word: u.Say("complaint.ask"), Fields: []askField{
		{Name: "lot", Label: u.Say("room.lot"), Value: lot}, {Name: "claim", Label: u.Say("complaint.claim"), Value: q.Get("claim")},
	}}
	if lot == "" || len(texts) == 0 {
		return room{Title: u.Say("complaint.page"), Under: u.Say("complaint.under"), Ask: ask}, nil
	}
	claims, err := slip.Figures("claim", texts, "")
	var faults slip.Faults
	if errors.As(err, &faults) {
		return room{Title: u.Say("complaint.page"), Ask: ask, Says: []saying{{Text: slipSays(u, faults[0]), Grave: true}}}, nil
	}
	c, err := s.House.Complain(v.Context(), v.Actor, slip.Bare(lot), claims)
	if err != nil {
		return room{}, err
	}
	l := s.sheets(v).Complaint(c)
	out := leafRoom(v, l)
	out.API = apiAt + complaintAt + "?" + url.Values{"lot": {lot}, "claim": texts}.Encode()
	out.Ask, out.File = ask, printed(v, "complaint-"+string(c.Lot), l)
	return out, nil
}

// complaintOf is where a complaint about a lot is asked.
func complaintOf(lot string) string { return complaintAt + "?lot=" + url.QueryEscape(lot) }
