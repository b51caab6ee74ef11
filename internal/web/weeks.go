package web

import (
	"context"
	"html/template"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"time"

	"awn/course"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/ledger"
)

// weeksAt is the page of pieces through the weeks.
const weeksAt = "/weeks"

// How many weeks are shown where nobody asked, and how many at most.
const (
	usualWeeks = 6
	mostWeeks  = 52
)

// openWeeks opens the page with its tables.
func (s *Server) openWeeks() {
	s.room("GET "+weeksAt, malthouse.UseLook, s.weeks)
	s.let("GET "+weeksAt+"/table.csv", malthouse.UseLook, s.handed(func(v visit) (file, error) {
		a, err := s.through(v)
		if err != nil {
			return file{}, err
		}
		return tableFile(a.Live(), v.Request)
	}))
	s.let("GET /floor/table.csv", malthouse.UseLook, s.handed(func(v visit) (file, error) {
		a, err := s.round(v)
		if err != nil {
			return file{}, err
		}
		return tableFile(a.Round(), v.Request)
	}))
}

// How far back and ahead the floor looks.
const (
	roundBack  = 12 * time.Hour
	roundAhead = 24 * time.Hour
)

// round is the account of the hours round now.
func (s *Server) round(v visit) (report.WeeksAccount, error) {
	now := s.House.Clock().In(v.Units.In(s.House.Zone))
	return s.between(v, now.Add(-roundBack), now.Add(roundAhead))
}

// through is the account of the weeks that were asked for: from the Monday of
// last week, if nobody said.
func (s *Server) through(v visit) (report.WeeksAccount, error) {
	zone := v.Units.In(s.House.Zone)
	now := s.House.Clock().In(zone)
	from := time.Date(now.Year(), now.Month(), now.Day()-7-(int(now.Weekday())+6)%7, 0, 0, 0, 0, zone)
	if text := v.FormValue("from"); text != "" {
		day, err := time.ParseInLocation(time.DateOnly, text, zone)
		if err != nil {
			return report.WeeksAccount{}, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "from is a day as in 2026-01-31")
		}
		from = day
	}
	weeks := usualWeeks
	if text := v.FormValue("weeks"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > mostWeeks {
			return report.WeeksAccount{}, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "weeks is a number from 1 to "+strconv.Itoa(mostWeeks))
		}
		weeks = n
	}
	return s.between(v, from, from.AddDate(0, 0, 7*weeks))
}

// between is the account of the pieces in the house between two moments. It
// waits a little for draws that are being made, and then does without.
func (s *Server) between(v visit, from, to time.Time) (a report.WeeksAccount, err error) {
	a.Units = v.Units
	waiting, stop := context.WithTimeout(v.Context(), prospectWait)
	defer stop()
	a.Weeks, err = expect.Through(v.Context(), s.House, v.Actor, from, to, func(_ context.Context, p *malthouse.Plan) (*course.Ensemble, error) {
		drawn, ready, err := s.prospects.of(waiting, s.House, p)
		if err != nil || !ready {
			return nil, err
		}
		return drawn, nil
	}, s.remembers.given)
	return a, err
}

// weeks shows which piece goes where, and when its order is ready.
func (s *Server) weeks(v visit) (room, error) {
	u := v.Units
	a, err := s.through(v)
	if err != nil {
		return room{}, err
	}
	body, err := set(a.Live(), weeksAt+"/table.csv")
	if err != nil {
		return room{}, err
	}
	from, weeks := a.From.Format(time.DateOnly), strconv.Itoa(int(a.To.Sub(a.From).Hours()+12)/168)
	asked := template.HTML(`<input type="hidden" name="from" value="` + from + `"><input type="hidden" name="weeks" value="` + weeks + `">`) // a day and a number
	out := room{Title: u.Say("page.go.weeks"), Under: u.Say("weeks.under"), API: apiAt + weeksAt}
	out.Ask = &question{At: weeksAt, Word: u.Say("weeks.show"), Fields: []askField{
		{"from", u.Say("weeks.from"), from}, {"weeks", u.Say("weeks.weeks"), weeks},
	}}
	meant, err := s.meant(v)
	if err != nil {
		return room{}, err
	}
	out.Parts = []roomPart{{Body: asked + body, At: weeksAt}, meant}
	return out, nil
}

// meant is the pieces that are to be cast, with what can be done of them.
func (s *Server) meant(v visit) (roomPart, error) {
	u := v.Units
	all, err := s.House.Intentions(v.Context(), v.Actor)
	if err != nil {
		return roomPart{}, err
	}
	g := &grid{ID: "intentions", Caption: u.Say("weeks.intentions"), Head: []string{u.Say("room.when"), u.Say("room.vessel"), u.Say("weeks.head.order"), u.Say("weeks.head.due"), u.Say("weeks.plan"), "", "", ""}}
	moment := func(t ledger.Time) string {
		if t == 0 {
			return ""
		}
		return v.clock(time.UnixMilli(int64(t)).In(s.House.Zone))
	}
	for _, m := range all {
		b, id := m.Body, m.Fact.ID
		row := []cell{word(moment(b.Begin)), word(b.Vessel), word(b.Order), word(moment(b.Due)), word(b.Name), word(""), word(""), word("")}
		if v.Actor.May(malthouse.UseStart) {
			row[5] = link(u.Say("weeks.cast-it"), slipsAt+"start?"+url.Values{"does": {id}, "vessel": {b.Vessel}, "back": {weeksAt}}.Encode())
		}
		if v.Actor.May(malthouse.UseIntend) {
			row[6] = link(u.Say("weeks.move-it"), slipsAt+"intend?"+s.moved(v, m).Encode())
		}
		if v.Actor.May(malthouse.UseStrike) {
			row[7] = link(u.Say("weeks.strike-it"), slipsAt+"strike?"+url.Values{"fact": {id}, "back": {weeksAt}}.Encode())
		}
		g.Rows = append(g.Rows, row)
	}
	return roomPart{Slips: v.may(s.form(v, "intend", weeksAt, nil)), Grid: g}, nil
}

// moved is an intention as it is typed once more, to be moved.
func (s *Server) moved(v visit, m malthouse.Entered[*ledger.Intention]) url.Values {
	b := m.Body
	out := url.Values{"replaces": {m.Fact.ID}, "back": {weeksAt}}
	for name, text := range map[string]string{"vessel": b.Vessel, "box": b.Box, "kiln": b.Kiln, "order": b.Order} {
		if text != "" {
			out.Set(name, text)
		}
	}
	out.Set("begin", v.typedTime(s.House.Zone, b.Begin))
	if b.Due != 0 {
		out.Set("due", v.typedTime(s.House.Zone, b.Due))
	}
	return out
}

// typedTime is a time as a slip takes it, by the clock of whoever reads the
// page.
func (v visit) typedTime(house *time.Location, t ledger.Time) string {
	return time.UnixMilli(int64(t)).In(v.Units.In(house)).Format(typedLayout)
}

// apiWeeks answers programs.
func (s *Server) apiWeeks(v visit) (reply, error) {
	a, err := s.through(v)
	if err != nil {
		return reply{}, err
	}
	return toldJSON(func(w io.Writer) error { return a.JSON(w, s.Version) })
}
