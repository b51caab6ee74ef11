package web

import (
	"math"
	"net/url"
	"time"

	"awn/internal/expect"
	"awn/internal/report"
	"awn/internal/words"
	"awn/ledger"
	"awn/programme"
)

// floor is what needs somebody now: the next acts of every piece in the order
// in which they fall, and what is out of line.
func (s *Server) floor(v visit) (room, error) {
	u := v.Units
	under, err := s.allUnderway(v)
	if err != nil {
		return room{}, err
	}
	out := room{Title: u.Say("page.go.floor"), Under: u.Say("room.floor.under"), API: apiAt + "/pieces"}
	g := &grid{ID: "next", Caption: u.Say("floor.next"), Head: []string{u.Say("room.when"), u.Say("room.piece"), u.Say("room.vessel"), u.Say("room.what"), ""}}
	vessels := map[ledger.Code]string{}
	for _, p := range under {
		vessels[p.PieceView.Piece] = p.Vessel
	}
	for i, c := range ahead(under) {
		if i == 0 {
			out.Says = []saying{v.first(c, vessels[c.Piece])}
		}
		g.Rows = append(g.Rows, []cell{
			v.time(c.At), link(string(c.Piece), thingAt(ledger.Piece+":"+string(c.Piece))), word(vessels[c.Piece]),
			word(report.StepName(c.Next, u)), word(report.Overdue(c.Next, u)),
		})
	}
	if len(under) == 0 {
		out.Says = append(out.Says, saying{Text: u.Say("floor.nothing"), Href: slipsAt + "start?back=/floor"})
	}
	out.Says = append(out.Says, saying{Text: u.Say("due.title"), Href: dueAt}, saying{Text: u.Say("shift.title"), Href: shiftAt},
		saying{Text: u.Say("floor.mind"), Grave: true})
	out.Parts = []roomPart{{Grid: g}}
	for _, p := range under {
		out.Parts = append(out.Parts, s.floorPart(v, p))
	}
	if len(under) == 0 {
		return out, nil
	}
	round, err := s.round(v)
	if err != nil {
		return room{}, err
	}
	body, err := set(round.Round(), "/floor/table.csv")
	out.Parts = append(out.Parts, roomPart{Body: body, At: "/floor/table.csv"})
	return out, err
}

// first says what somebody has to do first.
func (v visit) first(c expect.Coming, where string) saying {
	u := v.Units
	late := report.Overdue(c.Next, u)
	if late == "" {
		return saying{Text: u.Say("floor.first", "what", report.StepName(c.Next, u), "piece", string(c.Piece), "where", where, "when", v.clock(c.At))}
	}
	return saying{Text: u.Say("floor.late", "what", report.StepName(c.Next, u), "piece", string(c.Piece), "where", where, "when", v.clock(c.At), "late", late), Grave: true}
}

// floorPart is how one piece should stand, and what can be entered of it.
func (s *Server) floorPart(v visit, p under) roomPart {
	u, code := v.Units, string(p.PieceView.Piece)
	part := roomPart{Heading: u.Say("floor.piece", "piece", code, "state", u.Say("state."+string(p.State)), "vessel", p.Vessel)}
	switch {
	case p.Forecast != nil:
		part.Says = v.nowOf(p.Forecast)
	case p.Plan == nil || len(p.Plan.Inputs) == 0:
		part.Says = []saying{{Text: u.Say("floor.no-plan")}}
	}
	part.Slips = v.may(
		s.quick(v, s.form(v, "read", "/floor", url.Values{"thing": {ledger.Piece + ":" + code}})), s.form(v, "act", "/floor", url.Values{"piece": {code}}),
	)
	return part
}

// ahead is what the programmes of pieces ask for.
func ahead(all []under) []expect.Coming {
	var forecasts []expect.Forecast
	for _, p := range all {
		if p.Forecast != nil {
			forecasts = append(forecasts, *p.Forecast)
		}
	}
	return expect.Ahead(report.MostAhead, forecasts...)
}

// clock is a time of day, with its day where that is not today's.
func (v visit) clock(at time.Time) string {
	_, offset := at.Zone()
	return v.Units.Moment(at.UnixMilli(), offset/60)
}

// nowOf is how a piece should stand now, and how sure that is.
func (v visit) nowOf(f *expect.Forecast) (out []saying) {
	u := v.Units
	for _, r := range []programme.Reading{programme.Moisture, programme.TempMean, programme.Acrospire} {
		p10, p50, p90 := f.Band(f.Now, r)
		if math.IsNaN(p50) {
			continue
		}
		key := r.Key()
		out = append(out, saying{Text: u.Say("floor.now", "what", words.Capital(u.Reading(r)),
			"figure", words.Figure(key, p50, u), "low", words.Figure(key, p10, u), "high", words.Figure(key, p90, u))})
	}
	if len(out) > 0 {
		out = append(out, saying{Text: u.Say("odds.uncalibrated")})
	}
	for _, a := range f.Astray {
		key := a.Of.Key()
		out = append(out, saying{Text: u.Say("floor.astray", "what", words.Capital(u.Reading(a.Of)),
			"figure", words.Figure(key, a.Value, u), "low", words.Figure(key, a.P10, u), "high", words.Figure(key, a.P90, u)), Grave: true})
	}
	if f.Effective < expect.Few {
		out = append(out, saying{Text: u.Say("floor.outside", "count", u.Number(f.Effective, 0)), Grave: true})
	}
	return out
}
