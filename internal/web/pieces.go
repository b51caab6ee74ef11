package web

import (
	"net/url"

	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/words"
	"awn/ledger"
)

// pieces is every piece, and the form that starts one.
func (s *Server) pieces(v visit) (room, error) {
	u := v.Units
	all, err := s.House.Pieces(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	g := &grid{ID: "pieces", Caption: u.Say("room.pieces"), Head: []string{u.Say("room.piece"), u.Say("room.when"), u.Say("room.cast"), u.Say("room.stands")}}
	for _, p := range all {
		var cast ledger.Grams
		for _, d := range p.Cast.Body.From {
			cast += d.Amount.FreshKg
		}
		g.Rows = append(g.Rows, []cell{
			link(string(p.Code), thingAt(ledger.Piece+":"+string(p.Code))), v.moment(p.Cast.Fact), v.mass(ledger.Silo, cast),
			word(u.Say("state." + string(p.State))),
		})
	}
	plans, err := s.planGrid(v)
	if err != nil {
		return room{}, err
	}
	return room{
		Title: u.Say("page.go.pieces"), Under: u.Say("room.pieces.under"), Says: []saying{{Text: u.Say("room.design"), Href: pieceAt}}, API: apiAt + "/pieces",
		Parts: []roomPart{{Slips: v.may(s.form(v, "start", "/pieces", nil))}, {Grid: g}, {Grid: plans}},
	}, nil
}

// pieceRoom tells one piece: how it stands, how it goes on, what was done and
// found, what came of it.
func (s *Server) pieceRoom(v visit) (room, error) {
	u := v.Units
	code := ledger.Code(v.PathValue("code"))
	p, err := s.underway(v, code)
	if err != nil {
		return room{}, err
	}
	name := ledger.Piece + ":" + string(code)
	here := thingAt(name)
	out := room{Title: words.Capital(report.Thing(name, u)), Under: words.Capital(u.Say("state."+string(p.State))) + ".", API: apiAt + "/pieces/" + url.PathEscape(string(code))}
	if f := p.Forecast; f != nil && p.State != ledger.Done {
		out.Says = append(out.Says, v.nowOf(f)...)
		body, err := s.body(v, f, here+"/table.csv")
		if err != nil {
			return room{}, err
		}
		out.Parts = append(out.Parts, roomPart{Grid: v.ahead(f)}, roomPart{Heading: u.Say("room.expected"), Body: body, At: here + "/table.csv"})
	}
	if b := p.Booked; b != nil {
		out.Parts = append(out.Parts, v.came(*b))
	}
	sensed, err := s.glances(v, stays(p.Told, s.House.Clock()))
	if err != nil {
		return room{}, err
	}
	out.Parts = append(out.Parts, sensed...)
	known := url.Values{"piece": {string(code)}}
	reading := url.Values{"thing": {name}}
	forms := []slipForm{s.form(v, "read", here, reading), s.form(v, "act", here, known), s.form(v, "book", here, known)}
	if p.State == ledger.Done {
		forms = nil
	}
	if forms = v.may(forms...); len(forms) > 0 {
		out.Parts = append(out.Parts, roomPart{Heading: u.Say("room.enter"), Says: []saying{{Text: u.Say("floor.mind"), Grave: true}}, Slips: forms})
	}
	out.Parts = append(out.Parts, roomPart{Grid: v.told("told", p.Told)})
	if len(p.Results) > 0 {
		out.Parts = append(out.Parts, roomPart{Grid: v.results(p.Results)})
	}
	plan, err := s.planOf(v.Context(), v.Actor, code)
	if err != nil {
		return room{}, err
	}
	out.Says = append(out.Says, follows(v, plan, string(code))...)
	out.Says = append(out.Says, saying{Text: u.Say("room.trace-it"), Href: "/trace?of=" + url.QueryEscape(name)}, saying{Text: u.Say("assure.title"), Href: here + "/assurance"})
	return out, nil
}

// came is what came of a piece beside what was expected.
func (v visit) came(b malthouse.Booked) roomPart {
	g := &grid{ID: "came", Caption: v.Units.Say("record.came"), Head: []string{"", v.Units.Say("room.came"), ""}}
	for _, r := range report.BookedRows(b, v.Units) {
		g.Rows = append(g.Rows, []cell{word(r[0]), figure(r[1]), word(r[2])})
	}
	p := roomPart{Grid: g}
	if b.Unexplained != nil {
		p.Says = []saying{{Text: report.Say(b.Unexplained.Said(), v.Units), Grave: b.Unexplained.Alarm()}}
	}
	return p
}

// expected is the account of a piece under way, as it is expected now.
func (s *Server) expected(v visit, f *expect.Forecast) report.Report {
	r := s.account(v.Request)
	r.Outcome, r.Odds, r.Found, r.NowH = f.Drawn.Outcome, s.remembers.weigh(f.Drawn), f.Found, f.HourOf(f.Now)
	return r
}

// ahead is what the programme of a piece asks for from now on.
func (v visit) ahead(f *expect.Forecast) *grid {
	u := v.Units
	g := &grid{ID: "ahead", Caption: u.Say("floor.next"), Head: []string{u.Say("room.when"), u.Say("room.what"), ""}}
	for _, n := range f.Next[:min(6, len(f.Next))] {
		g.Rows = append(g.Rows, []cell{v.time(n.At), word(report.StepName(n, u)), word(report.Overdue(n, u))})
	}
	return g
}

// pieceTable is one table of what is expected of a piece.
func (s *Server) pieceTable(v visit) (file, error) {
	p, err := s.underway(v, ledger.Code(v.PathValue("code")))
	if err != nil {
		return file{}, err
	}
	if p.Forecast == nil {
		return file{}, errNoPage
	}
	return tableFile(s.expected(v, p.Forecast).Live(), v.Request)
}
